import { GREY_CARD, LUMINANCE_WEIGHTS, linearFromSrgb } from '../photometry'
import { METERED_CARD_SHARE } from './sensor'

/**
 * Picture value at which the sensor is full: the standard lays a metered 18 % card at 0.127 of saturation [ISO12232], so 0.18/0.127
 * = √2, half a stop above the display's white. Each channel by itself, as white-balanced red, green and blue: a camera's own
 * colours differ a little, which is left out.
 */
export const SENSOR_CLIP = GREY_CARD / METERED_CARD_SHARE

/** Bars of a histogram, each of as many sRGB codes. */
export const TALLY_BARS = 64
const CODES_EACH = 256 / TALLY_BARS

export const TALLY_BANDS = ['luminance', 'red', 'green', 'blue'] as const
export type TallyBand = (typeof TALLY_BANDS)[number]

/** All pixels of a picture by their sRGB codes, without a contrast curve; shares of all pixels, 0 to 1. */
export interface Tally {
  readonly bars: Readonly<Record<TallyBand, readonly number[]>>
  /** Some channel is above the display's white, above what fills the sensor; luminance is code 0. */
  readonly display: number
  readonly sensor: number
  readonly black: number
}

/** Linear values at which the rounded code comes to the next bar: half a code below its first. */
const EDGES = Array.from({ length: TALLY_BARS - 1 }, (_, i) => linearFromSrgb((CODES_EACH * (i + 1) - 0.5) / 255))
const BLACK_BELOW = linearFromSrgb(0.5 / 255)

function barOf(linear: number): number {
  let [low, high] = [0, TALLY_BARS - 1]
  while (low < high) {
    const middle = (low + high) >> 1
    if (linear >= EDGES[middle]) low = middle + 1
    else high = middle
  }
  return low
}

/** Counts pixel by pixel. */
export class Tallying {
  private readonly counts = TALLY_BANDS.map(() => new Float64Array(TALLY_BARS))
  private readonly clipped = { display: 0, sensor: 0, black: 0 }
  private pixels = 0

  add(r: number, g: number, b: number): void {
    const luminance = LUMINANCE_WEIGHTS[0] * r + LUMINANCE_WEIGHTS[1] * g + LUMINANCE_WEIGHTS[2] * b
    this.pixels++
    this.counts[0][barOf(luminance)]++
    this.counts[1][barOf(r)]++
    this.counts[2][barOf(g)]++
    this.counts[3][barOf(b)]++
    const most = Math.max(r, g, b)
    if (most > 1) this.clipped.display++
    if (most > SENSOR_CLIP) this.clipped.sensor++
    if (luminance < BLACK_BELOW) this.clipped.black++
  }

  done(): Tally {
    const all = Math.max(1, this.pixels)
    const share = (band: number) => Array.from(this.counts[band], (count) => count / all)
    const { display, sensor, black } = this.clipped
    return {
      bars: { luminance: share(0), red: share(1), green: share(2), blue: share(3) },
      display: display / all,
      sensor: sensor / all,
      black: black / all,
    }
  }
}
