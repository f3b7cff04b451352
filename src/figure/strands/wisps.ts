/**
 * Wisps: a few strands that lie together, drawn to a point, loose on the mass of hair, and single hairs that fly off it. They hide
 * that it is one surface and break up its outline (common knowledge, no source). They are tied to the hair's own mesh and lie along it.
 * Millimetres inside.
 */
import { length, type Mesh, normalize, type Vec3 } from '../../space'
import { hairHeight } from '../sculpt/hair'
import { inHat } from '../sculpt/hat'
import { atFrontEdge, atParting, longHairHeight } from '../sculpt/longHair'
import { mix, smoothStep } from '../sculpt/solids'
import type { FigurePart } from '../types'
import type { Wear } from '../worn/wear'
import { type BoundStrand, spread } from './binding'
import { cornerSum, outerTriangles, rootsOn } from './roots'
import { type SkinPoint, SkinWalk, turned } from './skin-walk'

const MM = 1e-3
const STREAM = 730
const FLYING_STREAM = 780

interface Kind {
  readonly heightAt: (x: number, y: number, z: number) => number
  /** Roots a mm² of hair. */
  readonly density: number
  readonly lengths: readonly [number, number]
  readonly halfWidths: readonly [number, number]
  /** Of these, so many are single strands instead. */
  readonly single: number
  /** How far tips stand off: most by little, the more so the higher the power. */
  readonly off: readonly [number, number]
  readonly offPower: number
  /** Power of the way by which they rise to that. */
  readonly rise: number
  /** Radians to either side of the combing, and bend at each point. */
  readonly astray: number
  readonly bend: number
  readonly points: number
  /** From 0 to 1: where they hide the edge beside the face. Height and z, mm. */
  readonly beside: (y: number, z: number) => number
  /** Likewise where they leave the parting. */
  readonly parted: (x: number, y: number, z: number) => number
}
/** Above the ear, where the edge of the mass would be an arch. */
const overEar = (y: number, z: number): number =>
  smoothStep(38, 28, y) * smoothStep(6, 14, y) * smoothStep(-54, -64, z) * smoothStep(-122, -106, z)

const SHORT: Kind = {
  heightAt: hairHeight,
  density: 0.072,
  lengths: [11, 24],
  halfWidths: [0.15, 0.6],
  single: 0.3,
  off: [0.3, 4.2],
  offPower: 2.4,
  rise: 2,
  astray: 0.3,
  bend: 0.25,
  points: 3,
  beside: overEar,
  parted: () => 0,
}
const LONG: Kind = {
  heightAt: (x, y, z) => (y > 34 ? longHairHeight(x, y, z) : 0),
  density: 0.0175,
  lengths: [30, 75],
  halfWidths: [0.12, 0.5],
  single: 0.4,
  off: [0.3, 3.4],
  offPower: 3,
  rise: 2,
  astray: 0.1,
  bend: 0.07,
  points: 4,
  beside: atFrontEdge,
  parted: (x, y, z) => atParting(x, y, z, 14),
}
/** Hairs that fly off each cut, in all directions: a few together, as one alone is dots until hundreds of samples are in. */
const FLYING = { single: 0, halfWidths: [0.06, 0.16], beside: () => 0, parted: () => 0 } as const
const SHORT_FLYING: Kind = {
  ...SHORT,
  ...FLYING,
  density: 0.0045,
  lengths: [13, 25],
  off: [1.5, 6],
  offPower: 1.6,
  rise: 1.25,
  astray: 0.9,
  bend: 0.35,
  points: 4,
}
const LONG_FLYING: Kind = {
  ...LONG,
  ...FLYING,
  density: 0.0025,
  lengths: [26, 70],
  off: [1.5, 7],
  offPower: 1.8,
  rise: 1.3,
  astray: 0.4,
  bend: 0.22,
  points: 5,
}
const SINGLE = 0.05
/** Growth where roots lie at least, and out to which the way of a wisp may lead, over bare skin. */
const ROOTED = 0.3
const BARE = -1
/** So far under a hat's edge, or its crown would be pierced. */
const UNDER_HAT = -12

