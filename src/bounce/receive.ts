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
}

/** Irradiance of the rows from `first` up to `end`, three bands each, 1/m². radiosity: one more triple than elements. */
export function receivedByRows(
  { lists, links, fill, spread }: Rows,
  first: number,
  end: number,
  radiosity: Float32Array,
): Float32Array {
  const listed = without(radiosity, links.linked)
  const light = new Float32Array(3 * end)
  for (let row = first; row < end; row++) {
    listMean(lists, row, listed, light, row)
    addLinked(links, row, radiosity, light)
  }
  const mean = (values: Float32Array, from: readonly number[], band: number): number =>
    from.reduce((sum, other) => sum + values[3 * other + band], 0) / from.length
  const within = ({ row }: Fill): boolean => row >= first && row < end
  for (const { row, from } of fill.filter(within))
    for (let band = 0; band < 3; band++) light[3 * row + band] = mean(light, from, band)
  for (let round = 0; round < SPREAD_ROUNDS; round++) {
    const before = light.slice()
    for (const { row, from } of spread.filter(within))
      for (let band = 0; band < 3; band++)
        light[3 * row + band] = (before[3 * row + band] + mean(before, from, band)) / 2
  }
  return light.subarray(3 * first)
}

/** Through hair light goes on by a centimetre or two; an edge of its proxy is as long. By eye. */
const SPREAD_ROUNDS = 3

/** Three bands an element, black where left out. */
export function without(values: Float32Array, leftOut: Uint8Array): Float32Array {
  const kept = values.slice()
  for (const [element, isOut] of leftOut.entries()) if (isOut) kept.fill(0, 3 * element, 3 * element + 3)
  return kept
}
