/**
 * Wisps: a few strands that lie together, drawn to a point, loose on the mass of hair. They hide that it is one surface and break
 * up its outline (common knowledge, no source). They are tied to the hair's own mesh and lie along it. Millimetres inside.
 */
import { addScaled, cross, dot, type Mesh, normalize, scale, subtract, type Vec3 } from '../../space'
import { hairHeight } from '../sculpt/hair'
import { inHat } from '../sculpt/hat'
import { atFrontEdge, longHairHeight } from '../sculpt/longHair'
import { mix, smoothStep } from '../sculpt/solids'
import type { FigurePart } from '../types'
import type { Wear } from '../worn/wear'
import { type BoundStrand, spread } from './binding'
import { type SkinPoint, SkinWalk, turned } from './skin-walk'

const MM = 1e-3
const STREAM = 730

interface Kind {
  readonly heightAt: (x: number, y: number, z: number) => number
  /** Roots a mm² of hair. */
  readonly density: number
  readonly lengths: readonly [number, number]
  readonly halfWidths: readonly [number, number]
  /** Of these, so many are single strands instead. */
  readonly single: number
  /** How far tips stand off: most by little. */
  readonly off: readonly [number, number]
  /** Radians to either side of the combing, and bend at each point. */
  readonly astray: number
  readonly bend: number
  readonly points: number
  /** From 0 to 1: where wisps fall rather than lie as combed, and hide an edge. Height and z, mm. */
  readonly fallsAt: (y: number, z: number) => number
}
const SHORT: Kind = {
  heightAt: hairHeight,
  density: 0.072,
  lengths: [9, 22],
  halfWidths: [0.25, 0.85],
  single: 0.3,
  off: [0.3, 3.6],
  astray: 0.38,
  bend: 0.25,
  points: 3,
  fallsAt: () => 0,
}
const LONG: Kind = {
  heightAt: (x, y, z) => (y > 34 ? longHairHeight(x, y, z) : 0),
  density: 0.018,
  lengths: [30, 75],
  halfWidths: [0.3, 1],
  single: 0.25,
  off: [0.3, 3.4],
  astray: 0.1,
  bend: 0.05,
  points: 5,
  fallsAt: atFrontEdge,
}
const SINGLE = 0.05
/** Growth where roots lie at least, and out to which the way of a wisp may lead, over bare skin. */
const ROOTED = 0.3
const BARE = -0.7
/** So far under a hat's edge, or its crown would be pierced. */
const UNDER_HAT = -12
/** Middle of the head: what faces it is the inside of the mass. */
const MIDDLE: Vec3 = [0, 15 * MM, -80 * MM]
/** Below it hair hangs free. */
const HANGS_Y = -60 * MM

/** Those of a part of hair in this wear. */
export function wisps({ mesh, combed, grain }: FigurePart, { hairCut, headwear }: Wear): readonly BoundStrand[] {
  if (!combed || !grain) return []
  const kind = hairCut === 'long' ? LONG : SHORT
  const outer = outerTriangles(mesh)
  const least = (t: number) => Math.min(...[0, 1, 2].map((k) => grain[mesh.indices[t + k] * 3 + 2]))
  const grown = (growth: number) => outer.filter((t) => least(t) > growth)
  const isInside = (t: number) => least(t) > 1
  const walk = new SkinWalk(mesh, grown(BARE))
  /** How deep the hair's mesh lies under the skin. */
  const under = ({ triangle, at: [x, y, z] }: SkinPoint) =>
    isInside(triangle) ? 0 : Math.max(0, -kind.heightAt(x / MM, y / MM, z / MM))
  const shows = ({ at: [x, y, z] }: SkinPoint) =>
    headwear === 'none' || inHat(x / MM, y / MM, z / MM).height < UNDER_HAT
  return grown(ROOTED).flatMap((triangle) =>
    rootsOn(walk, triangle, kind).flatMap(({ root, number }) => {
      const way = combedOn(mesh, combed, triangle, kind)
      const path = way && pathFrom(walk, root, way, number, kind)
      if (!path?.every(shows)) return []
      return [
        {
          strand: { kind: 'wisp', lid: null, points: pointsOf(path.map(under), number, kind) },
          places: path.map((p) => walk.place(p)),
        },
      ]
    }),
  )
}

