import { spline } from './curves'
import * as data from './data/worn'
import { aboveHairline, creased, locks, RAGGED, ROOT_DEPTH, raggedness, risen, type Strand, underSkin } from './hair'
import { valueNoise } from './noise'
import { ease, type Field, mix, smoothMax, smoothMin, smoothStep } from './solids'

const halfBreadth = spline(data.FALL_HALF_BREADTH)
const backZ = spline(data.FALL_BACK_Z)
const frontZ = spline(data.FALL_FRONT_Z)

/**
 * Strands swept from the forehead over the head and then straight down: angle about an axis that bends from the head's
 * slope to the vertical; distance along it, mm.
 */
export function longStrand(x: number, y: number, z: number): Strand {
  const [py, pz] = data.STRAND_PIVOT
  const slope = mix(data.STRANDS_ON_HEAD_RAD, Math.PI / 2, smoothStep(30, -70, y))
  const [c, s] = [Math.cos(slope), Math.sin(slope)]
  const along = -(y - py) * s - (z - pz) * c
  const up = (y - py) * c - (z - pz) * s
  const wave = (valueNoise(along * 0.016 + 9, x * 0.009 + 5, up * 0.009) - 0.5) * 0.25
  return [Math.atan2(x, up) + wave, along]
}

/** Depth over the skull: as short hair in front, fuller behind and over the ears. */
function capDepth(y: number, z: number): number {
  const top = ease(22, 112, y)
  const front = ease(-110, 5, z) * ease(40, 92, y)
  return mix(4, 8, ease(-30, 54, y)) + 8 * top + 2 * front + 4 * ease(-30, -130, z)
}

function capSurface(above: number, x: number, y: number, z: number, strand: Strand): number {
  const edge = above + raggedness(x, y, z, strand)
  const depth = capDepth(y, z)
  const rise = 26 + 44 * ease(10, 74, y) * ease(-110, -30, z)
  return edge < 0 ? underSkin(edge, (4 * depth) / rise) : depth * risen(edge / rise)
}

/** Height of the cap of long hair over a place of the skin, mm. */
export const longHairHeight = (x: number, y: number, z: number): number => {
  const strand = longStrand(x, y, z)
  return capSurface(aboveHairline(x, y, z), x, y, z, strand) + relief(strand, y)
}

/** The mass that hangs from the head: an oval column behind the front edge, hollowed towards the neck. */
function fall(x: number, y: number, z: number, [angle]: Strand): number {
  const breadth = halfBreadth(y)
  const back = backZ(y)
  const middle = -95
  const round = Math.hypot(x / breadth, (z - middle) / (middle - back))
  let f = (round - 1) * Math.min(breadth, middle - back)
  const front = frontZ(y) - 0.5 * Math.max(0, breadth - Math.abs(x)) * smoothStep(-165, -120, y)
  f = smoothMax(f, z - front, 12)
  f = smoothMax(f, y - data.FALL_TOP_Y, 24)
  const end =
    data.FALL_END_Y + 30 * (valueNoise(angle * 9 + 40, 1.5, 2.5) - 0.5) + 14 * valueNoise(angle * 31, 4.5, 2.5)
  return smoothMax(f, end - y, 14)
}

/** Long hair as one closed solid: a cap that rises out of the skin at the hairline, and the fall behind the shoulders. */
export function longHairField(base: Field): Field {
  return (x, y, z) => {
    const skull = base(x, y, z)
    if (skull > 150) return skull - 120
    const strand = longStrand(x, y, z)
    const above = aboveHairline(x, y, z)
    const cap = above < -9 - RAGGED ? skull + 9 : skull - Math.min(40, capSurface(above, x, y, z, strand))
    const solid = smoothMin(cap, fall(x, y, z, strand), 26)
    const onHead = smoothStep(-1, 6, skull) * smoothStep(-9, -2, above)
    const deep = Math.max(onHead, smoothStep(36, 4, y))
    return Math.max((solid - relief(strand, y) * deep) * 0.8, -(skull + ROOT_DEPTH))
  }
}

/** Locks, and broad tresses where the hair hangs free. */
function relief(strand: Strand, y: number): number {
  const [angle, along] = strand
  const tress = creased(valueNoise(angle * 3.2 + 40, along * 0.006, 5.5)) - 0.6
  return mix(1.5, 2.2, smoothStep(0, -60, y)) * locks(strand) + 5.5 * smoothStep(20, -60, y) * tress
}