/** Those of a part of hair in this wear. */
export function wisps({ mesh, combed, grain }: FigurePart, { hairCut, headwear }: Wear): readonly BoundStrand[] {
  if (!combed || !grain) return []
  const [lying, flying] = hairCut === 'long' ? [LONG, LONG_FLYING] : [SHORT, SHORT_FLYING]
  const outer = outerTriangles(mesh)
  const least = (t: number) => Math.min(...[0, 1, 2].map((k) => grain[mesh.indices[t + k] * 3 + 2]))
  const grown = (growth: number) => outer.filter((t) => least(t) > growth)
  const isInside = (t: number) => least(t) > 1
  const walk = new SkinWalk(mesh, grown(BARE))
  /** How deep the hair's mesh lies under the skin. */
  const under = ({ triangle, at: [x, y, z] }: SkinPoint) =>
    isInside(triangle) ? 0 : Math.max(0, -lying.heightAt(x / MM, y / MM, z / MM))
  const shows = ({ at: [x, y, z] }: SkinPoint) =>
    headwear === 'none' || inHat(x / MM, y / MM, z / MM).height < UNDER_HAT
  const rooted = grown(ROOTED)
  const wispsOf = (kind: Kind, stream: number) =>
    rooted.flatMap((triangle) =>
      rootsOn(walk, triangle, density(walk, triangle, kind), stream).flatMap(({ root, number }) => {
        const way = combedOn(mesh, combed, triangle)
        const loose = 1 + kind.beside(root.at[1] / MM, root.at[2] / MM)
        const path = way && pathFrom(walk, root, way, number, loose, kind)
        if (!path?.every(shows)) return []
        return [
          {
            strand: { kind: 'wisp' as const, lid: null, points: pointsOf(path.map(under), number, loose, kind) },
            places: path.map((p) => walk.place(p)),
          },
        ]
      }),
    )
  return [...wispsOf(lying, STREAM), ...wispsOf(flying, FLYING_STREAM)]
}

/** Beside the face there are so many times more, and at the parting, whose line they hide. */
const [MORE, MORE_PARTED] = [2.5, 5]

function density(walk: SkinWalk, triangle: number, { density, beside, parted }: Kind): number {
  const [x, y, z] = walk.plane(triangle).corners[0].map((v) => v / MM)
  return density * (1 + (MORE - 1) * beside(y, z) + (MORE_PARTED - 1) * parted(x, y, z))
}

/** Mean of the corners; null where strands meet. */
function combedOn(mesh: Mesh, combed: Float32Array, triangle: number): Vec3 | null {
  const sum = cornerSum(combed, mesh, triangle)
  return length(sum) < 2 ? null : normalize(sum)
}

const chanceOf =
  (number: number) =>
  (k: number, low: number, high: number): number =>
    spread(STREAM + 3 + k, number, low, high)

function pathFrom(walk: SkinWalk, root: SkinPoint, way: Vec3, number: number, loose: number, kind: Kind) {
  const chance = chanceOf(number)
  const aside = chance(0, -1, 1) * chance(1, 0.2, 1) * kind.astray * loose
  const step = (chance(2, ...kind.lengths) * MM) / (kind.points - 1)
  const direction = turned(way, walk.plane(root.triangle).normal, aside)
  return walk.along(root, direction, chance(3, -1, 1) * kind.bend, step, kind.points)
}

/** Height over the hair and half width, from root to tip; outside the hairline, where the hair's mesh dives, over the skin. */
function pointsOf(
  under: readonly number[],
  number: number,
  loose: number,
  { halfWidths, single, off: offs, ...kind }: Kind,
) {
  const chance = chanceOf(number)
  const off = mix(...offs, chance(4, 0, 1) ** kind.offPower) * loose
  const halfWidth = chance(5, 0, 1) < single ? SINGLE : mix(...halfWidths, chance(6, 0, 1) ** 2)
  return under.map((deep, k) => {
    const s = k / (under.length - 1)
    const lift = deep + mix(-0.5, 0.25, smoothStep(0, 0.3, s)) + off * s ** kind.rise
    return { liftM: lift * MM, halfWidthM: halfWidth * mix(0.35, 1, smoothStep(0, 0.4, s)) * (1 - 0.97 * s ** 2) * MM }
  })
}
