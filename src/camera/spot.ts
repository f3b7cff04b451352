import { GREY_CARD, luminanceFromSrgb, type NitSeconds, type Rgb, type Stops, stopsBetween } from '../photometry'
import { pixelFromLinear } from './displayTransform'

/** What a spot meter says of one place of the picture. */
export interface Spot {
  /** From middle grey, a matt 18 % card in metered light; −Infinity: no light. */
  readonly stops: Stops
  /** sRGB codes without a contrast curve. */
  readonly codes: Rgb
  /** Over the exposure: a continuous light's luminance times the exposure time. */
  readonly luminance: NitSeconds
  /** Light that a perfect matt white would need to look like this: π·L, lx·s. */
  readonly whiteLuxSeconds: number
}

/** linear: exposed values; scale: what exposed them (exposureScale), in 1/(cd·s/m²). */
export function spotOf(linear: Rgb, scale: number): Spot {
  const value = luminanceFromSrgb(linear)
  const luminance = value / scale
  return {
    stops: value > 0 ? stopsBetween(GREY_CARD, value) : -Infinity,
    codes: pixelFromLinear(linear, 'plain'),
    luminance,
    whiteLuxSeconds: Math.PI * luminance,
  }
}
