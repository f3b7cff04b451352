/**
 * Short hairs all round the hairline, out over the bare skin and in over the edge of the hair, which they break up: a real
 * hairline thins out over some millimetres in fine, short hairs (common knowledge, no source). Millimetres inside.
 */
import { cross, dot, lerp, type Mesh, normalize, subtract, type Vec3 } from '../../space'
import { SKULL_AXIS_Z } from '../sculpt/data/hair'
import { aboveHairline, hairHeight, insideHairline, RAGGED, sideburn, strandCoordinates } from '../sculpt/hair'
import { inHat } from '../sculpt/hat'
import { mix, smoothStep } from '../sculpt/solids'
import type { Wear } from '../worn/wear'
import { type BoundStrand, spread } from './binding'
import { type SkinPoint, SkinWalk, turned } from './skin-walk'

const MM = 1e-3
const STREAM = 700
const POINTS = 3
/** Roots lie so far outside and inside the hairline; farther out where hair is cut short and thins out downwards. */
const BAND = { outside: 7, thinning: 14, inside: 4 } as const
/** Hairs a mm²: out at the band's edge, and inside. */
const DENSITY = [0.05, 1.2] as const
const LENGTH = [6, 14] as const
const HALF_WIDTH = 0.052
/** They run over the hair's edge up to this height, and on inside it. */
const HIGHEST = 4.5
/** Farthest that a hair reaches from its root's band. */
const REACH = 20

/** The hairs that show in this wear: none on a shaved or covered head, only those below a hat or before long hair. */
export function hairline(skin: Mesh, { hairCut, headwear }: Wear): readonly BoundStrand[] {
  if (hairCut === 'bald' || headwear === 'covering' || (hairCut === 'long' && headwear === 'hat')) return []
  const shows = (x: number, y: number, z: number) =>
    (hairCut === 'short' || y > 34) && (headwear === 'none' || inHat(x, y, z).height < -9)
  const above = heightsAbove(skin)
  const walk = new SkinWalk(skin, near(skin, above, BAND.thinning + RAGGED + REACH, BAND.inside + RAGGED + REACH))
  return near(skin, above, BAND.thinning + RAGGED, BAND.inside + RAGGED).flatMap((triangle) =>
    roots(walk, triangle).flatMap(({ root, inside, number }) => {
      const [x, y, z] = inMm(root.at)
      if (!shows(x, y, z)) return []
      const grown = hair(walk, root, inside, number)
      return grown ? [grown] : []
    }),
  )
}

const inMm = ([x, y, z]: Vec3): Vec3 => [x / MM, y / MM, z / MM]

/** Millimetres above the hairline of each vertex; far from it: not a number. */
function heightsAbove({ positions: p }: Mesh): Float32Array {
  const above = new Float32Array(p.length / 3).fill(Number.NaN)
  for (let v = 0; v < above.length; v++) {
    const [x, y, z] = [p[v * 3] / MM, p[v * 3 + 1] / MM, p[v * 3 + 2] / MM]
    const isFace = z > -10 && y < 36
    if (y > -125 && y < 112 && !isFace && !isByEar(x, y, z)) above[v] = aboveHairline(x, y, z)
  }
  return above
}

/** Over and behind the ear the edge is hidden, and its skin is no scalp. */
function isByEar(x: number, y: number, z: number): boolean {
  const azimuth = Math.atan2(Math.abs(x), z - SKULL_AXIS_Z)
  return azimuth > 1.33 && azimuth < 2.2 && y < 34 && y > -50
}

/** Triangles all of whose corners lie between so far outside and inside the drawn hairline. */
function near({ indices }: Mesh, above: Float32Array, outside: number, inside: number): readonly number[] {
  const found: number[] = []
  const isNear = (v: number) => above[v] > -outside && above[v] < inside
  for (let t = 0; t < indices.length; t += 3)
    if (isNear(indices[t]) && isNear(indices[t + 1]) && isNear(indices[t + 2])) found.push(t)
  return found
}

const outsideAt = (x: number, y: number, z: number): number =>
  mix(BAND.outside, BAND.thinning, Math.max(sideburn(x, y, z), z < -80 ? smoothStep(-30, -60, y) : 0))

