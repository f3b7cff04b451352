/** In the browser: one skin of golden-sets.ts in all views and lights, or a sitting as it is, by the rooms that the real page uses. */
import figureUrl from '../../assets/sitter.glb?url'
import { type Bounce, bounceScene, createBounce, DRAGGING, type ListQuality } from '../../src/bounce'
import { type FigureAsset, readFigureAsset } from '../../src/figure'
import { createRayCaster } from '../../src/rays'
import { PictureRenderer, type ReExposure, recombinationOf } from '../../src/render'
import { createRigBuilder, type Rig } from '../../src/rig'
import type { Sitting } from '../../src/sitting'
import { goldenSitting, LIGHT_NAMES, type Skin, VIEWS } from './golden-sets'

export interface RowOrder {
  readonly skin: Skin
  /** Of one tile, pixels; a view's lights stand side by side. */
  readonly width: number
  readonly height: number
  readonly samples: number
}

export interface SceneOrder {
  readonly sitting: Sitting
  readonly exposure: ReExposure
  readonly width: number
  readonly height: number
  readonly samples: number
}

const base64 = (bytes: Uint8Array | Uint8ClampedArray): string => {
  let text = ''
  for (let i = 0; i < bytes.length; i += 0x8000) text += String.fromCharCode(...bytes.subarray(i, i + 0x8000))
  return btoa(text)
}

/** Those with which the goldens were drawn. */
const LISTS: ListQuality = { patchRays: 64, vertexRays: 32, linkEdge: 2, eyeCells: 24 }

let asset: FigureAsset | null = null
let renderer: PictureRenderer | null = null

function rendererOf({ width, height, samples }: Omit<RowOrder, 'skin'>): PictureRenderer {
  if (renderer?.size.width === width && renderer.size.height === height) return renderer
  renderer?.dispose()
  const canvas = document.createElement('canvas')
  renderer = new PictureRenderer({ canvas, width, height, target: samples, tileSize: 128 })
  return renderer
}

let listed: Bounce | null = null

/** Only the camera moves between views, so all go by one bounce; another skin is new paint on the same lists. */
function bounceOf(rig: Rig) {
  const scene = bounceScene(rig)
  listed ??= createBounce(scene, createRayCaster(scene.bodies), LISTS)
  const bounce = listed.repainted(scene)
  return { lights: rig.sources.map((source) => bounce.solve(source, DRAGGING)), receivers: bounce.receivers }
}

function sideBySide(tiles: readonly Uint8Array[], width: number, height: number): Uint8Array {
  const row = new Uint8Array(tiles.length * width * height * 3)
  tiles.forEach((tile, column) => {
    for (let y = 0; y < height; y++)
      row.set(tile.subarray(y * width * 3, (y + 1) * width * 3), (y * tiles.length + column) * width * 3)
  })
  return row
}

const tested = {
  /** sRGB bytes of each view's row, base64. */
  async rows(order: RowOrder): Promise<readonly string[]> {
    asset ??= readFigureAsset(new Uint8Array(await (await fetch(figureUrl)).arrayBuffer()))
    const build = createRigBuilder({ figure: asset })
    const picture = rendererOf(order)
    const rigs = VIEWS.map((view) => build(goldenSitting(view, order.skin)))
    const { lights, receivers } = bounceOf(rigs[0]!)
    return rigs.map((rig) => {
      picture.setRig(rig)
      picture.setIndirect(lights, receivers)
      while (!picture.step(200).done);
      const tiles = LIGHT_NAMES.map((solo) => picture.readDisplay(recombinationOf(rig, null, { solo })))
      return base64(sideBySide(tiles, order.width, order.height))
    })
  },
  /** sRGB bytes of a sitting through its camera, base64. */
  async scene(order: SceneOrder): Promise<string> {
    asset ??= readFigureAsset(new Uint8Array(await (await fetch(figureUrl)).arrayBuffer()))
    const rig = createRigBuilder({ figure: asset })(order.sitting)
    const scene = bounceScene(rig)
    const bounce = createBounce(scene, createRayCaster(scene.bodies), LISTS)
    const picture = rendererOf(order)
    picture.setRig(rig)
    picture.setIndirect(
      rig.sources.map((source) => bounce.solve(source, DRAGGING)),
      bounce.receivers,
    )
    while (!picture.step(200).done);
    return base64(picture.readDisplay(recombinationOf(rig, order.exposure)))
  },
  /** RGBA of a PNG, base64 both. */
  async decoded(png: string): Promise<string> {
    const image = await createImageBitmap(await (await fetch(`data:image/png;base64,${png}`)).blob())
    const context = new OffscreenCanvas(image.width, image.height).getContext('2d')!
    context.drawImage(image, 0, 0)
    return base64(context.getImageData(0, 0, image.width, image.height).data)
  },
}

export type Tested = typeof tested
Object.assign(window, { tested, ready: true })
