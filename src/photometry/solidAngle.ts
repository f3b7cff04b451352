import { carlsonRf, carlsonRj } from './elliptic'
import type { Metres, Radians, Steradians } from './units'

/** Solid angle of a cone of half angle a: 2π(1 − cos a), written as 4π·sin²(a/2) so that small cones keep their digits. */
export const solidAngleOfCone = (halfAngle: Radians): Steradians => 4 * Math.PI * Math.sin(halfAngle / 2) ** 2

/** Of the zone between two angles from the axis: 2π(cos a − cos b), the zonal constant of photometric reports. */
export const solidAngleOfZone = (from: Radians, to: Radians): Steradians =>
  solidAngleOfCone(to) - solidAngleOfCone(from)

/** Of a disc from a point on its axis. */
export const solidAngleOfDisc = (radius: Metres, distance: Metres): Steradians =>
  solidAngleOfCone(Math.atan2(radius, distance))

/** Of a rectangle from a point on its axis: 4·atan(wh/(2d·√(4d² + w² + h²))); a right pyramid's, four times. */
export const solidAngleOfRectangle = (width: Metres, height: Metres, distance: Metres): Steradians =>
  4 * Math.atan((width * height) / (2 * distance * Math.sqrt(4 * distance ** 2 + width ** 2 + height ** 2)))

/**
 * Of a disc from a point at height h > 0 over its plane, a ≥ 0 beside its axis [Paxton59]. With
 * q = √(h² + (a+R)²), k² = 4aR/q², n = 4aR/(a+R)²:
 *     Ω = 2π·[a < R] + π·[a = R] − (2h/q)·K(k²) + (2h/q)·((a − R)/(a + R))·Π(n, k²)
 * K and Π by Carlson's forms: K = R_F(0, 1−k², 1), Π = K + (n/3)·R_J(0, 1−k², 1, 1−n). At a = R the last term is 0.
 */
export function solidAngleOfDiscOffAxis(radius: Metres, height: Metres, offset: Metres): Steradians {
  const q = Math.hypot(height, offset + radius)
  const complement = (height ** 2 + (offset - radius) ** 2) / q ** 2
  const k = carlsonRf(0, complement, 1)
  const edge = (offset - radius) / (offset + radius)
  const inside = Math.PI * (1 - Math.sign(offset - radius))
  if (edge === 0) return inside - ((2 * height) / q) * k
  const n = (4 * offset * radius) / (offset + radius) ** 2
  const pi = k + (n / 3) * carlsonRj(0, complement, 1, edge * edge)
  return inside + ((2 * height) / q) * (edge * pi - k)
}

/** Angle that a disc of diameter D fills from a point on its axis: 2·atan(D/2d), in radians. */
export const angularDiameter = (diameter: Metres, distance: Metres): Radians => 2 * Math.atan2(diameter, 2 * distance)
