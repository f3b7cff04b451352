/**
 * Short hairs all round the hairline, out over the bare skin and in over the edge of the hair, which they break up: a real
 * hairline thins out over some millimetres in fine, short hairs (common knowledge, no source). Millimetres inside.
 */
import { cross, dot, type Mesh, normalize, subtract, type Vec3 } from '../../space'
import { type Strand, strandCoordinates } from '../sculpt/crop'
import { onEar } from '../sculpt/ear'
import { fadeWidth, growth, hairHeight } from '../sculpt/hair'
import { inHat } from '../sculpt/hat'
import { growthUnder, longHairHeight, longStrand } from '../sculpt/longHair'
import { mix, smoothStep } from '../sculpt/solids'
import type { Wear } from '../worn/wear'
import { type BoundStrand, spread } from './binding'
import { type SkinPoint, SkinWalk, turned } from './skin-walk'

const MM = 1e-3
const STREAM = 700
const POINTS = 3
/** Roots lie between these growths. */
const BAND = { from: -1.5, to: 0.9 } as const
/** Hairs a mm² where hair thins out over a millimetre: out at the band's edge, and inside. */
const DENSITY = [0.25, 4] as const
const LENGTH = [6, 14] as const
const HALF_WIDTH = 0.052
/** They run over the hair's edge up to this height, and on inside it. */
const HIGHEST = 3.4
/** Farthest that a hair's way may lead from the band, as growth. */
const REACH = 4

interface Cut {
  readonly growthAt: (x: number, y: number, z: number) => number
  readonly heightAt: (x: number, y: number, z: number) => number
  readonly strandAt: StrandAt
}
const SHORT: Cut = { growthAt: growth, heightAt: hairHeight, strandAt: strandCoordinates }
const LONG: Cut = { growthAt: growthUnder, heightAt: longHairHeight, strandAt: longStrand }

/** The hairs that show in this wear: none on a shaved or covered head, only those below a hat or before long hair. */
export function hairline(skin: Mesh, { hairCut, headwear }: Wear): readonly BoundStrand[] {
  if (hairCut === 'bald' || headwear === 'covering' || (hairCut === 'long' && headwear === 'hat')) return []
  const shows = (x: number, y: number, z: number) =>
    (hairCut === 'short' || y > 34) && (headwear === 'none' || inHat(x, y, z).height < -9)
  const cut = hairCut === 'long' ? LONG : SHORT
  const growing = growths(skin, cut)
  const walk = new SkinWalk(skin, between(skin, growing, BAND.from - REACH, BAND.to + REACH))
  return between(skin, growing, BAND.from - 0.5, BAND.to + 0.5).flatMap((triangle) =>
    roots(walk, triangle, cut).flatMap(({ root, thick, number }) => {
      const [x, y, z] = inMm(root.at)
      if (!shows(x, y, z)) return []
      const grown = hair(walk, root, thick, number, cut)
      return grown ? [grown] : []
    }),
  )
}

const inMm = ([x, y, z]: Vec3): Vec3 => [x / MM, y / MM, z / MM]

/** Growth at each vertex; far from the hairline: not a number. */
function growths({ positions: p }: Mesh, { growthAt }: Cut): Float32Array {
  const grown = new Float32Array(p.length / 3).fill(Number.NaN)
  for (let v = 0; v < grown.length; v++) {
    const [x, y, z] = [p[v * 3] / MM, p[v * 3 + 1] / MM, p[v * 3 + 2] / MM]
    const isFace = z > -10 && y < 36
    if (y > -125 && y < 112 && !isFace && !onEar(Math.abs(x), y, z)) grown[v] = growthAt(x, y, z)
  }
  return grown
}

/** Triangles all of whose corners lie between two growths. */
function between({ indices }: Mesh, grown: Float32Array, from: number, to: number): readonly number[] {
  const found: number[] = []
  const isNear = (v: number) => grown[v] > from && grown[v] < to
  for (let t = 0; t < indices.length; t += 3)
    if (isNear(indices[t]) && isNear(indices[t + 1]) && isNear(indices[t + 2])) found.push(t)
  return found
}

