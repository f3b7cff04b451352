/**
 * The fine grain of hair, from tresses to single strands, drawn as one surface, and where its strands end. Twin of
 * src/render/shaders/grain.glsl, which draws it. Widths and depths by eye; a scalp hair is 0.06 to 0.1 mm thick, so the finest
 * are a few strands that lie together.
 */
import { hash32 } from '../../space'
import { mix, smoothStep } from '../sculpt/solids'

export interface Grain {
  /** Slopes of the surface, means 0: across the strands, and along them to the tip. */
  readonly across: number
  readonly along: number
  /** Factor on the reflectance, mean 1, above 0. */
  readonly tone: number
  /** How much farther than their neighbours the strands here grow out, as growth is counted; mean 0. */
  readonly reach: number
  /** Standard deviation of what is left of it within a pixel. */
  readonly blur: number
}

/** [width mm, length mm, slope across, slope along, tone, reach]: amplitudes. */
const SCALES = [
  [7, 70, 0.11, 0.03, 0.12, 0.5],
  [3.2, 52, 0.25, 0.09, 0.24, 0.5],
  [1.4, 38, 0.36, 0.11, 0.3, 0.55],
  [0.6, 28, 0.34, 0.09, 0.2, 0.6],
  [0.25, 20, 0.28, 0.08, 0.12, 0.5],
] as const
/** Strands of a lock bend by this share of its width, so that they draw together and part. */
const BEND = 0.3
/** Standard deviation of a lock's numbers. */
const SPREAD = 0.42

/** Three numbers from −1 to 1 of one hash. */
function threeAt(i: number, j: number): readonly number[] {
  const h = hash32(i, j)
  return [h & 1023, (h >>> 10) & 1023, (h >>> 20) & 1023].map((v) => v / 511.5 - 1)
}

/** One lock along its length; each begins elsewhere. */
function lockAt(column: number, v: number, seed: number): readonly number[] {
  const from = v + (hash32(column, 4096 * seed + 2048) >>> 8) / 16777216
  const row = Math.floor(from)
  const [low, high] = [threeAt(column, row + 4096 * seed), threeAt(column, row + 1 + 4096 * seed)]
  return low.map((value, k) => mix(value, high[k], smoothStep(0, 1, from - row)))
}

/**
 * acrossMm, alongMm: place in the combing; footprintMm: how much of the way across a pixel takes in. What is narrower than
 * two of them fades out.
 */
export function hairGrain(acrossMm: number, alongMm: number, footprintMm: number): Grain {
  const sum = [0, 0, 0, 0]
  let [bent, variance] = [acrossMm, 0]
  SCALES.forEach(([width, length, ...amplitudes], seed) => {
    const share = smoothStep(1, 2, width / footprintMm)
    variance += (1 - share) * (amplitudes[3] * SPREAD) ** 2
    if (share === 0) return
    const x = bent / width
    const column = Math.floor(x)
    const [left, right] = [0, 1].map((side) => lockAt(column + side, alongMm / length, seed))
    const lock = [0, 1, 2].map((k) => mix(left[k], right[k], smoothStep(0, 1, x - column)))
    for (let k = 0; k < 4; k++) sum[k] += share * amplitudes[k] * lock[Math.min(k, 2)]
    bent += BEND * width * lock[0]
  })
  return { across: sum[0], along: sum[1], tone: 1 + sum[2], reach: sum[3], blur: Math.sqrt(variance) }
}

/** Of a strand's own edge, as growth is counted. */
const EDGE = 0.16

/** Share of a pixel that strands cover which have thinned out to that growth. */
export function hairCover(growth: number, { reach, blur }: Pick<Grain, 'reach' | 'blur'>): number {
  const soft = EDGE + 1.9 * blur
  return smoothStep(-soft, soft, growth + reach)
}

/** Growth from which the mass of hair hides all, and is not asked. */
export const DENSE = 1.8

/**
 * The same of hair as a mass, which stands off the skin: it thins out farther in and sooner than what is painted on the skin,
 * so that little shows of the shadow under it.
 */
export const massCover = (growth: number, { reach, blur }: Pick<Grain, 'reach' | 'blur'>): number =>
  hairCover(1.8 * growth - 0.7, { reach, blur: CRISP * blur })
/** The mass is shown or not, look by look: less blurred, it ends by the locks that a pixel can tell instead of in specks. */
const CRISP = 0.35
