import type { Strand } from './crop'
import { spline } from './curves'
import * as data from './data/worn'
import {
  creased,
  type Edge,
  fadeWidth,
  growth,
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

const lineAt = hairlineOf(spline(data.LONG_HAIRLINE)).edge
const halfBreadth = spline(data.FALL_HALF_BREADTH)
const backZ = spline(data.FALL_BACK_Z)
const frontZ = spline(data.FALL_FRONT_Z)
const reachZ = spline(data.STRANDS_TO_Z)

/** Strands run along the hairline, so it strays by little and slowly. */
function edgeAt(x: number, y: number, z: number): Edge {
  const { inside, deep } = lineAt(x, y, z)
  const off = (valueNoise(x * 0.05 + 3, y * 0.05, z * 0.05) - 0.5) * 4
  return { inside: inside + off, deep: deep + off }
}

/** Round the side of the head, radians: from its middle on to the strands of the front edge. */
const FAN = 0.8

/**
 * Strands that part, lie down to either side and then hang: angle about the crown as seen from above, 0 down the back, ±π/2 where they
 * leave it sideways, and on with the way along the parting, then about the middle of the fall; distance along them, mm.
 */
export function longStrand(x: number, y: number, z: number): Strand {
  const { aside, ahead, off } = fromParting(x, y, z)
  const round =
    ahead > 0 ? Math.PI / 2 + (FAN * ahead) / (reachZ(y) - data.CROWN_Z) : Math.atan2(Math.abs(aside), -ahead)
  const hangs = smoothStep(60, -50, y)
  const hung = Math.atan2(Math.abs(aside) / halfBreadth(y), behindMiddle(y, z))
  const along = off + TOP_Y - y
  const wave = (valueNoise(along * 0.016 + 9, x * 0.007 + 5, z * 0.007) - 0.5) * mix(0.03, 0.26, hangs)
  return [Math.sign(aside) * mix(round, hung, hangs) + wave, along]
}
/** Height of the head. */
const TOP_Y = 120

/** Millimetres to the side of the parting, ahead of the crown, and from the nearer of the two. Lower down both sides meet in the middle. */
function fromParting(x: number, y: number, z: number) {
  const aside = x - data.PARTING_X * ease(20, 100, y)
  const ahead = z - data.CROWN_Z
  return { aside, ahead, off: ahead > 0 ? Math.abs(aside) : Math.hypot(aside, ahead) }
}

/** 1 at the parting, 0 from so many millimetres beside it on, and at its end on the crown. */
export const atParting = (x: number, y: number, z: number, mm: number): number => {
  const { ahead, off } = fromParting(x, y, z)
  return smoothStep(50, 70, y) * smoothStep(0, 18, ahead) * smoothStep(mm, 0, off)
}

/** How far behind the middle of the fall, in halves of its depth. */
function behindMiddle(y: number, z: number): number {
  const [front, back] = [frontZ(y), backZ(y)]
  return (front + back - 2 * z) / (front - back)
}

/** 1 under the ends of the fall and inside it, where hardly any light comes; 0 outside. */
export const underFall = (x: number, y: number, z: number): number =>
  smoothStep(-60, -85, y) * smoothStep(0.97, 0.6, Math.hypot(x / halfBreadth(y), behindMiddle(y, z)))

/** 0 where strands meet, at the parting and at the middle of the fall: what goes by their angle must end there. */
function apart(x: number, y: number, z: number): number {
  const middle = smoothStep(0.3, 0.85, Math.hypot(x / halfBreadth(y), behindMiddle(y, z)))
  return mix(smoothStep(3, 22, fromParting(x, y, z).off), middle, smoothStep(70, -50, y))
}

/** Depth over the skull: as short hair in front, fuller behind and over the ears. */
function capDepth(y: number, z: number, off: number): number {
  const top = ease(22, 112, y)
  const depth = mix(6, 9, ease(-30, 54, y)) + 8 * top + 4 * ease(-30, -130, z)
  return depth * mix(0.8, 1, ease(0, 34, off))
}

/** Beside the parting it lies down where it begins; at the temples it falls over its hairline. */
function capSurface({ inside: edge, deep }: Edge, x: number, y: number, z: number): number {
  const { off } = fromParting(x, y, z)
  const depth = capDepth(y, z, off)
  const rise = 54 + 20 * ease(10, 74, y) * ease(-110, -30, z) * ease(50, 10, off)
  const groove = 0.6 * Math.exp(-((off / 6) ** 2)) * ease(0, 16, deep)
  return edge < 0 ? underSkin(edge, (RISING * depth) / rise) : depth * risen(deep / rise) - groove
}

/** Height of the cap of long hair over a place of the skin, mm. */
export const longHairHeight = (x: number, y: number, z: number): number => {
  const strand = longStrand(x, y, z)
  return capSurface(edgeAt(x, y, z), x, y, z) + apart(x, y, z) * relief(strand, y)
}

/** 1 at the front edge of the hair beside the cheek, 0 from some centimetres behind it on, above the temple and below the jaw. */
export const atFrontEdge = (y: number, z: number): number =>
  smoothStep(26, 6, frontZ(y) - z) * smoothStep(32, 4, y) * smoothStep(-92, -50, y)

/** The mass that hangs from the head: an oval column behind the front edge, hollowed towards the neck. */
function fall(x: number, y: number, z: number, [angle]: Strand): number {
  const breadth = halfBreadth(y)
  const back = backZ(y)
  const middle = -95
  const round = Math.hypot(x / breadth, (z - middle) / (middle - back))
  let f = (round - 1) * Math.min(breadth, middle - back) + waves(angle, y)
  const front = frontZ(y) + swing(x, y) - 0.5 * Math.max(0, breadth - Math.abs(x)) * smoothStep(-165, -120, y)
  f = smoothMax(f, z - front, 20)
  f = smoothMax(f, y - data.FALL_TOP_Y, 24)
  return smoothMax(f, endY(angle, apart(x, y, z)) - y, 14)
}

/** Tresses swing to and fro as they hang, mm. */
const waves = (angle: number, y: number): number =>
  smoothStep(10, -60, y) * 11 * (valueNoise(angle * 1.3 + 20, y * 0.021, 6.5) - 0.5)

/** The front edge swings as well, each side by itself, mm. */
const swing = (x: number, y: number): number =>
  smoothStep(20, -20, y) * 15 * (valueNoise(2.5, y * 0.028 + 40, 7.5 + 9 * Math.sign(x)) - 0.5)

/** 1 beside the face, 0 behind, by the angle of a strand. */
export const isFront = (angle: number): number => smoothStep(0.7, 2, Math.abs(angle))

/** Where the tips end, lock by lock; uneven: from 0 to 1. */
export const endY = (angle: number, uneven = 1): number =>
  mix(data.FALL_END_Y, data.FRONT_END_Y, isFront(angle)) +
  uneven * (20 * (valueNoise(angle * 2.6 + 40, 1.5, 2.5) - 0.5) + 14 * (valueNoise(angle * 8 + 40, 4.5, 2.5) - 0.5))

/** As growth of short hair, at the hairline of the face; not a number of the skin. */
export function longGrowth(x: number, y: number, z: number): number {
  // From before the ear down it stands off the skin: thinned out there it would be a hole.
  const isFree = smoothStep(32, 2, y)
  return mix(edgeAt(x, y, z).inside / fadeWidth(x, Math.max(y, 36), z), 6, isFree)
}

/** Growth on the skin under long hair: of short hair, and above the temples of what hangs over it as well. */
export const growthUnder = (x: number, y: number, z: number): number => {
  const grown = growth(x, y, z)
  return y < 30 ? grown : mix(grown, Math.max(grown, longGrowth(x, y, z)), smoothStep(30, 40, y))
}

/** Long hair as one closed solid: a cap that rises out of the skin at the hairline, and the fall behind the shoulders. */
export function longHairField(base: Field): Field {
  return (x, y, z) => {
    const skull = base(x, y, z)
    if (skull > 150) return skull - 120
    const strand = longStrand(x, y, z)
    const edge = edgeAt(x, y, z)
    const cap = edge.inside < OUTSIDE ? skull + 9 : skull - Math.min(40, capSurface(edge, x, y, z))
    const solid = smoothMin(cap, fall(x, y, z, strand), 26)
    const onHead = smoothStep(-1, 6, skull) * smoothStep(0, 14, edge.deep)
    // At the front edge locks would cut scallops into it.
    const deep = Math.max(onHead, smoothStep(36, 4, y) * smoothStep(0, 28, frontZ(y) - z))
    return Math.max((solid - relief(strand, y) * deep * apart(x, y, z)) * 0.8, -(skull + ROOT_DEPTH))
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
