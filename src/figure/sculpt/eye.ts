import { brush, softBrush, tube } from './curves'
import * as data from './data/eye'
import { ellipsoid, mix, smoothMax, smoothMin, smoothStep } from './solids'

const crease = brush(data.LID_CREASE, 1, 1.25)
const lowerRoll = brush(data.LOWER_ROLL, -0.55, 2.6)
const lowerCrease = brush(data.LOWER_CREASE, 0.45, 1.3)
const tearTrough = softBrush(data.TEAR_TROUGH, 0.5, 4.5)
const browFold = tube(data.BROW_FOLD, 18)
const upperShape = lidShape(data.UPPER_LID)
const lowerShape = lidShape(data.LOWER_LID)

/** t^a (1 − t)^b scaled to a greatest value of 1, tabulated: it is asked for millions of times. */
function lidShape({ a, b }: { readonly a: number; readonly b: number }): (t: number) => number {
  const steps = 200
  const p = a / (a + b)
  const top = p ** a * (1 - p) ** b
  const table = Float64Array.from({ length: steps + 1 }, (_, i) => ((i / steps) ** a * (1 - i / steps) ** b) / top)
  return (t) => {
    if (t <= 0 || t >= 1) return 0
    const u = t * steps
    const i = Math.floor(u)
    return table[i] + (table[i + 1] - table[i]) * (u - i)
  }
}

export interface LidOpening {
  readonly upper: number
  readonly lower: number
}

const alongLids = (x: number): number => (x - data.INNER_CORNER[0]) / (data.OUTER_CORNER[0] - data.INNER_CORNER[0])

/** Heights of both lid margins at x, relative to the ball's centre (x outwards from the nose). */
export function lidMargins(x: number): LidOpening {
  const t = alongLids(x)
  const base = data.INNER_CORNER[1] + (data.OUTER_CORNER[1] - data.INNER_CORNER[1]) * t
  return {
    upper: base + data.UPPER_LID.height * upperShape(t) - 0.15,
    lower: base - data.LOWER_LID.height * lowerShape(t) + 0.15,
  }
}

/** Front-view distance to the lid opening, negative inside. */
export function lidOpening(x: number, y: number): number {
  const t = alongLids(x)
  if (t < 0) return Math.hypot(x - data.INNER_CORNER[0], y - data.INNER_CORNER[1])
  if (t > 1) return Math.hypot(x - data.OUTER_CORNER[0], y - data.OUTER_CORNER[1])
  const { upper, lower } = lidMargins(x)
  return 0.85 * Math.max(y - upper, lower - y)
}

/** The face with lids and the dimple that the ball sits in (no hole: the skin stays of genus 0). x ≥ 0. */
export function withEye(face: number, ax: number, y: number, z: number): number {
  let f = face + lowerRoll(ax, y, z) + lowerCrease(ax, y, z) + tearTrough(ax, y, z) + crease(ax, y, z)
  const x = ax - data.EYE_X
  // Beyond the reach of the fold's end, or its blending would be cut off in a dent.
  if (x * x + y * y + z * z > 29 * 29 || z < -20) return f
  f = smoothMin(f, ellipsoid(x + 0.6, y - 0.2, z, 16.6, 13.2, 13.9), 4.5)
  f = smoothMin(f, browFold(ax, y, z), 4.5)
  let floor = smoothMin(Math.sqrt(x * x + y * y + z * z) - 11.55, z - mix(2.6, 1.2, smoothStep(6, 11, x)), 1.5)
  // The caruncle, and before it the fold of the third lid against the ball.
  floor = smoothMin(floor, ellipsoid(x + 13.5, y + 1.2, z - 3.6, 2.1, 2.4, 2.7), 0.9)
  floor = smoothMin(floor, ellipsoid(x + 11.9, y + 1, z - 2.9, 1.6, 3.2, 2.2), 1.4)
  return smoothMax(f, -Math.max(lidOpening(x, y), -floor, -z - 2), 0.9)
}