/** Roots on a triangle, with a number of their own. */
function roots(walk: SkinWalk, triangle: number) {
  const { corners, normal } = walk.plane(triangle)
  const [a, b, c] = corners.map(inMm)
  const area = 0.5 * dot(normal, cross(subtract(b, a), subtract(c, a)))
  const count = Math.floor(area * DENSITY[1] + spread(STREAM, triangle, 0, 1))
  return Array.from({ length: count }, (_, i) => {
    const number = triangle * 8 + i
    const [u, v] = [spread(STREAM + 1, number, 0, 1), spread(STREAM + 2, number, 0, 1)]
    const [s, t] = u + v > 1 ? [1 - u, 1 - v] : [u, v]
    const at = [0, 1, 2].map((k) => a[k] + s * (b[k] - a[k]) + t * (c[k] - a[k])) as unknown as Vec3
    const root: SkinPoint = { triangle, at: [at[0] * MM, at[1] * MM, at[2] * MM] }
    return { root, inside: insideHairline(...at), outside: outsideAt(...at), number }
  }).filter(({ inside, outside, number }) => {
    if (inside < -outside || inside > BAND.inside) return false
    const density = mix(...DENSITY, smoothStep(-outside, 0.5, inside) ** 1.5)
    return spread(STREAM + 3, number, 0, DENSITY[1]) < density
  })
}

/** Along the way in which the hair is combed, some to either side; null: off the skin that it may lie on. */
function hair(walk: SkinWalk, root: SkinPoint, inside: number, number: number): BoundStrand | null {
  const chance = (k: number, low: number, high: number) => spread(STREAM + 4 + k, number, low, high)
  const { normal } = walk.plane(root.triangle)
  // Outermost hairs are the finest and shortest.
  const grown = smoothStep(-BAND.outside - 2, 1, inside)
  const length = mix(LENGTH[0], mix(...LENGTH, grown), chance(0, 0.5, 1)) * MM
  const halfWidth = HALF_WIDTH * mix(0.6, 1, grown) * chance(1, 0.8, 1.2) * MM
  const lift = chance(2, 0.15, 0.7)
  const way = turned(combedAt(inMm(root.at), normal), normal, chance(3, -0.4, 0.4))
  const bend = chance(4, -0.12, 0.12)
  const path = walk.along(root, way, bend, length / (POINTS - 1), POINTS)
  if (!path) return null
  let rise = Math.max(0, 0.6 * inside)
  const points = path.map((point, k) => {
    const s = k / (POINTS - 1)
    rise = overSkin(inMm(point.at), walk.plane(point.triangle).normal, rise)
    return {
      liftM: (rise + 0.08 + lift * Math.sin(Math.PI * 0.8 * s)) * MM,
      halfWidthM: halfWidth * (1 - 0.8 * s ** 1.6),
    }
  })
  return { strand: { kind: 'hairline', lid: null, points }, places: path.map((point) => walk.place(point)) }
}

const DOWN: Vec3 = [0, -1, 0]

/** Along the hair, square to the way in which the angle of its strands grows; at nape and sideburn it falls instead. */
export function combedAt([x, y, z]: Vec3, normal: Vec3): Vec3 {
  const angleBy = (dx: number, dy: number, dz: number) => {
    const by = strandCoordinates(x + dx, y + dy, z + dz)[0] - strandCoordinates(x - dx, y - dy, z - dz)[0]
    return by - 2 * Math.PI * Math.round(by / (2 * Math.PI))
  }
  const combed = normalize(cross(normal, [angleBy(1, 0, 0), angleBy(0, 1, 0), angleBy(0, 0, 1)]))
  const falls = z < -80 ? smoothStep(-20, -60, y) : 0.75 * smoothStep(40, 8, y)
  return normalize(lerp(combed, DOWN, falls))
}

/** Height of the hair over a place of the skin, asked about where its surface is; where it is high, hairs stay within. */
const overSkin = ([x, y, z]: Vec3, n: Vec3, guess: number): number =>
  Math.min(HIGHEST, Math.max(0, hairHeight(x + guess * n[0], y + guess * n[1], z + guess * n[2])))
