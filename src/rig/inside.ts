import type { PosedFigure } from '../figure'
import type { Vec3 } from '../space'
import type { Rig } from './types'

/** Parts that make up the body; glasses and strands are no place to be inside of. */
const BODY = ['skin', 'hair', 'garment', 'headwear']

/** Whether a point lies inside a sitter, and in whom: 'the sitter', 'sitter 2'; null: in none. */
export function sitterAround({ figures }: Pick<Rig, 'figures'>, point: Vec3): string | null {
  const i = figures.findIndex(({ posed }) => isNear(posed, point) && turnsRound(posed, point) > 0.5)
  return i < 0 ? null : i === 0 ? 'the sitter' : `sitter ${i + 1}`
}

const REACH_M = 0.6
const isNear = ({ eyeMidpoint }: PosedFigure, p: Vec3): boolean =>
  Math.hypot(p[0] - eyeMidpoint[0], p[1] - eyeMidpoint[1], p[2] - eyeMidpoint[2]) < REACH_M

/**
 * How often the body's meshes go round a point: the sum of their triangles' solid angles over 4π [Oosterom83], one inside
 * and none outside. Meshes that end at the chest only take some hundredths from that, so a half parts the two.
 */
function turnsRound({ parts }: PosedFigure, point: Vec3): number {
  let sum = 0
  for (const { name, mesh } of parts) {
    if (!BODY.includes(name)) continue
    const { positions: p, indices } = mesh
    for (let t = 0; t < indices.length; t += 3)
      sum += signedAngle(
        corner(p, indices[t], point),
        corner(p, indices[t + 1], point),
        corner(p, indices[t + 2], point),
      )
  }
  return sum / (4 * Math.PI)
}

const corner = (p: ArrayLike<number>, i: number, o: Vec3): Vec3 => [
  p[3 * i] - o[0],
  p[3 * i + 1] - o[1],
  p[3 * i + 2] - o[2],
]

/** Solid angle of a triangle seen from the origin: tan(Ω/2) = a·(b×c) / (abc + a(b·c) + b(a·c) + c(a·b)). */
function signedAngle(a: Vec3, b: Vec3, c: Vec3): number {
  const [la, lb, lc] = [Math.hypot(...a), Math.hypot(...b), Math.hypot(...c)]
  const volume =
    a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])
  const dotted = (u: Vec3, v: Vec3) => u[0] * v[0] + u[1] * v[1] + u[2] * v[2]
  return 2 * Math.atan2(volume, la * lb * lc + la * dotted(b, c) + lb * dotted(a, c) + lc * dotted(a, b))
}
