import type { Stops } from '../photometry'
import { type Area, areaOver, type CellField } from './isolines'
import { cellLuminance, type Plate } from './plate'

/** A figure on the map: its middle in cells from the upper left corner. */
export interface MapFigure {
  readonly x: number
  readonly y: number
  readonly stops: Stops
}

/** The picture's luminance in stops from the metered place, as hatches and figures. */
export interface StopsMap {
  /** One hatch more each: where it is darker by half a stop, one and a half, two and a half. On the sitters alone. */
  readonly darker: readonly Area[]
  /** Where it is lighter by more than half a stop. On the sitters alone. */
  readonly lighter: Area
  readonly figures: readonly MapFigure[]
}

/** Below this a place has no light worth a figure. */
const LEAST: Stops = -10
const DARKER = [-0.5, -1.5, -2.5] as const
const LIGHTER = 0.5
/** Half a cell and more of a sitter counts as sitter. */
const HALF = 0.5
/** Figures of flat things stand this many to a row. */
const FIGURES_ACROSS = 6

/**
 * zero: exposed linear luminance that counts as 0. figure: room that one takes, in cells. Bands go from half a stop to half a stop,
 * so the figure 0 stands in the one without hatch. The field is eased over three cells each way, as noise has no band.
 */
export function stopsMap(
  plate: Plate,
  zero: number,
  figure: { readonly width: number; readonly height: number },
): StopsMap {
  const { columns, rows } = plate
  const stops = easedStops(plate, zero)
  const within = (cell: number) => plate.sitter[cell] >= HALF
  const field = (values: Float32Array): CellField => ({ columns, rows, values, within })
  const negative = stops.map((value) => -value)
  return {
    darker: DARKER.map((level) => areaOver(field(negative), -level)),
    lighter: areaOver(field(stops), LIGHTER),
    figures: figuresOn(plate, stops, figure),
  }
}

/** Mean luminance over three cells each way, of cells of the same kind, in stops from zero. */
export function easedStops(plate: Plate, zero: number): Float32Array {
  const { columns, rows, sitter } = plate
  const luminance = Float32Array.from({ length: columns * rows }, (_, cell) => cellLuminance(plate, cell))
  return luminance.map((_, cell) => {
    const [x, y] = [cell % columns, Math.floor(cell / columns)]
    let [sum, count] = [0, 0]
    for (let j = Math.max(0, y - 1); j <= Math.min(rows - 1, y + 1); j++)
      for (let i = Math.max(0, x - 1); i <= Math.min(columns - 1, x + 1); i++) {
        const other = j * columns + i
        if (sitter[other] >= HALF !== sitter[cell] >= HALF) continue
        sum += luminance[other]
        count++
      }
    return Math.max(LEAST, Math.log2(sum / count / zero))
  })
}

/** Bands by their number of stops; flat things have none. */
const bandOf = (stops: number): number => Math.max(-3, Math.min(1, Math.round(stops)))
const FLAT = 99

/** In the middle of each band that has room for one, then on an even grid wherever none stands yet. */
function figuresOn(
  plate: Plate,
  stops: Float32Array,
  { width, height }: { readonly width: number; readonly height: number },
): readonly MapFigure[] {
  const { columns, rows } = plate
  const bands = Int8Array.from(stops, (value, cell) => (plate.sitter[cell] >= HALF ? bandOf(value) : FLAT))
  const middles = middlesOf(bands, columns, rows).filter(({ inside }) => 2 * inside >= height)
  const step = columns / FIGURES_ACROSS
  const grid = Array.from({ length: FIGURES_ACROSS * Math.floor(rows / step) }, (_, i) => ({
    x: Math.floor(((i % FIGURES_ACROSS) + 0.5) * step),
    y: Math.floor((Math.floor(i / FIGURES_ACROSS) + 0.5) * step),
  }))
  const kept: MapFigure[] = []
  for (const { x, y } of [...middles, ...grid]) {
    const value = stops[y * columns + x]
    const at = { x: x + 0.5, y: y + 0.5, stops: value }
    const meets = kept.some(
      (other) => Math.abs(other.x - at.x) < 1.2 * width && Math.abs(other.y - at.y) < 1.6 * height,
    )
    const isInside =
      Math.abs(at.x - columns / 2) < (columns - width) / 2 && Math.abs(at.y - rows / 2) < (rows - height) / 2
    if (!meets && isInside && isEven(bands, columns, rows, x, y)) kept.push(at)
  }
  return kept
}

/** No border runs through the cells about it: what its figure says holds there. */
function isEven(bands: Int8Array, columns: number, rows: number, x: number, y: number): boolean {
  if (x < 1 || y < 1 || x >= columns - 1 || y >= rows - 1) return false
  const own = bands[y * columns + x]
  return [-1, 0, 1].every((dy) => [-1, 0, 1].every((dx) => bands[(y + dy) * columns + x + dx] === own))
}

/** Of each connected part of a sitter's band the cell farthest from its border, largest first; inside: that far, cells. */
function middlesOf(bands: Int8Array, columns: number, rows: number) {
  const far = insides(bands, columns, rows)
  const seen = new Uint8Array(bands.length)
  const middles: { x: number; y: number; inside: number }[] = []
  bands.forEach((band, first) => {
    if (band === FLAT || seen[first]) return
    let best = first
    const stack = [first]
    seen[first] = 1
    while (stack.length > 0) {
      const cell = stack.pop()!
      if (far[cell] > far[best]) best = cell
      for (const next of neighbours(cell, columns, rows))
        if (!seen[next] && bands[next] === band) {
          seen[next] = 1
          stack.push(next)
        }
    }
    middles.push({ x: best % columns, y: Math.floor(best / columns), inside: far[best] })
  })
  return middles.sort((a, b) => b.inside - a.inside)
}

function neighbours(cell: number, columns: number, rows: number): number[] {
  const x = cell % columns
  const out: number[] = []
  if (x > 0) out.push(cell - 1)
  if (x < columns - 1) out.push(cell + 1)
  if (cell >= columns) out.push(cell - columns)
  if (cell < columns * (rows - 1)) out.push(cell + columns)
  return out
}

/** Steps to the nearest cell of another band or the edge, in two sweeps. */
function insides(bands: Int8Array, columns: number, rows: number): Int16Array {
  const far = new Int16Array(bands.length)
  const from = (cell: number, other: number, inFrame: boolean) =>
    inFrame && bands[other] === bands[cell] ? far[other] : 0
  for (let cell = 0; cell < far.length; cell++)
    far[cell] = 1 + Math.min(from(cell, cell - 1, cell % columns > 0), from(cell, cell - columns, cell >= columns))
  for (let cell = far.length - 1; cell >= 0; cell--)
    far[cell] = Math.min(
      far[cell],
      1 + from(cell, cell + 1, cell % columns < columns - 1),
      1 + from(cell, cell + columns, cell < columns * (rows - 1)),
    )
  return far
}
