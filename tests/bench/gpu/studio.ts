import { bounceScene, createBounce, DRAGGING, type IndirectLight, type Receivers, TURNING } from '../../../src/bounce'
import { exposureScale } from '../../../src/camera'
import { type FigureAsset, readFigureAsset } from '../../../src/figure'
import { createRayCaster } from '../../../src/rays'
import { PictureRenderer, type Recombination } from '../../../src/render'
import { createRigBuilder, type Rig } from '../../../src/rig'
import { problemSentence, readSitting, type Sitting, setCamera } from '../../../src/sitting'
import { withSources } from './six-sources'

const texts = import.meta.glob<string>('../../../scenes/*.sitting.json', {
  query: '?raw',
  import: 'default',
  eager: true,
})

/** A sitting ready to be drawn: as the page holds it while a lamp is dragged. */
export interface Studio {
  readonly name: string
  readonly sitting: Sitting
  readonly build: (sitting: Sitting) => Rig
  readonly rig: Rig
  readonly indirect: { readonly lights: readonly IndirectLight[]; readonly receivers: Receivers }
}

export async function loadFigure(url: string): Promise<FigureAsset> {
  const response = await fetch(url)
  if (!response.ok) throw new Error(`${url}: ${response.status}`)
  return readFigureAsset(new Uint8Array(await response.arrayBuffer()))
}

/** One of the shipped scenes, or the notice board with 'N sources'. The camera is turned on its side (36 × 27 mm): the bench's picture is wider than high. */
export function openStudio(name: string, figure: FigureAsset): Studio {
  const [, count] = /^(\d) sources$/.exec(name) ?? []
  const shipped = sceneNamed(count ? 'notice-board' : name)
  const sitting = setCamera(count ? withSources(shipped, Number(count)) : shipped, {
    sensorWidthMm: 36,
    sensorHeightMm: 27,
  })
  const build = createRigBuilder({ figure })
  const rig = build(sitting)
  const scene = bounceScene(rig)
  const bounce = createBounce(scene, createRayCaster(scene.bodies), TURNING)
  const lights = rig.sources.map((source) => bounce.solve(source, DRAGGING))
  return { name, sitting, build, rig, indirect: { lights, receivers: bounce.receivers } }
}

function sceneNamed(name: string): Sitting {
  const read = readSitting(texts[`../../../scenes/${name}.sitting.json`])
  if ('problems' in read) throw new Error(read.problems.map(problemSentence).join('\n'))
  return read.sitting
}

export const recombinationOf = (rig: Rig, gain = 1): Recombination => ({
  weights: rig.sources.map(({ id, on, axialIntensity, colour }) => ({
    sourceId: id,
    on,
    factor: axialIntensity * gain,
    rgb: colour,
  })),
  exposure: exposureScale(rig.view.iso, rig.view.fNumber),
  mode: 'plain',
})

/** One canvas and one context for all renderers of a size, as browsers allow a page only a few contexts. */
export class Easel {
  private readonly first: PictureRenderer

  constructor(
    readonly width: number,
    readonly height: number,
  ) {
    const canvas = document.createElement('canvas')
    this.first = new PictureRenderer({ canvas, width, height })
  }

  get gl(): WebGL2RenderingContext {
    return this.first.renderer.getContext() as WebGL2RenderingContext
  }

  renderer(target: number, options: { readonly seed?: number; readonly antialias?: boolean } = {}): PictureRenderer {
    const { width, height } = this
    return new PictureRenderer({ renderer: this.first.renderer, width, height, target, ...options })
  }

  /** Blocks until everything asked for so far is drawn, by reading a pixel of the canvas. */
  wait(): void {
    const { renderer } = this.first
    const pixel = new Uint8Array(4)
    renderer.setRenderTarget(null)
    this.gl.readPixels(0, 0, 1, 1, this.gl.RGBA, this.gl.UNSIGNED_BYTE, pixel)
  }

  dispose(): void {
    this.first.dispose()
    this.gl.getExtension('WEBGL_lose_context')?.loseContext()
  }
}

/** Draws until the target; the work comes in pieces of any length. Lets the page breathe between steps of 100 ms. */
export async function finish(renderer: PictureRenderer): Promise<void> {
  while (!renderer.step(100).done) await breath()
}

export const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve))

/** Every source starts again with nothing but compiled programs. */
export function startAgain(renderer: PictureRenderer, rig: Rig, how: Recombination | null = null): void {
  renderer.setRig({ ...rig, view: { ...rig.view, focalLengthMm: rig.view.focalLengthMm + 1 } })
  renderer.setRig(rig, false, how)
}
