import type { Lux, Metres, Nits, Radians, Steradians } from './units'

/**
 * E/L of a uniform round source (a sphere, or a disc facing the element) of angular radius s whose centre stands at
 * angle t from the element's normal, cut by the element's horizon: the shading across a terminator [Lagarde14],
 * by Nusselt's projection of the cap. Above the horizon π·cos t·sin²s; where it sets, with x = cot s, y = −x·cot t,
 * q = sin t·√(1−y²): (cos t·acos y − x·q)·sin²s + atan(q/x); below it 0. 0 < s < π/2, 0 ≤ t ≤ π.
 */
export function roundSourceIrradiance(angle: Radians, angularRadius: Radians): Steradians {
  const capped = Math.sin(angularRadius) ** 2
  if (angle + angularRadius <= Math.PI / 2) return Math.PI * Math.cos(angle) * capped
  if (angle - angularRadius >= Math.PI / 2) return 0
  const x = 1 / Math.tan(angularRadius)
  const y = -x / Math.tan(angle)
  const q = Math.sin(angle) * Math.sqrt(1 - y * y)
  return (Math.cos(angle) * Math.acos(y) - x * q) * capped + Math.atan(q / x)
}

/** How far past the 90° terminator of a ball a facing disc still reaches: its own angular radius. */
export const reachPastTerminator = (radius: Metres, distance: Metres): Radians => Math.atan2(radius, distance)

/** E at an element that faces a uniform sphere: π·L·(R/d)², exact at any d ≥ R from the centre. */
export const illuminanceFromSphere = (luminance: Nits, radius: Metres, distance: Metres): Lux =>
  Math.PI * luminance * (radius / distance) ** 2

/** E/L of an upper half-space of uniform luminance (an even sky) on an element tilted from level: π(1 + cos t)/2. */
export const irradianceFromUniformSky = (tilt: Radians): Steradians => (Math.PI * (1 + Math.cos(tilt))) / 2

/** Configuration factor of an endless strip seen between two angles from the normal, both within ±π/2 (crossed strings). */
export const stripFactor = (from: Radians, to: Radians): number => (Math.sin(to) - Math.sin(from)) / 2
