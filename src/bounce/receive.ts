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
}

/** Irradiance of the rows from `first` up to `end`, three bands each, 1/m². radiosity: one more triple than elements. */
export function receivedByRows(
  { lists, links, fill }: Rows,
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
  for (const { row, from } of fill) {
    if (row < first || row >= end) continue
    for (let band = 0; band < 3; band++)
      light[3 * row + band] = from.reduce((sum, other) => sum + light[3 * other + band], 0) / from.length
  }
  return light.subarray(3 * first)
}

/** Three bands an element, black where left out. */
export function without(values: Float32Array, leftOut: Uint8Array): Float32Array {
  const kept = values.slice()
  for (const [element, isOut] of leftOut.entries()) if (isOut) kept.fill(0, 3 * element, 3 * element + 3)
  return kept
}
