import { addScaled, cross, dot, length, scale, subtract, type Vec3 } from '../space'
import type { Steradians } from './units'

/**
 * The part of a polygon (corners as seen from the element, in order) above the plane through the origin with normal n.
 * Sutherland and Hodgman against one plane. Empty: all of it is below the horizon.
 */
export function polygonAboveHorizon(corners: readonly Vec3[], normal: Vec3): readonly Vec3[] {
  return corners.flatMap((from, i) => {
    const to = corners[(i + 1) % corners.length]!
    const a = dot(from, normal)
    const b = dot(to, normal)
    const kept = a >= 0 ? [from] : []
    return a >= 0 === b >= 0 ? kept : [...kept, addScaled(from, subtract(to, from), a / (a - b))]
  })
}

/**
 * E/L of a uniform polygon at the origin, Lambert's formula with the horizon cut off first:
 *     E/L = ½·|Σᵢ θᵢ·(n·Γᵢ)|,  θᵢ the angle between corners i and i+1, Γᵢ the unit normal of the plane they span
 * (Stokes' theorem on ∫cosθ dω) [Lambert], [Baum89]. Either winding; both sides shine.
 * The corners lie in one plane that misses the origin; the normal is unit. Result 0 to π.
 */
export function irradianceFromPolygon(corners: readonly Vec3[], normal: Vec3): Steradians {
  const above = polygonAboveHorizon(corners, normal)
  let sum = 0
  for (let i = 0; i < above.length; i++) {
    const from = above[i]!
    const to = above[(i + 1) % above.length]!
    const across = cross(from, to)
    const sine = length(across)
    if (sine > 0) sum += (Math.atan2(sine, dot(from, to)) * dot(across, normal)) / sine
  }
  return Math.abs(sum) / 2
}

/** Solid angle of a plane triangle from the origin: tan(Ω/2) = |a·(b×c)|/(abc + (a·b)c + (a·c)b + (b·c)a) [Oosterom83]. */
export function solidAngleOfTriangle(a: Vec3, b: Vec3, c: Vec3): Steradians {
  const [u, v, w] = [scale(a, 1 / length(a)), scale(b, 1 / length(b)), scale(c, 1 / length(c))]
  return 2 * Math.atan2(Math.abs(dot(u, cross(v, w))), 1 + dot(u, v) + dot(u, w) + dot(v, w))
}
