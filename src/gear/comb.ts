import type { Comb } from '../photometry'
import { radians } from '../space'
import { choice } from './fields'
import type { Field } from './types'

/** Light that the black walls of a metal grid leave of what its holes let through: common practice, no source. */
const WALL_LOSS = 0.9

/** Of a dish: none, or by the angle of its label. */
export const COMB_FIELD: Field = choice('grid', 'Honeycomb grid, cut-off to each side', [
  'none',
  '40°',
  '30°',
  '20°',
  '10°',
])

/** The label is read as the cut-off to each side: width/depth = tan(label). Makers differ: common practice, no source. */
export const combOf = (label: string): Comb | null =>
  label === 'none' ? null : { depthOverWidth: 1 / Math.tan(radians(Number.parseInt(label, 10))), wallLoss: WALL_LOSS }
