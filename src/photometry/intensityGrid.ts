import type { Vec3 } from '../space'
import { type IntensityTable, intensityAt } from './intensityTable'
import { fluxByLines } from './photometricFile'
import type { Candela, Radians } from './units'

/**
 * An intensity table on even steps, as the picture reads it out of a texture: one row a plane, evenly from 0° to 360°, one
 * number an angle, evenly from the first to the last of the table; dark outside. Relative to the brightest direction.
 */
export interface IntensityGrid {
  readonly planes: number
  readonly angles: number
  readonly first: Radians
  readonly last: Radians
  readonly values: Float32Array
  /** Of the brightest direction. */
  readonly peak: Candela
}

/** Which half of the directions a flat opening sends out: about the axis of the table, or about its contrary. */
export type OpeningSide = 'front' | 'back'

const DEG = Math.PI / 180
/** Angles are told to a thousandth of a degree; tables with no common step of that kind are asked anew in the finest one. */
const TICKS = 1000
const MOST = { angles: 721, planes: 361 }

/** Where all angles of the table lie on even steps, as they mostly do, its own numbers; else linear between them. */
export function intensityGrid(table: IntensityTable): IntensityGrid {
  const { planesDeg, anglesDeg } = table
  const [planes, angles] = [evenSteps(planesDeg, MOST.planes), evenSteps(anglesDeg, MOST.angles)]
  const [firstDeg, lastDeg] = [anglesDeg[0]!, anglesDeg[anglesDeg.length - 1]!]
  const candela = Array.from({ length: planes * angles }, (_, i) => {
    const angle = i % angles
    // The last angle itself: a sum of steps may end beyond it, where all is dark.
    const at = angle === angles - 1 ? lastDeg : firstDeg + ((lastDeg - firstDeg) * angle) / (angles - 1)
    return intensityAt(table, (360 * (Math.floor(i / angles) % (planes - 1))) / (planes - 1), at)
  })
  const peak = candela.reduce((most, value) => Math.max(most, value), 0)
  const values = Float32Array.from(candela, (value) => value / peak)
  return { planes, angles, first: firstDeg * DEG, last: lastDeg * DEG, values, peak }
}

/** Entries of a row of even steps that has all of these: by their greatest common step, at most so many. */
function evenSteps(ascending: readonly number[], most: number): number {
  const ticks = ascending.map((value) => Math.round((value - ascending[0]!) * TICKS))
  const step = ticks.reduce(greatestCommon, 0)
  return step > 0 ? Math.min(ticks[ticks.length - 1]! / step + 1, most) : most
}

const greatestCommon = (a: number, b: number): number => (b === 0 ? a : greatestCommon(b, a % b))

/** Share of the brightest intensity in a unit direction of an opening's frame: +z out of that side, +x in the plane of 0°. */
export function intensityPass(grid: IntensityGrid, side: OpeningSide, [x, y, z]: Vec3): number {
  const { planes, angles, first, last, values } = grid
  const turn = side === 'front' ? 1 : -1
  const t = ((Math.atan2(Math.hypot(x, y), turn * z) - first) / (last - first)) * (angles - 1)
  if (t < 0 || t > angles - 1) return 0
  const round = Math.atan2(y, turn * x) / (2 * Math.PI)
  const p = (round - Math.floor(round)) * (planes - 1)
  const [plane, angle] = [Math.min(Math.floor(p), planes - 2), Math.min(Math.floor(t), angles - 2)]
  const at = (i: number, j: number) => values[(plane + i) * angles + angle + j]!
  const along = (i: number) => at(i, 0) + (t - angle) * (at(i, 1) - at(i, 0))
  return along(0) + (p - plane) * (along(1) - along(0))
}

/** Flux of one half of the directions, per candela of the brightest: straight lines between angles, integrated. */
export function fluxOfGrid({ planes, angles, first, last, values }: IntensityGrid, side: OpeningSide): number {
  const steps = Array.from({ length: angles }, (_, j) => {
    let sum = 0
    for (let plane = 0; plane + 1 < planes; plane++)
      sum += (values[plane * angles + j]! + values[(plane + 1) * angles + j]!) / 2
    return { angle: first + ((last - first) * j) / (angles - 1), value: sum / (planes - 1) }
  })
  const half = withLevel(steps).filter(({ angle }) => (side === 'front' ? angle <= LEVEL : angle >= LEVEL))
  return fluxByLines(
    half.map(({ angle }) => angle),
    half.map(({ value }) => value),
  )
}

const LEVEL = Math.PI / 2
/** A zone narrower than this has no slope. */
const SLIGHT = 1e-9

/** The same steps with one at the level, where they lie to both sides of it. */
function withLevel(steps: readonly Step[]): readonly Step[] {
  const snapped = steps.map((step) => (Math.abs(step.angle - LEVEL) < SLIGHT ? { ...step, angle: LEVEL } : step))
  const next = snapped.findIndex(({ angle }) => angle >= LEVEL)
  if (next <= 0 || snapped[next]!.angle === LEVEL) return snapped
  return [...snapped.slice(0, next), between(snapped[next - 1]!, snapped[next]!, LEVEL), ...snapped.slice(next)]
}

interface Step {
  readonly angle: Radians
  readonly value: number
}

const between = (a: Step, b: Step, angle: Radians): Step => ({
  angle,
  value: a.value + ((angle - a.angle) / (b.angle - a.angle)) * (b.value - a.value),
})

type Four = readonly [number, number, number, number]

/** As the shader reads it (intensityPass in emission.glsl); the values are its texture. */
export const packIntensities = (
  { planes, angles, first, last }: IntensityGrid,
  side: OpeningSide,
): { readonly a: Four; readonly b: Four } => ({
  a: [first, (angles - 1) / (last - first), angles - 1, side === 'front' ? 1 : -1],
  b: [planes - 1, 0, 0, 0],
})
