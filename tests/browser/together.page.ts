/** In the browser: three coloured sources with a white and a silver panel, drawn as one and each by itself. */
import figureUrl from '../../assets/sitter.glb?url'
import noticeBoard from '../../scenes/notice-board.sitting.json'
import { bounceScene, createBounce, DRAGGING, type IndirectLight } from '../../src/bounce'
import { readFigureAsset } from '../../src/figure'
import { createRayCaster } from '../../src/rays'
import { PictureRenderer, type Recombination, recombinationOf } from '../../src/render'
import { createRigBuilder, type Rig } from '../../src/rig'
import { readSitting } from '../../src/sitting'
import { withSources } from '../bench/gpu/six-sources'

const SIZE = { width: 72, height: 96 }
const SAMPLES = 64
/** Of luminance 1, but far from white. */
const COLOURS = [
  [1.6, 0.85, 0.7],
  [0.7, 1.06, 1.3],
  [1, 1, 1],
] as const

const base64 = (values: Float32Array | Uint8Array): string => {
  const bytes = new Uint8Array(values.buffer, values.byteOffset, values.byteLength)
  let text = ''
  for (let i = 0; i < bytes.length; i += 0x8000) text += String.fromCharCode(...bytes.subarray(i, i + 0x8000))
  return btoa(text)
}

/** An eighth of the panels' points, as processors that draw are slow to sum them. */
const fewer = (light: IndirectLight): IndirectLight => ({
  ...light,
  points: light.points.filter((_, i) => i % 8 === 0).map((point) => ({ ...point, areaM2: 8 * point.areaM2 })),
})

async function studio() {
  const figure = readFigureAsset(new Uint8Array(await (await fetch(figureUrl)).arrayBuffer()))
  const read = readSitting(JSON.stringify(noticeBoard))
  if ('problems' in read) throw new Error('notice board: no sitting')
  const built = createRigBuilder({ figure })(withSources(read.sitting, COLOURS.length))
  const rig: Rig = { ...built, sources: built.sources.map((source, i) => ({ ...source, colour: COLOURS[i]! })) }
  const scene = bounceScene(rig)
  const bounce = createBounce(scene, createRayCaster(scene.bodies), { patchRays: 64, vertexRays: 32, linkEdge: 2 })
  const lights = rig.sources.map((source) => fewer(bounce.solve(source, DRAGGING)))
  return { rig, lights, receivers: bounce.receivers }
}

/** The same light, but for a gain of the first source and of all. */
const weighed = (how: Recombination, first: number, all: number): Recombination => ({
  ...how,
  weights: how.weights.map((weight, i) => ({ ...weight, factor: weight.factor * all * (i === 0 ? first : 1) })),
})

/** The first picture of all under a moving hand, then a longer one at rest. */
function first({ rig, lights, receivers }: Awaited<ReturnType<typeof studio>>, sumsPanels: boolean) {
  const how: Recombination = recombinationOf(rig, null)
  const canvas = document.createElement('canvas')
  const picture = new PictureRenderer({ canvas, ...SIZE, target: SAMPLES, tileSize: 128, antialias: false, sumsPanels })
  const restart = (isMoving: boolean, shown: Recombination | null) => {
    picture.setRig({ ...rig, view: { ...rig.view, focalLengthMm: rig.view.focalLengthMm + 1 } }, isMoving)
    picture.setRig(rig, isMoving, shown)
  }
  const drawn = (isMoving: boolean) => {
    restart(isMoving, how)
    picture.setIndirect(lights, receivers)
    while (picture.isWaiting) picture.step(200)
    return picture.readLinear(how)
  }
  const moving = drawn(true)
  return { picture, restart, how, moving, together: drawn(false) }
}

const tested = {
  /**
   * The first picture of all under a moving hand, a longer one at rest, both again with the panels' points summed; all brighter; that of
   * the sources' own layers: RGBA floats; where sitters are;
   * and whether a picture of all waits after another gain of all, and of one.
   */
  async pictures() {
    const set = await studio()
    const { picture, restart, how, moving, together } = first(set, false)
    picture.weigh(weighed(how, 1, 2))
    const waits = [picture.isWaiting]
    const brighter = picture.readLinear(weighed(how, 1, 2))
    picture.weigh(weighed(how, 2, 2))
    waits.push(picture.isWaiting)
    restart(false, null)
    while (!picture.step(200).done);
    const apart = picture.readLinear(how)
    const sitters = base64(picture.readSitters())
    picture.dispose()
    const summed = first(set, true)
    const pixels = [moving, together, summed.moving, summed.together, brighter, apart].map(base64)
    return { pixels, sitters, waits }
  },
}

export type Tested = typeof tested
Object.assign(window, { tested, ready: true })
