import { discFactorOnAxis } from './disc'
import { facingRectangle } from './rectangle'
import { stopsBetween } from './stops'
import type { Candela, Lux, Metres, Radians, Steradians, Stops } from './units'

/** The inverse square and cosine laws: E = I·cosθ/d². */
export const illuminanceFromIntensity = (intensity: Candela, distance: Metres, incidence: Radians = 0): Lux =>
  (intensity * Math.cos(incidence)) / distance ** 2

/** Loss in going from one distance to another from a small source: 2·log₂(d₂/d₁), positive when farther. */
export const inverseSquareStops = (from: Metres, to: Metres): Stops => 2 * stopsBetween(from, to)

/** A small flat source opposite a parallel plane, off its axis: two cosines from the surfaces, two from the distance. */
export const cosineFourth = (angle: Radians): number => Math.cos(angle) ** 4

/** E/L that a source of this area would give if it were a point facing the element. */
export const pointEstimate = (area: number, distance: Metres): Steradians => area / distance ** 2

/** True illuminance over the point estimate; below 1, since the rim is farther away and slanted. */
export const discOverPoint = (radius: Metres, distance: Metres): number =>
  (Math.PI * discFactorOnAxis(radius, distance)) / pointEstimate(Math.PI * radius ** 2, distance)

export const rectangleOverPoint = (width: Metres, height: Metres, distance: Metres): number =>
  facingRectangle(width, height, distance) / pointEstimate(width * height, distance)

/** A narrow strip of length l, both cosines: (1/l)·∫ d⁴/(d²+x²)² dx = (d/l)·(atan u + u/(1+u²)), u = l/2d. */
export function lineOverPoint(length: Metres, distance: Metres): number {
  const u = length / (2 * distance)
  return (distance / length) * (Math.atan(u) + u / (1 + u * u))
}

/** −d ln E/d ln d on the axis of a disc: 2d²/(d²+R²). 2 far off, 0 close by: a large source near hardly falls off. */
export const falloffExponentOfDisc = (radius: Metres, distance: Metres): number =>
  (2 * distance ** 2) / (distance ** 2 + radius ** 2)
