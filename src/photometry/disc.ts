import type { Lux, Metres, Nits, Radians } from './units'

/**
 * Configuration factors F of a uniform Lambertian disc: E = π·L·F at a small element (the part of the element's
 * hemisphere that the disc fills, weighted by cosine) [Howell] B-12, B-13. Lengths in any one unit, all > 0.
 */

/** On the axis, facing: rings of radius r give F = ∫₀ᴿ 2r·d²/(r²+d²)² dr = R²/(R²+d²) = sin²α. */
export const discFactorOnAxis = (radius: Metres, distance: Metres): number =>
  (radius * radius) / (radius * radius + distance * distance)

/**
 * Element parallel to the disc at height h, displaced sideways by a ≥ 0:
 * with H = h/a, P = R/a, Z = 1 + H² + P²: F = ½·(1 − (Z − 2P²)/√(Z² − 4P²)) [Howell] B-13.
 * Multiplied through by a², so that a = 0 is no special case and gives the factor on the axis.
 */
export function discFactorOffAxis(radius: Metres, height: Metres, offset: Metres): number {
  const z = offset * offset + height * height + radius * radius
  const root = Math.sqrt(z * z - 4 * radius * radius * offset * offset)
  return (1 - (z - 2 * radius * radius) / root) / 2
}

/**
 * On the axis, turned from facing by w while all of the disc stays above the element's horizon (w + α ≤ 90°): the
 * vector irradiance of a symmetrical source lies on its axis, so the cosine law holds exactly.
 */
export function discFactorTilted(radius: Metres, distance: Metres, tilt: Radians): number {
  if (tilt + Math.atan2(radius, distance) > Math.PI / 2 + 1e-12)
    throw new Error(
      `photometry.discFactorTilted: the disc crosses the horizon at tilt ${tilt} rad, radius ${radius} m, distance ${distance} m; use roundSourceIrradiance`,
    )
  return Math.cos(tilt) * discFactorOnAxis(radius, distance)
}

/** E on the axis of a facing disc of luminance L: π·L·F. */
export const illuminanceFromDisc = (luminance: Nits, radius: Metres, distance: Metres): Lux =>
  Math.PI * luminance * discFactorOnAxis(radius, distance)
