import type { PictureRenderer } from '../../../src/render'
import type { Rig } from '../../../src/rig'
import { luminanceOf, type MissesByRegion, missesByRegion, type Regions, regionsOf } from './pixels'
import { crossing, spreadOf } from './statistics.mjs'
import { type Easel, finish, recombinationOf, type Studio, startAgain } from './studio'

export interface ConvergenceOrder {
  readonly counts: readonly number[]
  /** Timed runs of each count; the middle one counts. */
  readonly repeats: number
  /** Samples a source of the picture that the others are held against, drawn with another seed. */
  readonly reference: number
  /** false: all through the pixels' middles, so that light alone is compared and no antialiasing. */
  readonly antialias: boolean
}

export interface ConvergenceRow {
  readonly samples: number
  /** From nothing to the last pixel, ms. */
  readonly ms: number
  /** Per cent of the reference's mean linear luminance. */
  readonly misses: MissesByRegion
}

export interface Convergence {
  readonly rows: readonly ConvergenceRow[]
  readonly reference: number
  readonly pixels: Regions['pixels']
  /** When the error over all pixels, and over those away from outlines, first falls to 1 %, ms; null: not yet. */
  readonly msToOnePercent: { readonly all: number | null; readonly inside: number | null }
}

const SEED = 1
const REFERENCE_SEED = 7919

/** From nothing to so many samples of every source, the middle of some runs, ms. */
export async function timeSamples(easel: Easel, lit: Lit, samples: number, repeats: number): Promise<number> {
  const renderer = prepared(easel, lit, samples, SEED, true)
  await finish(renderer)
  const ms = timeFromNothing(easel, renderer, lit.rig, repeats)
  renderer.dispose()
  return ms
}

type Lit = Pick<Studio, 'rig'> & Partial<Pick<Studio, 'indirect'>>

export async function converge(easel: Easel, lit: Lit, order: ConvergenceOrder): Promise<Convergence> {
  const { counts, repeats, reference, antialias } = order
  const regions = regionsOf(lit.rig, easel.width, easel.height)
  const judge = prepared(easel, lit, reference, REFERENCE_SEED, antialias)
  await finish(judge)
  const truth = luminanceOf(judge.readLinear(recombinationOf(lit.rig)))
  judge.dispose()
  const rows: ConvergenceRow[] = []
  for (const samples of counts) {
    const renderer = prepared(easel, lit, samples, SEED, antialias)
    await finish(renderer)
    const ms = timeFromNothing(easel, renderer, lit.rig, repeats)
    const misses = missesByRegion(luminanceOf(renderer.readLinear(recombinationOf(lit.rig))), truth, regions)
    rows.push({ samples, ms, misses })
    renderer.dispose()
  }
  const toOnePercent = (region: 'all' | 'inside') =>
    crossing(
      rows.map(({ ms, misses }) => ({ x: ms, error: misses[region].rmse })),
      1,
    )
  const msToOnePercent = { all: toOnePercent('all'), inside: toOnePercent('inside') }
  return { rows, reference, pixels: regions.pixels, msToOnePercent }
}

export interface TimedOrder {
  /** Milliseconds of work after which the picture is looked at. */
  readonly marks: readonly number[]
  readonly reference: number
}

/** The error of a picture as time goes by, whichever source gets its samples when. */
export async function errorInTime(easel: Easel, lit: Lit, { marks, reference }: TimedOrder) {
  const regions = regionsOf(lit.rig, easel.width, easel.height)
  const judge = prepared(easel, lit, reference, REFERENCE_SEED, true)
  await finish(judge)
  const truth = luminanceOf(judge.readLinear(recombinationOf(lit.rig)))
  judge.dispose()
  const renderer = prepared(easel, lit, 4 * reference, SEED, true)
  const how = recombinationOf(lit.rig)
  startAgain(renderer, lit.rig, how)
  for (let batch = 0; batch < WARM_STEPS; batch++) renderer.step(100)
  startAgain(renderer, lit.rig, how)
  easel.wait()
  let spent = 0
  const rows = marks.map((mark) => {
    while (spent < mark) {
      const start = performance.now()
      renderer.step(mark - spent)
      easel.wait()
      spent += performance.now() - start
    }
    const misses = missesByRegion(luminanceOf(renderer.readLinear(recombinationOf(lit.rig))), truth, regions)
    return { ms: spent, samples: [...renderer.progress.samples.values()], misses }
  })
  renderer.dispose()
  const after = (region: 'all' | 'inside') =>
    crossing(
      rows.map(({ ms, misses }) => ({ x: ms, error: misses[region].rmse })),
      1,
    )
  return { rows, msToOnePercent: { all: after('all'), inside: after('inside') } }
}

/** Of 100 ms, after which every program is compiled. */
const WARM_STEPS = 20

/** The first picture after a move of the head, under a moving hand and at rest, against a long one, in per cent. */
export async function firstMisses(easel: Easel, studio: Studio, moved: Rig, reference: number) {
  const regions = regionsOf(moved, easel.width, easel.height)
  const drawn = async (target: number, seed: number, isMoving: boolean, isTrue = false) => {
    const renderer = prepared(easel, studio, target, seed, true)
    await finish(renderer)
    renderer.setRig(moved, isMoving, isTrue ? null : recombinationOf(moved))
    while (renderer.isWaiting || (isTrue && !renderer.progress.done)) renderer.step(100)
    const light = luminanceOf(renderer.readLinear(recombinationOf(moved)))
    renderer.dispose()
    return light
  }
  const truth = await drawn(reference, REFERENCE_SEED, false, true)
  const missesOf = async (isMoving: boolean) => missesByRegion(await drawn(16, SEED, isMoving), truth, regions)
  return { moving: await missesOf(true), resting: await missesOf(false) }
}

function prepared(easel: Easel, { rig, indirect }: Lit, target: number, seed: number, antialias: boolean) {
  const renderer = easel.renderer(target, { seed, antialias })
  renderer.setRig(rig)
  if (indirect) renderer.setIndirect(indirect.lights, indirect.receivers)
  return renderer
}

/** Median of the runs; the last one's picture stays in the layers. */
function timeFromNothing(easel: Easel, renderer: PictureRenderer, rig: Rig, repeats: number): number {
  const times = Array.from({ length: repeats }, () => {
    startAgain(renderer, rig)
    easel.wait()
    const start = performance.now()
    while (!renderer.step(1e6).done);
    renderer.recombine(recombinationOf(rig))
    easel.wait()
    return performance.now() - start
  })
  return spreadOf(times).median!
}
