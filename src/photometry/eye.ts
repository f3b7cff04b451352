import type { Metres, Nits, Radians } from './units'

/** Optics of the eye, as far as a portrait shows them. */

/** Power of a refracting surface between air and index n, dioptres. Radius in metres. */
export const surfacePower = (index: number, radius: Metres): number => (index - 1) / radius

/** Angle between both eyes' lines of sight on a target. */
export const convergence = (pupilDistance: Metres, targetDistance: Metres): Radians =>
  2 * Math.atan2(pupilDistance, 2 * targetDistance)

/** Angle between flash and lens as the eye sees them: red-eye grows as it falls. No source gives a safe limit. */
export const flashToLensAngle = (separation: Metres, eyeDistance: Metres): Radians =>
  Math.atan2(separation, eyeDistance)

/** Mean pupil diameter in metres under a field of luminance L in cd/m² [MoonSpencer44]; people differ by ±0.5 mm and more. */
export const pupilDiameter = (luminance: Nits): Metres => (4.9 - 3 * Math.tanh(0.4 * Math.log10(luminance))) * 1e-3
