import { spline } from './curves'
import * as data from './data/worn'
import { clamp01, type Field, mix, smoothMax, smoothMin, smoothStep } from './solids'

const LEVEL = Math.sqrt(1 + data.HAT_SLOPE ** 2)
const crownShare = spline(data.CROWN)

/** Where a point is as the hat sees it: height over its plane, and depth along it from the middle of the oval. */
export interface InHat {
  readonly height: number
  readonly depth: number
  /** Distance from the hat's axis over that of the crown's inside in the same direction, in the plane. */
  readonly share: number
  /** Distance from the axis. */
  readonly radius: number
}

export function inHat(x: number, y: number, z: number): InHat {
  const [y0, z0] = data.HAT_FRONT
  const m = data.HAT_SLOPE
  const height = (y - y0 - m * (z - z0)) / LEVEL
  const depth = (z - data.HAT_MIDDLE_Z + m * (y - y0 + m * (z0 - data.HAT_MIDDLE_Z))) / LEVEL
  const p = data.HAT_OVAL
  const share = (Math.abs(x / data.HAT_HALF_BREADTH) ** p + Math.abs(depth / data.HAT_HALF_DEPTH) ** p) ** (1 / p)
  return { height, depth, share, radius: Math.sqrt(x * x + depth * depth) }
}

/** Distance from the inside of the crown's side. */
const side = ({ share, radius, height }: InHat): number =>
  share < 0.2 ? -60 : (radius * (share - crownShare(height))) / share

/** Distance from the crown's top, dented along the middle and lower in front. */
function top({ height, depth }: InHat, x: number): number {
  const [deep, half] = data.DENT
  const dent = deep * Math.exp(-((x / half) ** 2)) * smoothStep(-88, -30, depth)
  return height - (data.CROWN_HEIGHT - dent - 10 * smoothStep(10, 90, depth))
}

const crown = (at: InHat, x: number): number => smoothMax(side(at), top(at, x), 32)

/** How the brim lies over the plane: it dips in front and behind and lifts at the sides, ever more towards its edge. */
function brim(at: InHat): number {
  if (at.share < 0.2) return 60
  const beyond = at.radius - at.radius / at.share
  const across = 1 - (at.depth / at.radius) ** 2
  const breadth = mix(data.BRIM, data.BRIM_SIDE, across)
  const t = clamp01(beyond / breadth)
  const lie = mix(-data.BRIM_DIP, data.BRIM_LIFT, smoothStep(0.1, 0.9, across)) * t * t
  return smoothMax(Math.abs(at.height - lie) - data.FELT / 2, beyond - breadth, 2)
}

/** A felt hat with a crown and a brim, as one closed solid: the felt. */
export const hatField: Field = (x, y, z) => {
  const at = inHat(x, y, z)
  const ribbon = 1.1 * smoothStep(1, 2.5, at.height) * smoothStep(29, 27.5, at.height)
  const inside = crown(at, x)
  const outer = smoothMax(inside - data.FELT - ribbon, -at.height - data.FELT / 2, 2)
  const felt = smoothMin(outer, brim(at), 5)
  return Math.max(felt, -inside) * 0.9
}

/** The ribbon is darker than the felt. */
export function hatTint(x: number, y: number, z: number): readonly [number, number, number] {
  const at = inHat(x, y, z)
  const [from, to] = data.RIBBON
  const isRibbon = at.height > from - 0.5 && at.height < to + 0.5 && side(at) > data.FELT / 2 && at.share < 1.12
  const tone = isRibbon ? 0.35 : 1
  return [tone, tone, tone]
}

/** A point of the hair, moved in where it would stand out of the crown's inside; mm. */
export function pressedUnderHat(x: number, y: number, z: number): readonly [number, number, number] {
  const at = inHat(x, y, z)
  const under = smoothStep(-14, 2, at.height)
  if (under === 0) return [x, y, z]
  const room = at.height > 0 ? crownShare(at.height) - 0.012 : 0.99
  const k = at.share > room ? mix(1, room / at.share, under) : 1
  return [x * k, y, data.HAT_MIDDLE_Z + (z - data.HAT_MIDDLE_Z) * k]
}