/** Roots on a triangle, with a number of their own. */
function roots(walk: SkinWalk, triangle: number, { growthAt }: Cut) {
  const { corners, normal } = walk.plane(triangle)
  const [a, b, c] = corners.map(inMm)
  const area = 0.5 * dot(normal, cross(subtract(b, a), subtract(c, a)))
  const most = DENSITY[1] / fadeWidth(...a)
  const count = Math.floor(area * most + spread(STREAM, triangle, 0, 1))
  return Array.from({ length: count }, (_, i) => {
    const number = triangle * 8 + i
    const [u, v] = [spread(STREAM + 1, number, 0, 1), spread(STREAM + 2, number, 0, 1)]
    const [s, t] = u + v > 1 ? [1 - u, 1 - v] : [u, v]
    const at = [0, 1, 2].map((k) => a[k] + s * (b[k] - a[k]) + t * (c[k] - a[k])) as unknown as Vec3
    const root: SkinPoint = { triangle, at: [at[0] * MM, at[1] * MM, at[2] * MM] }
    return { root, thick: growthAt(...at), number }
  }).filter(({ thick, number }) => {
    if (thick < BAND.from || thick > BAND.to) return false
    const density = mix(...DENSITY, smoothStep(BAND.from, 0.2, thick) ** 1.5)
    return spread(STREAM + 3, number, 0, DENSITY[1]) < density
  })
}

/** Along the way in which the hair is combed, some to either side; null: off the skin that it may lie on. */
function hair(walk: SkinWalk, root: SkinPoint, thick: number, number: number, cut: Cut): BoundStrand | null {
  const chance = (k: number, low: number, high: number) => spread(STREAM + 4 + k, number, low, high)
  const { normal } = walk.plane(root.triangle)
  // Outermost hairs are the finest and shortest.
  const grown = smoothStep(BAND.from - 0.3, 0.2, thick)
  const length = mix(LENGTH[0], mix(...LENGTH, grown), chance(0, 0.5, 1)) * MM
  const halfWidth = HALF_WIDTH * mix(0.5, 1, grown) * chance(1, 0.5, 1.1) * MM
  const lift = chance(2, 0.15, 0.7)
  const way = turned(combedAt(inMm(root.at), normal, cut.strandAt), normal, chance(3, -0.3, 0.3))
  const bend = chance(4, -0.22, 0.22)
  const path = walk.along(root, way, bend, length / (POINTS - 1), POINTS)
  if (!path) return null
  let rise = Math.max(0, 2 * thick)
  const points = path.map((point, k) => {
    const s = k / (POINTS - 1)
    rise = overSkin(inMm(point.at), walk.plane(point.triangle).normal, rise, cut)
    return {
      liftM: (rise + 0.08 + lift * Math.sin(Math.PI * 0.8 * s)) * MM,
      halfWidthM: halfWidth * (1 - 0.8 * s ** 1.6),
    }
  })
  return { strand: { kind: 'hairline', lid: null, points }, places: path.map((point) => walk.place(point)) }
}

export type StrandAt = (x: number, y: number, z: number) => Strand

/** Along the hair, square to the way in which the angle of its strands grows. */
export function combedAt([x, y, z]: Vec3, normal: Vec3, strandAt: StrandAt): Vec3 {
  const angleBy = (dx: number, dy: number, dz: number) => {
    const by = strandAt(x + dx, y + dy, z + dz)[0] - strandAt(x - dx, y - dy, z - dz)[0]
    return by - 2 * Math.PI * Math.round(by / (2 * Math.PI))
  }
  return normalize(cross(normal, [angleBy(1, 0, 0), angleBy(0, 1, 0), angleBy(0, 0, 1)]))
}

/** Height of the hair over a place of the skin, asked about where its surface is; where it is high, hairs stay within. */
const overSkin = ([x, y, z]: Vec3, n: Vec3, guess: number, { heightAt }: Cut): number =>
  Math.min(HIGHEST, Math.max(0, heightAt(x + guess * n[0], y + guess * n[1], z + guess * n[2])))
