import type { Metres, Steradians } from './units'

/**
 * Configuration factors of a uniform Lambertian rectangle from an element opposite one of its corners (normal +z, at
 * the origin) [Howell] B-3, B-4. Any rectangle is a sum or difference of four. Lengths in any one unit, all > 0.
 */

/** Rectangle 0 ≤ x ≤ a, 0 ≤ y ≤ b in the parallel plane z = c. Limit of the infinite quarter plane: 1/4. */
export function cornerFactorParallel(a: Metres, b: Metres, c: Metres): number {
  const sideA = Math.hypot(a, c)
  const sideB = Math.hypot(b, c)
  return ((a / sideA) * Math.atan(b / sideA) + (b / sideB) * Math.atan(a / sideB)) / (2 * Math.PI)
}

/** Rectangle 0 ≤ z ≤ a, 0 ≤ y ≤ b in the upright plane x = c, standing on the element's horizon. */
export function cornerFactorUpright(a: Metres, b: Metres, c: Metres): number {
  const slant = Math.hypot(a, c)
  return (Math.atan(b / c) - (c / slant) * Math.atan(b / slant)) / (2 * Math.PI)
}

/** E/L on the axis of a facing rectangle, sr (projected): four corners of π·F each. */
export const facingRectangle = (width: Metres, height: Metres, distance: Metres): Steradians =>
  4 * Math.PI * cornerFactorParallel(width / 2, height / 2, distance)
