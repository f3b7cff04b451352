import {
  cosineFourth,
  GREY_CARD,
  LENS_FACTOR,
  type Lux,
  type LuxSeconds,
  type Nits,
  type Radians,
  REFLECTED_K,
  SATURATION_SPEED,
  STANDARD_OUTPUT_SPEED,
  stopsBetween,
} from '../photometry'

/** Exposure in the focal plane [ISO12232]: H = q·L·t/N². */

/** q = (π/4)·T·v·cos⁴θ, T the lens's transmittance, v its vignetting factor, θ the angle from the axis. */
export const lensFactor = (transmittance: number, vignetting: number, angle: Radians): number =>
  (Math.PI / 4) * transmittance * vignetting * cosineFourth(angle)

/** Illuminance in the focal plane on the axis, distant subject: π·L·T/(4N²). */
export const focalIlluminance = (luminance: Nits, transmittance: number, fNumber: number): Lux =>
  (lensFactor(transmittance, 1, 0) * luminance) / fNumber ** 2

/** Of what a reflected reading was taken from: N² = L·t·S/K in H = q·L·t/N² gives q·K/S. */
export const focalExposureOfReading = (iso: number, k = REFLECTED_K, q = LENS_FACTOR): LuxSeconds => (q * k) / iso

/** Exposure that saturates a sensor of this (saturation-based) speed: 78/S. */
export const saturationExposure = (iso: number): LuxSeconds => SATURATION_SPEED / iso
/** Exposure that gives the standard output level, 0.461 of full scale: 10/S. */
export const standardOutputExposure = (iso: number): LuxSeconds => STANDARD_OUTPUT_SPEED / iso
/** From one to the other: 7.8, or 2.96 stops. */
export const HEADROOM = SATURATION_SPEED / STANDARD_OUTPUT_SPEED
export const HEADROOM_STOPS = stopsBetween(STANDARD_OUTPUT_SPEED, SATURATION_SPEED)
/** Share of saturation at which the standard lays a metered 18 % card, half a stop kept free: 0.18/√2 = 0.127. */
export const METERED_CARD_SHARE = GREY_CARD / Math.SQRT2
