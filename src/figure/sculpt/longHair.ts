import type { Strand } from './crop'
import { spline } from './curves'
import * as data from './data/worn'
import {
  creased,
  drifted,
  type Edge,
  fadeWidth,
  hairlineOf,
  locks,
  OUTSIDE,
  RISING,
  ROOT_DEPTH,
  risen,
  underSkin,
} from './hair'
import { valueNoise } from './noise'
import { ease, type Field, mix, smoothMax, smoothMin, smoothStep } from './solids'

const edgeAt = hairlineOf(spline(data.LONG_HAIRLINE))
const halfBreadth = spline(data.FALL_HALF_BREADTH)
const backZ = spline(data.FALL_BACK_Z)
const frontZ = spline(data.FALL_FRONT_Z)

/**
 * Strands swept from the forehead over the head and then down, each keeping its place in the mass that hangs: angle about an
 * axis on the head, then about the middle of the fall; distance along it, mm.
 */
export function longStrand(x: number, y: number, z: number): Strand {
  const [py, pz] = data.STRAND_PIVOT
  const hangs = smoothStep(70, -50, y)
  const slope = mix(data.STRANDS_ON_HEAD_RAD, Math.PI / 2, hangs)
  const [c, s] = [Math.cos(data.STRANDS_ON_HEAD_RAD), Math.sin(data.STRANDS_ON_HEAD_RAD)]
  const along = -(y - py) * Math.sin(slope) - (z - pz) * Math.cos(slope)
  const up = (y - py) * c - (z - pz) * s
  const behind = behindMiddle(y, z)
  const wave = (valueNoise(along * 0.018 + 9, x * 0.009 + 5, up * 0.009) - 0.5) * mix(0.15, 0.26, hangs)
  return [mix(Math.atan2(x, up), Math.atan2(x / halfBreadth(y), behind), hangs) + wave, along]
}

/** How far behind the middle of the fall, in halves of its depth. */
function behindMiddle(y: number, z: number): number {
  const [front, back] = [frontZ(y), backZ(y)]
  return (front + back - 2 * z) / (front - back)
}

/** 0 where strands meet at the middle of the fall, and where their angle begins again before it: what goes by it must end there. */
function apart(x: number, y: number, z: number, angle: number): number {
  const middle = smoothStep(0.3, 0.85, Math.hypot(x / halfBreadth(y), behindMiddle(y, z)))
  return mix(1, middle * smoothStep(2.9, 2.2, Math.abs(angle)), smoothStep(70, -50, y))
}

/** Depth over the skull: as short hair in front, fuller behind and over the ears. */
function capDepth(y: number, z: number): number {
  const top = ease(22, 112, y)
  const front = ease(-110, 5, z) * ease(40, 92, y)
  return mix(4, 8, ease(-30, 54, y)) + 8 * top + 2 * front + 4 * ease(-30, -130, z)
}

function capSurface({ inside: edge, deep }: Edge, y: number, z: number): number {
  const depth = capDepth(y, z)
  const rise = 44 + 40 * ease(10, 74, y) * ease(-110, -30, z)
  return edge < 0 ? underSkin(edge, (RISING * depth) / rise) : depth * risen(deep / rise)
}

/** Height of the cap of long hair over a place of the skin, mm. */
export const longHairHeight = (x: number, y: number, z: number): number => {
  const strand = longStrand(x, y, z)
  return capSurface(drifted(edgeAt, x, y, z), y, z) + apart(x, y, z, strand[0]) * relief(strand, y)
}

/** 1 at the front edge of the hair beside cheek and neck, 0 from some centimetres behind it on, and above the temple. */
export const atFrontEdge = (y: number, z: number): number => smoothStep(26, 6, frontZ(y) - z) * smoothStep(32, 4, y)

/** The mass that hangs from the head: an oval column behind the front edge, hollowed towards the neck. */
function fall(x: number, y: number, z: number, [angle]: Strand): number {
  const breadth = halfBreadth(y)
  const back = backZ(y)
  const middle = -95
  const round = Math.hypot(x / breadth, (z - middle) / (middle - back))
  let f = (round - 1) * Math.min(breadth, middle - back) + waves(angle, y)
  const front = frontZ(y) - 0.5 * Math.max(0, breadth - Math.abs(x)) * smoothStep(-165, -120, y)
  f = smoothMax(f, z - front, 20)
  f = smoothMax(f, y - data.FALL_TOP_Y, 24)
  return smoothMax(f, endY(angle, apart(x, y, z, angle)) - y, 8)
}

/** Tresses swing to and fro as they hang, mm. */
const waves = (angle: number, y: number): number =>
  smoothStep(10, -60, y) * 7 * (valueNoise(angle * 1.3 + 20, y * 0.021, 6.5) - 0.5)

/** Where the tips end, lock by lock. */
const endY = (angle: number, uneven: number): number =>
  mix(data.FALL_END_Y, data.SHOULDER_END_Y, smoothStep(0.9, 2.2, Math.abs(angle))) +
  uneven * (15 * (valueNoise(angle * 5 + 40, 1.5, 2.5) - 0.5) + 8 * (valueNoise(angle * 15, 4.5, 2.5) - 0.5))

/** As growth of short hair, at the hairline of the face and, strand by strand, at the tips; not a number of the skin. */
export function longGrowth(x: number, y: number, z: number): number {
  // From before the ear down it stands off the skin: thinned out there it would be a hole.
  const isFree = smoothStep(14, -6, y)
  const [angle] = longStrand(x, y, z)
  const atEnds = (y - endY(angle, apart(x, y, z, angle)) - 12) / 19
  const atEdge = drifted(edgeAt, x, y, z).inside / fadeWidth(x, Math.max(y, 36), z)
  return Math.min(mix(atEdge, 6, isFree), Math.max(atEnds, -2))
}

/** Long hair as one closed solid: a cap that rises out of the skin at the hairline, and the fall behind the shoulders. */
export function longHairField(base: Field): Field {
  return (x, y, z) => {
    const skull = base(x, y, z)
    if (skull > 150) return skull - 120
    const strand = longStrand(x, y, z)
    const edge = drifted(edgeAt, x, y, z)
    const cap = edge.inside < OUTSIDE ? skull + 9 : skull - Math.min(40, capSurface(edge, y, z))
    const solid = smoothMin(cap, fall(x, y, z, strand), 26)
    const onHead = smoothStep(-1, 6, skull) * smoothStep(0, 14, edge.deep)
    // At the front edge locks would cut scallops into it.
    const deep = Math.max(onHead, smoothStep(36, 4, y) * smoothStep(0, 28, frontZ(y) - z))
    return Math.max((solid - relief(strand, y) * deep * apart(x, y, z, strand[0])) * 0.8, -(skull + ROOT_DEPTH))
  }
}

/** Locks, and broad tresses where the hair hangs free. */
function relief(strand: Strand, y: number): number {
  const [angle, along] = strand
  const tress = creased(valueNoise(angle * 3.2 + 40, along * 0.006, 5.5)) - 0.6
  return (
    mix(1.5, 2.2, smoothStep(0, -60, y)) * locks(strand) +
    mix(5.5, 8, smoothStep(-60, -200, y)) * smoothStep(20, -60, y) * tress
  )
}
