/**
 * The fine grain of hair, from tresses to single strands, drawn as one surface. Twin of src/render/shaders/grain.glsl, which
 * draws it. Widths and depths by eye; a scalp hair is 0.06 to 0.1 mm thick, so the finest are a few strands that lie together.
 */
import { hash32 } from '../../space'
import { mix, smoothStep } from '../sculpt/solids'

export interface Grain {
  /** Slopes of the surface, means 0: across the strands, and along them to the tip. */
  readonly across: number
  readonly along: number
  /** Factor on the reflectance, mean 1, above 0. */
  readonly tone: number
}

/** [width mm, length mm, slope across, slope along, tone]: amplitudes. */
const SCALES = [
  [7, 110, 0.12, 0.04, 0.12],
  [3.2, 80, 0.22, 0.1, 0.2],
  [1.4, 60, 0.28, 0.13, 0.22],
  [0.6, 40, 0.28, 0.13, 0.22],
  [0.25, 30, 0.28, 0.13, 0.2],
] as const

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
  const sum = [0, 0, 0]
  SCALES.forEach(([width, length, ...amplitudes], seed) => {
    const share = smoothStep(1, 2, width / footprintMm)
    if (share === 0) return
    const x = acrossMm / width
    const column = Math.floor(x)
    const [left, right] = [0, 1].map((side) => lockAt(column + side, alongMm / length, seed))
    for (let k = 0; k < 3; k++) sum[k] += share * amplitudes[k] * mix(left[k], right[k], smoothStep(0, 1, x - column))
  })
  return { across: sum[0], along: sum[1], tone: 1 + sum[2] }
}
