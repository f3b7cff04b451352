import type { Radians } from '../photometry'

/** A lens on a sensor, lengths in millimetres as they are engraved. */
export interface LensOnSensor {
  readonly focalLengthMm: number
  readonly sensorWidthMm: number
  readonly sensorHeightMm: number
}

/** Tangent of half the angle of view over a length of the sensor, rectilinear lens at infinity: s/2f. */
export const viewTangent = (sensorMm: number, focalLengthMm: number): number => sensorMm / (2 * focalLengthMm)

export const angleOfView = (sensorMm: number, focalLengthMm: number): Radians =>
  2 * Math.atan(viewTangent(sensorMm, focalLengthMm))

export const diagonalMm = (widthMm: number, heightMm: number): number => Math.hypot(widthMm, heightMm)

export interface FieldOfView {
  readonly horizontal: Radians
  readonly vertical: Radians
  readonly diagonal: Radians
}

export const fieldOfView = ({ focalLengthMm, sensorWidthMm, sensorHeightMm }: LensOnSensor): FieldOfView => ({
  horizontal: angleOfView(sensorWidthMm, focalLengthMm),
  vertical: angleOfView(sensorHeightMm, focalLengthMm),
  diagonal: angleOfView(diagonalMm(sensorWidthMm, sensorHeightMm), focalLengthMm),
})

/** Diagonal of the 36 × 24 mm frame over the sensor's: by how much longer a lens seems on it. */
export const cropFactor = (widthMm: number, heightMm: number): number =>
  diagonalMm(36, 24) / diagonalMm(widthMm, heightMm)
