import type { Metres, Radians, Stops } from '../photometry'

/** Distances of a thin lens; lengths in any one unit. */

/** u = f(1 + 1/m). */
export const distanceFromMagnification = (focal: number, m: number): number => focal * (1 + 1 / m)
/** From subject to sensor: f(2 + m + 1/m). */
export const subjectToSensor = (focal: number, m: number): number => focal * (2 + m + 1 / m)

/** Distance from the lens at which a length of the subject fills a length of the sensor. */
export const framingDistance = (focal: number, subject: number, sensor: number): number =>
  distanceFromMagnification(focal, sensor / subject)

/** How much larger the nearer of two equal things looks, one at d, the other D behind it: (d + D)/d. */
export const perspectiveRatio = (depth: Metres, distance: Metres): number => (distance + depth) / distance

/** Distance from which a print shows the lens's own perspective: f times the enlargement times (1 + m). */
export const viewingDistance = (focal: number, enlargement: number, m = 0): number => focal * enlargement * (1 + m)

/** Loss by extension of a symmetrical lens focused close: 2·log₂(1 + m). 0.14 stop at m = 0.05, a tight head at 36 mm. */
export const extensionLoss = (m: number): Stops => 2 * Math.log2(1 + m)

/** Elevation of a thing h above the eye line at a horizontal distance x. */
export const elevationAngle = (height: Metres, horizontal: Metres): Radians => Math.atan2(height, horizontal)
