/**
 * In the browser: the picture's direct light against three-gpu-pathtracer, over one hard-made set of matt surfaces and one
 * uniform lit face. Each is held against the other's long picture, so neither judges itself. run.mjs calls window.judge.
 */
import type { FigureAsset } from '../../../src/figure'
import { discFactorOnAxis, facingRectangle } from '../../../src/photometry'
import type { Rig } from '../../../src/rig'
import { ALBEDO, bareWall, type LampName, mattStudio, SURFACES } from '../gpu/matt-studio'
import { luminanceOf, type MissesByRegion, missesByRegion, type Regions, regionsOf } from '../gpu/pixels'
import { crossing } from '../gpu/statistics.mjs'
import { Easel, finish, loadFigure, startAgain } from '../gpu/studio'
import { Tracer } from './tracer'

export interface JudgeOrder {
  readonly lamp: LampName
  /** Samples of the picture's timed runs. */
  readonly counts: readonly number[]
  /** Samples of the picture's own long run. */
  readonly reference: number
  /** How long the path tracer may draw, s. */
  readonly seconds: number
}

export interface CurvePoint {
  readonly samples: number
  readonly ms: number
  /** Against the other's long picture. */
  readonly misses: MissesByRegion
}

export interface OwnPoint extends CurvePoint {
  /** Against the picture's own long run of another seed: free of the path tracer's noise, blind to a common fault. */
  readonly ownMisses: MissesByRegion
}

const SEED = 1
const REFERENCE_SEED = 7919
const WALL_SAMPLES = 256

let figure: FigureAsset
let easel: Easel
let tracer: Tracer

/** Radiance on the axis of the lit face, 1 m before a matt wall, per luminance of the face: [Howell] B-12, B-3. */
function closedForm(lamp: LampName): number {
  const surface = SURFACES[lamp]
  if (surface.shape === 'disc') return ALBEDO * discFactorOnAxis(surface.radiusM, 1)
  return (ALBEDO * facingRectangle(surface.widthM, surface.heightM, 1)) / Math.PI
}

/** Mean over a block of about 2 cm about the picture's middle, where the axis meets the wall. */
function middleOf(luminance: Float32Array, width: number, height: number): number {
  const half = Math.max(1, Math.round(width / 80))
  let [sum, count] = [0, 0]
  for (let y = height / 2 - half; y < height / 2 + half; y++)
    for (let x = width / 2 - half; x < width / 2 + half; x++) {
      sum += luminance[y * width + x]
      count++
    }
  return sum / count
}

async function ownPicture(rig: Rig, samples: number, seed: number): Promise<Float32Array> {
  const renderer = easel.renderer(samples, { seed })
  renderer.setRig(rig)
  await finish(renderer)
  const luminance = luminanceOf(renderer.readLayer('A'))
  renderer.dispose()
  return luminance
}

interface Truths {
  readonly traced: Float32Array
  readonly own: Float32Array
}

async function ownCurve(rig: Rig, counts: readonly number[], truths: Truths, regions: Regions) {
  const curve: OwnPoint[] = []
  for (const samples of counts) {
    const renderer = easel.renderer(samples, { seed: SEED })
    renderer.setRig(rig)
    await finish(renderer)
    startAgain(renderer, rig)
    easel.wait()
    const start = performance.now()
    while (!renderer.step(1e6).done);
    const ms = performance.now() - start
    const picture = luminanceOf(renderer.readLayer('A'))
    const misses = missesByRegion(picture, truths.traced, regions)
    curve.push({ samples, ms, misses, ownMisses: missesByRegion(picture, truths.own, regions) })
    renderer.dispose()
  }
  return curve
}

/** Doubles the samples until the time is up. Time counts drawing and waiting, not reading the pictures back. */
async function tracedPictures(seconds: number) {
  const pictures: { samples: number; ms: number; luminance: Float32Array }[] = []
  let ms = 0
  for (let samples = 1; ms < (seconds * 1000) / 2 || pictures.length < 2; samples *= 2) {
    const start = performance.now()
    tracer.drawTo(samples)
    ms += performance.now() - start
    pictures.push({ samples, ms, luminance: luminanceOf(tracer.read()) })
    await new Promise((resolve) => setTimeout(resolve))
  }
  return pictures
}

/** How much longer the path tracer takes to the same error; where it never got there, by its last error and 1/√N. */
function equalError(own: OwnPoint, which: 'misses' | 'ownMisses', traced: readonly CurvePoint[]) {
  const error = own[which].inside.rmse
  const curve = traced.map(({ ms, misses }) => ({ x: ms, error: misses.inside.rmse }))
  const met = crossing(curve, error)
  const last = curve[curve.length - 1]
  const tracedMs = met ?? last.x * (last.error / error) ** 2
  return { samples: own.samples, error, ownMs: own.ms, tracedMs, extrapolated: met === null, ratio: tracedMs / own.ms }
}

const judge = {
  async open(figureUrl: string, width: number, height: number): Promise<void> {
    figure = await loadFigure(figureUrl)
    easel = new Easel(width, height)
    tracer = new Tracer(width, height)
  },

  /** Both against the closed form: 1 is right. */
  async bareWall(lamp: LampName) {
    const { width, height } = easel
    const rig = bareWall(lamp)
    tracer.setRig(rig)
    const start = performance.now()
    await tracer.warmUp()
    const compiledMs = performance.now() - start
    tracer.drawTo(WALL_SAMPLES)
    const traced = middleOf(luminanceOf(tracer.read()), width, height) / closedForm(lamp)
    const own = middleOf(await ownPicture(rig, WALL_SAMPLES, SEED), width, height) / closedForm(lamp)
    return { samples: WALL_SAMPLES, own, traced, compiledMs }
  },

  async sitter({ lamp, counts, reference, seconds }: JudgeOrder) {
    const rig = mattStudio(figure, lamp)
    const regions = regionsOf(rig, easel.width, easel.height)
    const ownTruth = await ownPicture(rig, reference, REFERENCE_SEED)
    tracer.setRig(rig)
    await tracer.warmUp()
    const pictures = await tracedPictures(seconds)
    const tracedTruth = pictures[pictures.length - 1]
    const traced = pictures.map(({ samples, ms, luminance }) => ({
      samples,
      ms,
      misses: missesByRegion(luminance, ownTruth, regions),
    }))
    const own = await ownCurve(rig, counts, { traced: tracedTruth.luminance, own: ownTruth }, regions)
    return {
      pixels: regions.pixels,
      ownSamples: reference,
      tracedSamples: tracedTruth.samples,
      /** The picture's long run against the path tracer's: bias, and RMSE with the path tracer's own noise in it. */
      converged: missesByRegion(ownTruth, tracedTruth.luminance, regions),
      own,
      traced,
      equalError: own.map((point) => equalError(point, 'misses', traced)),
      equalOwnError: own.map((point) => equalError(point, 'ownMisses', traced)),
    }
  },
}

Object.assign(window, { judge, ready: true })
