import { cross, normalize, type Vec3 } from '../space'
import { type Matrix, rotation } from './rotation'

/** Metres by which the head goes forward, where the body faces, and aside, to the sitter's own left. */
export interface Lean {
  readonly forwardM: number
  readonly asideM: number
}

/** Metres either way. A trunk goes farther; the neck then has more to make good than it can. */
export const LEAN_LIMIT_M = 0.15

/**
 * What the trunk leans about, head-local metres: the seat, under the axis that the body turns about. Eyes over the seat: mean
 * of 748 mm (women) and 805 mm (men), ANSUR II 2012. A child's trunk is taken for as long.
 */
export const SEAT: Vec3 = [0, -0.776, -0.09]

/**
 * The trunk's rotation about the seat that takes the head's pivot so far over level ground. With the pivot h over the seat
 * and c before it along the lean: c·cos θ + h·sin θ = c + d, so θ = asin((c + d)/√(c² + h²)) − atan(c/h).
 */
export function leanRotation({ forwardM, asideM }: Lean, pivot: Vec3): Matrix {
  const d = Math.hypot(forwardM, asideM)
  if (d === 0) return rotation([0, 1, 0], 0)
  const way = normalize([asideM, 0, forwardM])
  const h = pivot[1] - SEAT[1]
  const c = (pivot[0] - SEAT[0]) * way[0] + (pivot[2] - SEAT[2]) * way[2]
  const angle = Math.asin((c + d) / Math.hypot(c, h)) - Math.atan2(c, h)
  return rotation(cross([0, 1, 0], way), angle)
}
