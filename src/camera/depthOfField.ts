import { diagonalMm } from './fieldOfView'

/**
 * Depth of field, thin lens, distances from the lens in millimetres [Ray02]. c is the largest blur disc that still
 * counts as a point; which one is a convention.
 */

/** Usual conventions for c: a fraction of the sensor's diagonal. 1/1500 is the commoner. */
export const circleOfConfusionMm = (widthMm: number, heightMm: number, fraction = 1500): number =>
  diagonalMm(widthMm, heightMm) / fraction
/** Third convention, for 36 × 24 mm only. */
export const CIRCLE_OF_CONFUSION_35_MM = 0.03

/** Without the last + f, as field tables print it: f²/(N·c). Any one unit. */
export const hyperfocalRounded = (focal: number, fNumber: number, circle: number): number =>
  (focal * focal) / (fNumber * circle)
/** Focused here, all from half of it to infinity is sharp: f²/(N·c) + f. */
export const hyperfocal = (focal: number, fNumber: number, circle: number): number =>
  hyperfocalRounded(focal, fNumber, circle) + focal

export interface DepthOfField {
  readonly near: number
  /** Infinity from the hyperfocal distance on. */
  readonly far: number
  readonly total: number
}

/** Limits for focus at s: near s(H − f)/(H + s − 2f), far s(H − f)/(H − s). Any one unit; s > f. */
export function depthOfField(focal: number, fNumber: number, circle: number, focus: number): DepthOfField {
  const h = hyperfocal(focal, fNumber, circle)
  const near = (focus * (h - focal)) / (h + focus - 2 * focal)
  const far = focus < h ? (focus * (h - focal)) / (h - focus) : Infinity
  return { near, far, total: far - near }
}

/** Diameter on the sensor of the blur of a point at u when focused at s: f²/(N(s − f))·|u − s|/u. */
export const blurDiameter = (focal: number, fNumber: number, focus: number, at: number): number =>
  farBlurDiameter(focal, fNumber, focus) * (Math.abs(at - focus) / at)

/**
 * The same, by which blurs of one picture go: their limit for what is far off, f²/(N(s − f)), of which a point at u has |u − s|/u.
 */
export const farBlurDiameter = (focal: number, fNumber: number, focus: number): number =>
  (focal * focal) / (fNumber * (focus - focal))

/** Diameter of the first dark ring of diffraction, distant subject: 2·1.21967·λN [Airy1835]. Unit as the wavelength's. */
export const airyDiameter = (wavelength: number, fNumber: number): number => 2.43934 * wavelength * fNumber
