import { cellLuminance, type Plate } from './plate'

/** Darker than this in either picture, a cell says nothing of their ratio: exposed linear, ten stops under white. */
const LEAST = 2 ** -10

/**
 * One picture against another as a plate of its own: each cell's luminance is that of the later over that of the earlier, so that a stops
 * map from 1 is their difference in stops. null: they are not of the same shape.
 */
export function differencePlate(earlier: Plate, later: Plate): Plate | null {
  const { columns, rows } = later
  if (earlier.columns !== columns || earlier.rows !== rows) return null
  const ratio = (cell: number) =>
    Math.max(LEAST, cellLuminance(later, cell)) / Math.max(LEAST, cellLuminance(earlier, cell))
  return { ...later, linear: later.linear.map((_, i) => ratio(Math.floor(i / 3))) }
}

/** Of a difference on the sitters: the stops that half of the cells lie under, and a twentieth and all but a twentieth. null: no sitter. */
export function spreadOnSitters(
  difference: Plate,
): { readonly low: number; readonly middle: number; readonly high: number } | null {
  const stops = [...difference.sitter.keys()]
    .filter((cell) => difference.sitter[cell]! >= 0.5)
    .map((cell) => Math.log2(cellLuminance(difference, cell)))
    .sort((a, b) => a - b)
  const at = (share: number) => stops[Math.round(share * (stops.length - 1))]!
  return stops.length === 0 ? null : { low: at(0.05), middle: at(0.5), high: at(0.95) }
}
