/**
 * Single hairs that stand a little off the mass of hair, so that its outline is one of hairs (common knowledge, no source).
 * They root under its surface and lie along the skin below it, by as much over the skin as the hair is deep. Millimetres.
 */
import { cross, dot, type Mesh, subtract, type Vec3 } from '../../space'
import { strandCoordinates } from '../sculpt/crop'
import { aboveHairline, hairHeight } from '../sculpt/hair'
import { longHairHeight, longStrand } from '../sculpt/longHair'
import { mix, smoothStep } from '../sculpt/solids'
import type { Wear } from '../worn/wear'
import { type BoundStrand, spread } from './binding'
import { combedAt, type StrandAt } from './hairline'
import { type SkinPoint, SkinWalk, turned } from './skin-walk'

const MM = 1e-3
const STREAM = 730
const HALF_WIDTH = 0.045

interface Kind {
  readonly heightAt: (x: number, y: number, z: number) => number
  readonly strandAt: StrandAt
  /** Hairs a mm² of scalp. */
  readonly density: number
  readonly lengths: readonly [number, number]
  /** How far the tips stand off: most by little. */
  readonly off: readonly [number, number]
  readonly points: number
}
const LONG: Kind = {
  heightAt: longHairHeight,
  strandAt: longStrand,
  density: 0.02,
  lengths: [14, 34],
  off: [0.3, 3.8],
  points: 5,
}
/** Ends of short hair stand up: more of them, of fewer points. */
const SHORT: Kind = {
  heightAt: hairHeight,
  strandAt: strandCoordinates,
  density: 0.038,
  lengths: [7, 17],
  off: [0.6, 4],
  points: 3,
}
/** Roots so far inside the hairline; the way of a hair may lead so far outside. */
const INSIDE = 6
const OUTSIDE = 2

/** None under headwear or on a shaved head. Of long hair those of the cap: what hangs free is tied to no skin. */
export function strays(skin: Mesh, { hairCut, headwear }: Wear): readonly BoundStrand[] {
  if (hairCut === 'bald' || headwear !== 'none') return []
  const kind = hairCut === 'long' ? LONG : SHORT
  const scalp = scalpOf(skin, hairCut === 'long')
  const walk = new SkinWalk(skin, scalp(-OUTSIDE))
  return scalp(INSIDE).flatMap((triangle) =>
    rootsOn(walk, triangle, kind).flatMap(({ root, number }) => {
      const grown = stray(walk, root, number, kind)
      return grown ? [grown] : []
    }),
  )
}

/** Triangles all of whose corners lie so far inside the drawn hairline. */
function scalpOf({ positions: p, indices }: Mesh, isLong: boolean): (insideMm: number) => readonly number[] {
  const above = Float32Array.from({ length: p.length / 3 }, (_, v) => {
    const [x, y, z] = [p[v * 3] / MM, p[v * 3 + 1] / MM, p[v * 3 + 2] / MM]
    const lowest = isLong ? 40 : -80
    return y < lowest || Math.hypot(x, z + 75) > 125 || (z > -10 && y < 36)
      ? Number.NEGATIVE_INFINITY
      : aboveHairline(x, y, z)
  })
  return (insideMm) => {
    const found: number[] = []
    for (let t = 0; t < indices.length; t += 3)
      if (above[indices[t]] > insideMm && above[indices[t + 1]] > insideMm && above[indices[t + 2]] > insideMm)
        found.push(t)
    return found
  }
}

function rootsOn(walk: SkinWalk, triangle: number, { density }: Kind) {
  const { corners, normal } = walk.plane(triangle)
  const [a, b, c] = corners
  const area = (0.5 * dot(normal, cross(subtract(b, a), subtract(c, a)))) / MM ** 2
  const count = Math.floor(area * density + spread(STREAM, triangle, 0, 1))
  return Array.from({ length: count }, (_, i) => {
    const number = triangle * 8 + i
    const [u, v] = [spread(STREAM + 1, number, 0, 1), spread(STREAM + 2, number, 0, 1)]
    const [s, t] = u + v > 1 ? [1 - u, 1 - v] : [u, v]
    const at = [0, 1, 2].map((k) => a[k] + s * (b[k] - a[k]) + t * (c[k] - a[k])) as unknown as Vec3
    return { root: { triangle, at } satisfies SkinPoint, number }
  })
}

const inMm = ([x, y, z]: Vec3): Vec3 => [x / MM, y / MM, z / MM]

function stray(
  walk: SkinWalk,
  root: SkinPoint,
  number: number,
  { heightAt, strandAt, lengths, off: offs, points: count }: Kind,
): BoundStrand | null {
  const chance = (k: number, low: number, high: number) => spread(STREAM + 3 + k, number, low, high)
  const length = chance(0, ...lengths) * MM
  const { normal } = walk.plane(root.triangle)
  const way = turned(combedAt(inMm(root.at), normal, strandAt), normal, chance(1, -0.45, 0.45))
  const bend = chance(2, -0.2, 0.2)
  const path = walk.along(root, way, bend, length / (count - 1), count)
  if (!path) return null
  const off = mix(...offs, chance(3, 0, 1) ** 3)
  const halfWidth = HALF_WIDTH * chance(4, 0.7, 1.1)
  let rise = heightAt(...inMm(root.at))
  const points = path.map((point, k) => {
    const s = k / (count - 1)
    const [x, y, z] = inMm(point.at)
    const n = walk.plane(point.triangle).normal
    rise = Math.max(0, heightAt(x + rise * n[0], y + rise * n[1], z + rise * n[2]))
    const stands = mix(-1.8, off, smoothStep(0, 0.7, s))
    return { liftM: Math.max(0.1, rise + stands) * MM, halfWidthM: halfWidth * (1 - 0.8 * s ** 1.6) * MM }
  })
  return { strand: { kind: 'stray', lid: null, points }, places: path.map((point) => walk.place(point)) }
}
