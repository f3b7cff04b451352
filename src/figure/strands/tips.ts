/**
 * Tips of long hair: strands that hang on where the mass of it ends, drawn together lock by lock, and each lock ends at a height of its
 * own (common knowledge, no source). Each hangs from one place of the hair's mesh. Millimetres inside.
 */
import { cross, normalize, type Vec3 } from '../../space'
import { endY, isFront, longStrand, underFall } from '../sculpt/longHair'
import { clamp01, mix, smoothStep } from '../sculpt/solids'
import type { FigurePart } from '../types'
import { type BoundStrand, spread } from './binding'
import { cornerSum, outerTriangles, rootsOn } from './roots'
import { SkinWalk } from './skin-walk'

const MM = 1e-3
const STREAM = 760
const POINTS = 4
/** Roots a mm² of hair, so far above its end. */
const DENSITY = 0.2
const ROOTED = [1, 34] as const
const HIGHEST_Y = -50
/** Locks a radian, and how much lower or higher than the mass they end. */
const LOCKS = 12
const ENDS = [-10, 2] as const
/** Beside the face all is so much shorter. */
const FRONT_ENDS = 0.55
/** A lock leans to a side by so much of its length. */
const LEAN = 0.2
/** How far strands of a lock draw together, and at most. */
const TOGETHER = 0.85
const MOST_ASIDE = 10
const HALF_WIDTHS = [0.12, 0.5] as const
const SINGLE = 0.05
/** None shorter, none where the mass faces the floor. */
const LEAST = 6
const FACES_DOWN = -0.7

/** Those of long hair as its mesh has them; a hat leaves them. */
export function tips({ mesh }: FigurePart): readonly BoundStrand[] {
  const { positions: p, indices } = mesh
  const isEnd = (t: number) => {
    const [x, y, z] = [0, 1, 2].map((k) => p[indices[t] * 3 + k] / MM)
    if (y > HIGHEST_Y || underFall(x, y, z) > 0.1) return false
    const above = y - endY(longStrand(x, y, z)[0])
    return above > ROOTED[0] && above < ROOTED[1]
  }
  const ends = outerTriangles(mesh).filter(isEnd)
  const walk = new SkinWalk(mesh, ends)
  return ends.flatMap((triangle) =>
    rootsOn(walk, triangle, DENSITY, STREAM).flatMap(({ root, number }) => {
      const points = hanging(root.at, normalize(cornerSum(mesh.normals, mesh, triangle)), number)
      const place = walk.place(root)
      return points ? [{ strand: { kind: 'wisp' as const, lid: null, points }, places: points.map(() => place) }] : []
    }),
  )
}

/** Down to its lock's tip; null: that lies above. */
function hanging(at: Vec3, normal: Vec3, number: number) {
  const chance = (k: number, low: number, high: number) => spread(STREAM + 3 + k, number, low, high)
  const [x, y, z] = at.map((v) => v / MM)
  const out = normalize([normal[0], 0, normal[2]])
  const aside = cross([0, 1, 0], out)
  const { angle, turn } = angleAlong([x, y, z], aside)
  const lock = Math.floor(angle * LOCKS + chance(0, -0.3, 0.3))
  const middle = (lock + 0.5 + spread(STREAM, lock + 100, -0.25, 0.25)) / LOCKS
  const low =
    endY(middle) + spread(STREAM + 1, lock + 100, ...ENDS) * mix(1, FRONT_ENDS, isFront(angle)) + chance(1, -5, 4)
  const length = y - low
  if (length < LEAST || normal[1] < FACES_DOWN) return null
  const shift = turn === 0 ? 0 : clamp((middle - angle) / turn) * TOGETHER
  const lean = length * (spread(STREAM + 2, lock + 100, -LEAN, LEAN) + chance(2, -0.2, 0.2) * chance(3, 0, 1))
  const inward = chance(4, 0, 5) - 1.2
  const halfWidth = chance(5, 0, 1) < 0.15 ? SINGLE : mix(...HALF_WIDTHS, chance(6, 0, 1) ** 1.5)
  return Array.from({ length: POINTS }, (_, k) => {
    const s = k / (POINTS - 1)
    const [across, off] = [shift * s ** 1.4 + lean * s * s, 0.3 - inward * s * s]
    return {
      offset: [0, 1, 2].map(
        (i) => (aside[i] * across + out[i] * off - (i === 1 ? length * s : 0)) * MM,
      ) as unknown as Vec3,
      halfWidthM: halfWidth * mix(0.1, 1, smoothStep(0, 0.35, s)) * (1 - 0.97 * s ** 1.8) * MM,
    }
  })
}

const clamp = (mm: number): number => MOST_ASIDE * (2 * clamp01(0.5 + mm / (2 * MOST_ASIDE)) - 1)

/** Angle of the strand at a place, and by how much it turns in a millimetre aside. */
function angleAlong([x, y, z]: Vec3, aside: Vec3) {
  const [angle] = longStrand(x, y, z)
  return { angle, turn: longStrand(x + aside[0], y, z + aside[2])[0] - angle }
}
