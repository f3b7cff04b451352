import {
  clearLetters,
  type Drawing,
  legible,
  lengthLabel,
  PAPER_DASH_MM,
  PAPER_WEIGHT_MM,
  type Placement,
  type Point2,
  type Shape,
  slideClear,
  toPane,
} from '../paper'
import { LINE, MM_PER_PT, TEXT_PT } from './layout'
import type { Pen } from './pen'

/** Scales that a sheet may be drawn to, largest first. */
export const SCALES = [20, 25, 50, 100, 200, 500] as const
const LETTER_PT = 16
/** From the point to the base line, as a share of the size. */
const DY = { on: 0, over: -0.3, under: 1.05 }
/** Height of a scale bar, and of the row in which it stands, mm. */
const BAR = 1.6
export const SCALE_ROW = LINE + 1.2

/** Mean width of a letter, as a share of the size of the text. */
const LETTER = 0.5

/**
 * Millimetres of paper of a drawing at a scale, with the level words that reach out of its bounds at either side; before:
 * those at the left; above: letters that stand over them.
 */
export function sizeOnPaper(
  { bounds, shapes }: Drawing,
  scale: number,
): { readonly width: number; readonly height: number; readonly before: number; readonly above: number } {
  const mm = 1000 / scale
  const inner = (bounds.maxX - bounds.minX) * mm
  let [first, last, above] = [0, inner, 0]
  for (const shape of shapes)
    if (shape.kind === 'text' && shape.angleDeg === 0) {
      const long = shape.text.length * LETTER * (shape.size === 'letter' ? 1.4 * LETTER_PT : TEXT_PT) * MM_PER_PT
      const from = (shape.at[0] - bounds.minX) * mm - { start: 0, middle: long / 2, end: long }[shape.anchor]
      first = Math.min(first, from)
      last = Math.max(last, from + long)
      if (shape.size === 'letter')
        above = Math.max(above, 0.7 * LETTER_PT * MM_PER_PT - (shape.at[1] - bounds.minY) * mm)
    }
  return { width: last - first, height: (bounds.maxY - bounds.minY) * mm + above, before: -first, above }
}

/**
 * A drawing with its words where they are read at a scale: each clear of the others and of letters, those at the sides within its bounds,
 * which grow for them. placement: of its upper left corner at the paper's own, mm.
 */
export function laidOnPaper(
  drawing: Drawing,
  scale: number,
): { readonly drawing: Drawing; readonly placement: Placement; readonly width: number; readonly height: number } {
  const mm = 1000 / scale
  const { minX, minY, maxY } = drawing.bounds
  const { width, height, before, above } = sizeOnPaper(drawing, scale)
  const placement = { scale: mm, x: before - minX * mm, y: above - minY * mm }
  const [textMm, letterMm] = [TEXT_PT * MM_PER_PT, LETTER_PT * MM_PER_PT]
  const room = { left: 0, right: width, top: 0, bottom: height }
  const slid = slideClear(drawing.shapes, placement, textMm, room)
  const clear = clearLetters(slid, placement, textMm, letterMm, { x: 0, y: 0, width, height })
  const outlines = drawing.shapes.filter(({ kind }) => kind === 'line' || kind === 'circle')
  const words = legible(clear, placement, textMm, room).filter(({ kind }) => kind === 'text')
  const left = minX - before / mm
  const bounds = { minX: left, maxX: left + width / mm, minY: minY - above / mm, maxY }
  return { drawing: { ...drawing, bounds, shapes: [...outlines, ...words] }, placement, width, height }
}

/** A drawing to a scale with its upper left corner at a place of the paper: lines end where it does. */
export function drawToScale(pen: Pen, drawing: Drawing, scale: number, x: number, y: number): void {
  const { drawing: laid, placement, width, height } = laidOnPaper(drawing, scale)
  const here = { ...placement, x: placement.x + x, y: placement.y + y }
  const at = (p: Point2) => toPane(here, p)
  pen.clipped(x, y, width, height, () => {
    for (const shape of laid.shapes)
      if (shape.kind === 'line' || shape.kind === 'circle') drawOutline(pen, shape, at, placement.scale)
  })
  for (const shape of laid.shapes)
    if (shape.kind === 'text') {
      const { anchor, angleDeg, text, size, stands } = shape
      const sizePt = size === 'letter' ? LETTER_PT : TEXT_PT
      const down = DY[stands] * sizePt * MM_PER_PT
      const turn = (angleDeg * Math.PI) / 180
      const [px, py] = at(shape.at)
      const base = [px - Math.sin(turn) * down, py + Math.cos(turn) * down] as const
      pen.label(size === 'letter' ? [{ bold: text }] : text, base, { anchor, angleDeg, sizePt })
    }
}

type Outline = Extract<Shape, { kind: 'line' | 'circle' }>

function drawOutline(pen: Pen, shape: Outline, at: (p: Point2) => Point2, mm: number): void {
  const look = {
    widthMm: PAPER_WEIGHT_MM[shape.weight],
    dashMm: PAPER_DASH_MM[shape.dash],
    ...(shape.fill === 'none' ? {} : { fill: shape.fill === 'sheet' ? ('white' as const) : ('grey' as const) }),
  }
  if (shape.kind === 'line') pen.line(shape.points.map(at), { ...look, closed: shape.closed })
  else pen.circle(...at(shape.centre), shape.radiusM * mm, look)
}

/** How long a bar is good to lay a ruler along: 1 m, or more where that is short. */
export const barMetres = (scale: number): number => (scale <= 50 ? 1 : scale <= 100 ? 2 : 5)

/** The caption, the scale in figures and beside it a bar in metres, five parts black and white by turns, with feet under it. */
export function drawScaleBar(pen: Pen, scale: number, caption: string, x: number, y: number): void {
  const metres = barMetres(scale)
  const long = (metres * 1000) / scale
  const words = pen.lines([`${caption} `, { bold: `1 : ${scale}` }], 200)[0]
  pen.setLine(words, x, y)
  const zero = x + words.width + 7
  const top = y + 1.5
  for (let i = 0; i < 5; i++) {
    const [from, to] = [zero + (i * long) / 5, zero + ((i + 1) * long) / 5]
    const corners = [
      [from, top],
      [to, top],
      [to, top + BAR],
      [from, top + BAR],
    ] as const
    pen.line(corners, { widthMm: 0.35, closed: true, fill: i % 2 === 0 ? 'black' : 'white' })
  }
  const baseline = y + 0.95 * TEXT_PT * MM_PER_PT
  const label = (text: string, at: number, anchor: 'start' | 'end') =>
    pen.label(text, [at, baseline], { anchor, angleDeg: 0, sizePt: TEXT_PT })
  label('0', zero - 1, 'end')
  label(`${metres} m, ${lengthLabel(metres, 'feet')}`, zero + long + 1.2, 'start')
}