function outerTriangles({ positions: p, normals: n, indices }: Mesh): readonly number[] {
  const found: number[] = []
  for (let t = 0; t < indices.length; t += 3) {
    const v = indices[t] * 3
    const out = [0, 1, 2].reduce((sum, k) => sum + n[v + k] * (p[v + k] - MIDDLE[k]), 0)
    if (p[v + 1] < HANGS_Y || out > 0.005) found.push(t)
  }
  return found
}

/** Where they fall there are so many times more. */
const MORE = 4

function rootsOn(walk: SkinWalk, triangle: number, { density, fallsAt }: Kind) {
  const { corners, normal } = walk.plane(triangle)
  const [a, b, c] = corners
  const area = (0.5 * dot(normal, cross(subtract(b, a), subtract(c, a)))) / MM ** 2
  const more = 1 + (MORE - 1) * fallsAt(a[1] / MM, a[2] / MM)
  const count = Math.floor(area * density * more + spread(STREAM, triangle, 0, 1))
  return Array.from({ length: count }, (_, i) => {
    const number = triangle * 8 + i
    const [u, v] = [spread(STREAM + 1, number, 0, 1), spread(STREAM + 2, number, 0, 1)]
    const [s, t] = u + v > 1 ? [1 - u, 1 - v] : [u, v]
    const at = [0, 1, 2].map((k) => a[k] + s * (b[k] - a[k]) + t * (c[k] - a[k])) as unknown as Vec3
    return { root: { triangle, at } satisfies SkinPoint, number }
  })
}

/** Mean of the corners; null where strands meet. */
function combedOn({ positions, indices }: Mesh, combed: Float32Array, triangle: number, kind: Kind): Vec3 | null {
  const sumOf = (values: Float32Array) =>
    [0, 1, 2].map((k) =>
      [0, 1, 2].reduce((all, corner) => all + values[indices[triangle + corner] * 3 + k], 0),
    ) as unknown as Vec3
  const sum = sumOf(combed)
  if (Math.hypot(...sum) < 2) return null
  const [, y, z] = scale(sumOf(positions), 1 / (3 * MM))
  return normalize(addScaled(normalize(sum), DOWN, 3 * kind.fallsAt(y, z)))
}
const DOWN: Vec3 = [0, -1, 0]

const chanceOf =
  (number: number) =>
  (k: number, low: number, high: number): number =>
    spread(STREAM + 3 + k, number, low, high)

function pathFrom(walk: SkinWalk, root: SkinPoint, way: Vec3, number: number, kind: Kind) {
  const chance = chanceOf(number)
  const aside = chance(0, -1, 1) * chance(1, 0.2, 1) * kind.astray
  const step = (chance(2, ...kind.lengths) * MM) / (kind.points - 1)
  const direction = turned(way, walk.plane(root.triangle).normal, aside)
  return walk.along(root, direction, chance(3, -1, 1) * kind.bend, step, kind.points)
}

/** Height over the hair and half width, from root to tip; outside the hairline, where the hair's mesh dives, over the skin. */
function pointsOf(under: readonly number[], number: number, { halfWidths, single, off: offs }: Kind) {
  const chance = chanceOf(number)
  const off = mix(...offs, chance(4, 0, 1) ** 3)
  const halfWidth = chance(5, 0, 1) < single ? SINGLE : mix(...halfWidths, chance(6, 0, 1) ** 2)
  return under.map((deep, k) => {
    const s = k / (under.length - 1)
    const lift = deep + mix(-0.5, 0.25, smoothStep(0, 0.3, s)) + off * s * s
    return { liftM: lift * MM, halfWidthM: halfWidth * mix(0.7, 1, smoothStep(0, 0.4, s)) * (1 - 0.97 * s ** 2.4) * MM }
  })
}
