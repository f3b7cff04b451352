import { LINE, RULE } from './layout'
import type { Pen, SetLine } from './pen'
import type { Block, Cell, Words } from './types'

type Table = Extract<Block, { kind: 'table' }>

/** Millimetres: white between columns, side of a box to tick, least length of a line to write on. */
const GUTTER = 2
const BOX = 3.4
const WRITE_ON = 15
/** Extra height of a row in which something is written by hand. */
const HAND = 1.3

const isWords = (cell: Cell): cell is Words => typeof cell === 'string' || Array.isArray(cell)

/** Where the columns of a table begin and how wide they are, mm, in a width. */
export interface Columns {
  readonly at: readonly number[]
  readonly widths: readonly number[]
}

/** Columns as wide as what they hold; the one that wraps gets the rest, and one that is written on what it can. */
export function columnsOf(pen: Pen, { columns, rows, wraps }: Table, width: number): Columns {
  const natural = columns.map(({ head, leastMm = 0 }, i) =>
    Math.max(leastMm, head ? pen.width([{ bold: head }]) : 0, ...rows.map((row) => naturalWidth(pen, row[i] ?? ''))),
  )
  const gutters = GUTTER * (columns.length - 1)
  const spare = width - gutters - natural.reduce((sum, wide) => sum + wide, 0)
  const widths = natural.map((wide, i) => (i === wraps ? Math.max(8, wide + Math.min(0, spare)) : wide))
  const left = width - gutters - widths.reduce((sum, wide) => sum + wide, 0)
  const takes = wraps ?? columns.findLastIndex((_, i) => rows.some((row) => isLine(row[i])))
  // What is left over stands before the last columns that are aligned to the right, or in the one that takes it.
  const grown = takes >= 0 ? takes : Math.max(0, columns.findIndex(({ align }) => align === 'right') - 1)
  if (left > 0) widths[grown] += left
  const at = widths.map((_, i) => widths.slice(0, i).reduce((sum, wide) => sum + wide + GUTTER, 0))
  return { at, widths }
}

const isLine = (cell: Cell | undefined): boolean => cell !== undefined && !isWords(cell) && cell.empty === 'line'

function naturalWidth(pen: Pen, cell: Cell): number {
  if (isWords(cell)) return pen.width(cell)
  return cell.empty === 'tick' ? BOX : WRITE_ON
}

interface SetRow {
  readonly height: number
  draw(parent: PDFKit.PDFStructureElement, x: number, y: number): void
}

/** A row of cells as it stands in its columns; head: its words are headings. */
export function setRow(
  pen: Pen,
  { columns }: Table,
  row: readonly Cell[],
  { at, widths }: Columns,
  head: boolean,
): SetRow {
  const set = row.map((cell, i) => (isWords(cell) ? pen.lines(cell, widths[i] + 0.01) : null))
  const byHand = row.some((cell) => !isWords(cell))
  const height = Math.max(1, ...set.map((lines) => lines?.length ?? 1)) * LINE + (byHand ? HAND : 0)
  const top = byHand ? HAND / 2 : 0
  return {
    height,
    draw: (parent, x, y) => {
      const element = pen.doc.struct('TR')
      parent.add(element)
      row.forEach((cell, i) => {
        const [left, right] = [x + at[i], x + at[i] + widths[i]]
        const lines = set[i]
        pen.tagged(element, head ? 'TH' : 'TD', () => {
          if (lines) drawLines(pen, lines, columns[i]?.align === 'right' ? right : left, y + top, columns[i]?.align)
          else if (!isWords(cell)) drawEmpty(pen, cell.empty, left, right, y + top)
        })
      })
      element.end()
    },
  }
}

export function drawLines(pen: Pen, lines: readonly SetLine[], x: number, y: number, align?: 'left' | 'right'): void {
  lines.forEach((line, i) => {
    pen.setLine(line, x, y + i * LINE, align)
  })
}

function drawEmpty(pen: Pen, empty: 'tick' | 'line', left: number, right: number, y: number): void {
  const low = y + 0.82 * LINE
  if (empty === 'line')
    pen.line(
      [
        [left, low],
        [right, low],
      ],
      { widthMm: RULE.thin },
    )
  else
    pen.line(
      [
        [left, low],
        [left + BOX, low],
        [left + BOX, low - BOX],
        [left, low - BOX],
      ],
      { widthMm: RULE.thin, closed: true },
    )
}
