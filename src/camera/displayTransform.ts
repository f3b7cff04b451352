import { INCIDENT_C, type NitSeconds, type Rgb, srgbFromLinear } from '../photometry'

/**
 * From light to the picture. One scale, then one curve:
 *
 * 1. linear = L · π·S/(C·N²). An incident reading sets N² = E·S/C, and a matt card of reflectance ρ sends L = ρE/π, so
 *    it lands at linear = ρ whatever the light: the picture value is the reflectance that metered light would need.
 * 2. plain: sRGB as it stands. 18 % grey is code 118, 88 % white 241, and all above 1 clips.
 *    shoulder: the same up to SHOULDER_KNEE; above it, with k the knee,
 *        y = k + (1 − k)·(1 − exp(−(x − k)/(1 − k)))
 *    which leaves the knee with slope 1 and never reaches 1. The knee is 0.5, above grey and above the lightest skin in
 *    metered light, so both keep their plain values; 88 % white comes to code 227, and a code of 255 needs 4.0 stops
 *    over grey in place of 2.5. Own choice of curve, no source. Each channel takes it alone, as film and print do, so
 *    a strong colour that is over-exposed runs to white.
 */
export type DisplayMode = 'plain' | 'shoulder'

/** Picture value where the shoulder leaves the straight line. */
export const SHOULDER_KNEE = 0.5

/** The factor of step 1, in 1/(cd·s/m²). Luminance is over the exposure: a continuous light's times its shutter time. */
export const exposureScale = (iso: number, fNumber: number, c = INCIDENT_C): number =>
  (Math.PI * iso) / (c * fNumber * fNumber)

export const pictureValueFromLuminance = (luminance: NitSeconds, iso: number, fNumber: number): number =>
  luminance * exposureScale(iso, fNumber)

/** The curve of step 2 before the sRGB encoding, for one channel; x ≥ 0. */
export function shoulder(x: number): number {
  if (x <= SHOULDER_KNEE) return x
  const room = 1 - SHOULDER_KNEE
  return SHOULDER_KNEE + room * (1 - Math.exp((SHOULDER_KNEE - x) / room))
}

/** Display-linear channel in 0 to 1, what the screen is asked to emit. A display can't show more than 1: there it clips. */
const displayFromLinear = (x: number, mode: DisplayMode): number =>
  Math.min(1, Math.max(0, mode === 'plain' ? x : shoulder(x)))

/** One channel as an 8-bit sRGB code, 0 to 255, not rounded. */
export const codeFromLinear = (x: number, mode: DisplayMode): number => 255 * srgbFromLinear(displayFromLinear(x, mode))

/** The pixel, three whole codes. */
export function pixelFromLinear(linear: Rgb, mode: DisplayMode): Rgb {
  const [r, g, b] = linear
  return [Math.round(codeFromLinear(r, mode)), Math.round(codeFromLinear(g, mode)), Math.round(codeFromLinear(b, mode))]
}
