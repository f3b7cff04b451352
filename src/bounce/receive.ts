import { addLinked, type PanelLinks } from './links'
import type { HitLists } from './lists'
import { listMean } from './solve'
import type { Fill } from './vertices'

/** What the elements' radiosity brings to rows of receivers: by links from near matt panels, by lists from all else. */
export interface Rows {
  readonly lists: HitLists
  readonly links: PanelLinks
  /** Of hidden rows, from their neighbours. */
  readonly fill: readonly Fill[]
  /** Rows among which light spreads: locks of hair, with those beside them. */
  readonly spread: readonly Fill[]
  /** Rows that share what their few rays bring, which is noise, with those beside them. None where rays are many. */
  readonly even: readonly Fill[]
}

/** Irradiance of the rows from `first` up to `end`, three bands each, 1/m². radiosity: one more triple than elements. */
export function receivedByRows(
  { lists, links, fill, spread, even }: Rows,
  first: number,
  end: number,
  radiosity: Float32Array,
): Float32Array {
  const listed = without(radiosity, links.linked)
  const light = new Float32Array(3 * end)
  const within = ({ row }: Fill): boolean => row >= first && row < end
  for (let row = first; row < end; row++) listMean(lists, row, listed, light, row)
  evenOut(light, even.filter(within))
  for (let row = first; row < end; row++) addLinked(links, row, radiosity, light)
  for (const { row, from } of fill.filter(within))
    for (let band = 0; band < 3; band++) light[3 * row + band] = mean(light, from, band)
  const locks = spread.filter(within)
  for (let round = 0; round < SPREAD_ROUNDS; round++) evenOut(light, locks)
  return light.subarray(3 * first)
}

const mean = (values: Float32Array, from: readonly number[], band: number): number =>
  from.reduce((sum, other) => sum + values[3 * other + band], 0) / from.length

/** Each row of three numbers becomes half its own and half the mean of those beside it. */
function evenOut(values: Float32Array, plan: readonly Fill[]): void {
  const before = values.slice()
  for (const { row, from } of plan)
    for (let k = 0; k < 3; k++) values[3 * row + k] = (before[3 * row + k] + mean(before, from, k)) / 2
}

/** Through hair light goes on by a centimetre or two; an edge of its proxy is as long. By eye. */
const SPREAD_ROUNDS = 3

/** Three bands an element, black where left out. */
export function without(values: Float32Array, leftOut: Uint8Array): Float32Array {
  const kept = values.slice()
  for (const [element, isOut] of leftOut.entries()) if (isOut) kept.fill(0, 3 * element, 3 * element + 3)
  return kept
}
