import { lazily, once } from '../lazily'
import { type Strand, strandCoordinates } from '../sculpt/crop'
import { growth } from '../sculpt/hair'
import { growthUnder, longGrowth, longStrand } from '../sculpt/longHair'
import type { FigurePart } from '../types'

/** Differences that tell how the strands' angle changes, mm. */
const STEP = 1
const MM = 1000
/** Distance of hair from the axis about which its strands' angle is taken, mm: 45 at the forehead, 120 at the crown. */
const RADIUS_MM = 80
/** So many times as short are the strands of short hair as the grain's. */
const SHORTER = 2.2
/** Growth of skin far from all hair. */
const BARE = -9
/** Growth beyond which nothing shows of the skin. */
const SHOWS = 3.5

/**
 * The hair with the direction of its strands at each vertex, along the surface and square to the way in which their angle
 * grows, its place among them, and how far it has thinned out.
 */
export function withCombed(hair: FigurePart, isLong: boolean): FigurePart {
  const made = once(() => combedOf(hair, isLong))
  return lazily(hair, { combed: () => made().combed, grain: () => made().grain })
}

function combedOf(hair: FigurePart, isLong: boolean) {
  const [angleAt, shorter] = isLong ? [longStrand, 1] : [strandCoordinates, SHORTER]
  const growthAt = isLong ? longGrowth : growth
  const { positions: p, normals: n } = hair.mesh
  const combed = new Float32Array(p.length)
  const grain = new Float32Array(p.length)
  for (let i = 0; i < p.length; i += 3) {
    const [x, y, z] = [p[i] * MM, p[i + 1] * MM, p[i + 2] * MM]
    const [angle, along] = angleAt(x, y, z)
    const by = isLong && Math.abs(angle) > Math.PI / 2 ? onOneSide(angle) : turned
    const ex = by(angleAt(x + STEP, y, z), angleAt(x - STEP, y, z))
    const ey = by(angleAt(x, y + STEP, z), angleAt(x, y - STEP, z))
    const ez = by(angleAt(x, y, z + STEP), angleAt(x, y, z - STEP))
    const tx = n[i + 1] * ez - n[i + 2] * ey
    const ty = n[i + 2] * ex - n[i] * ez
    const tz = n[i] * ey - n[i + 1] * ex
    const size = Math.sqrt(tx * tx + ty * ty + tz * tz) || 1
    combed[i] = tx / size
    combed[i + 1] = ty / size
    combed[i + 2] = tz / size
    grain.set([isLong ? acrossLong(angle, x) : angle * RADIUS_MM, along * shorter, growthAt(x, y, z)], i)
  }
  return { combed, grain }
}

/** Alike on either side of the parting, where the angle's sign would tear the grain, and other ones farther off. */
const acrossLong = (angle: number, x: number): number => Math.abs(angle) * RADIUS_MM + ASKEW * x
const ASKEW = 0.12

/** The skin with the place of what grows on it among the strands of that hair. */
export const withGrowth = (skin: FigurePart, isLong: boolean): FigurePart =>
  lazily(skin, { grain: () => growthOf(skin, isLong) })

function growthOf(skin: FigurePart, isLong: boolean): Float32Array {
  const [angleAt, shorter] = isLong ? [longStrand, 1] : [strandCoordinates, SHORTER]
  const growthAt = isLong ? growthUnder : growth
  const { positions: p } = skin.mesh
  const grain = new Float32Array(p.length)
  for (let i = 0; i < p.length; i += 3) {
    const [x, y, z] = [p[i] * MM, p[i + 1] * MM, p[i + 2] * MM]
    if (isFace(x, y, z)) {
      grain[i + 2] = BARE
      continue
    }
    const grown = growthAt(x, y, z)
    grain[i + 2] = isByEar(x, y, z) ? BARE : grown
    if (grown > SHOWS) continue
    const [angle, along] = angleAt(x, y, z)
    grain[i] = isLong ? acrossLong(angle, x) : angle * RADIUS_MM
    grain[i + 1] = along * shorter
  }
  return grain
}

/** Neither hair nor what lies next to it. */
const isFace = (x: number, y: number, z: number): boolean => y < -125 || (z > -10 && y < 40) || Math.abs(x) > 90

const isByEar = (x: number, y: number, z: number): boolean =>
  y < 26 && y > -60 && z < -72 && z > -112 && (Math.abs(x) > 77 || y < 6)

/** As turned, of strands that leave a parting to either side: as if all left it to the side of that angle. */
const onOneSide =
  (angle: number) =>
  ([a]: Strand, [b]: Strand): number =>
    Math.sign(angle) * (Math.abs(a) - Math.abs(b))

/** By how much one angle is farther round than the other, the short way. */
function turned([a]: Strand, [b]: Strand): number {
  const d = a - b
  return d - 2 * Math.PI * Math.round(d / (2 * Math.PI))
}
