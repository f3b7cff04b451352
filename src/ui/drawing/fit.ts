import type { Bounds, Box, Drawing, Placement, Point2, Shape } from '../../paper'

export { type Placement, toPane } from '../../paper'

export interface Size {
  readonly width: number
  readonly height: number
}

/** A pane in CSS pixels: the size of its labels, and how far its title reaches down. */
export type Pane = Size & { readonly textPx: number; readonly titlePx: number }

/** Pixels left free round the drawing. */
const MARGIN = { side: 12, top: 4, bottom: 12 }

/** Where labels may slide to: under the title, and off the edges. */
export const roomOn = ({ width, height, titlePx }: Pane): Box => ({
  left: EDGE_PX,
  right: width - EDGE_PX,
  top: titlePx,
  bottom: height - EDGE_PX,
})

const EDGE_PX = 4

/** Mean width of a figure or letter of a label, as a share of the size of the text. */
const LETTER = 0.49

const inside = ({ width, height, titlePx }: Pane) => {
  const top = titlePx + MARGIN.top
  return {
    left: MARGIN.side,
    top,
    width: Math.max(40, width - 2 * MARGIN.side),
    height: Math.max(40, height - top - MARGIN.bottom),
  }
}

/** A point of the drawing, metres, and what reaches out from it before and after, pixels: level words, or nothing. */
interface Station {
  readonly at: number
  readonly before: number
  readonly after: number
}

function across({ shapes, bounds }: Pick<Drawing, 'shapes' | 'bounds'>, textPx: number): Station[] {
  const words = shapes.filter(isLevel).map(({ at, text, anchor }): Station => {
    const px = text.length * LETTER * textPx
    const before = anchor === 'end' ? px : anchor === 'middle' ? px / 2 : 0
    return { at: at[0], before, after: px - before }
  })
  return [...words, ...ends(bounds.minX, bounds.maxX)]
}

const ends = (...places: number[]): Station[] => places.map((at) => ({ at, before: 0, after: 0 }))

const isLevel = (shape: Shape): shape is Extract<Shape, { kind: 'text' }> =>
  shape.kind === 'text' && shape.angleDeg === 0 && shape.size === 'label'

/** Height of a source's letter, as a share of the size of the text. */
const CAPITAL = 1.1

/** How far the letters of the sources reach over the drawing's own bounds, pixels. */
const overTop = ({ shapes, bounds }: Pick<Drawing, 'shapes' | 'bounds'>, scale: number, textPx: number): number =>
  Math.max(
    0,
    ...shapes.map((shape) =>
      shape.kind === 'text' && shape.size === 'letter' ? CAPITAL * textPx - (shape.at[1] - bounds.minY) * scale : 0,
    ),
  )

/** From the first pixel to the last at a scale, before it is put anywhere. */
function reach(stations: readonly Station[], scale: number): readonly [number, number] {
  return [
    Math.min(...stations.map(({ at, before }) => at * scale - before)),
    Math.max(...stations.map(({ at, after }) => at * scale + after)),
  ]
}

/** Words at both edges may take more than the pane has: then this much of it is the drawing's all the same. */
const LEAST_SHARE = 0.25

/** The largest scale at which the drawing lies whole within the pane with its words. */
export function largestScale(drawing: Drawing, pane: Pane): number {
  const { width, height } = inside(pane)
  const { minX, maxX, minY, maxY } = drawing.bounds
  const most = Math.min(width / (maxX - minX), height / (maxY - minY))
  const stations = across(drawing, pane.textPx)
  let [low, high] = [LEAST_SHARE * most, most]
  for (let i = 0; i < 24; i++) {
    const middle = (low + high) / 2
    const [first, last] = reach(stations, middle)
    const tall = (maxY - minY) * middle + overTop(drawing, middle, pane.textPx)
    if (last - first <= width && tall <= height) low = middle
    else high = middle
  }
  return low
}

/** The drawing and its words in the middle of the pane; an elevation stands on the lower edge instead. */
export function place(drawing: Drawing, pane: Pane, scale: number, onFloor: boolean): Placement {
  const { left, top, width, height } = inside(pane)
  const [first, last] = reach(across(drawing, pane.textPx), scale)
  const { minY, maxY }: Bounds = drawing.bounds
  const y = onFloor ? top + height - maxY * scale : top + height / 2 - ((maxY + minY) / 2) * scale
  return { scale, x: left + width / 2 - (first + last) / 2, y }
}

/** Whether a drawing has room at a scale that it had before, and is not much smaller so than it would be drawn anew. */
export const scaleStays = (before: number, largest: number, anew: number): boolean =>
  before <= largest * (1 + 1e-9) && before >= STAYS_SHARE * anew
/** A set that has shrunk by less keeps its scale: a stand that is dragged in comes nowhere near it. */
const STAYS_SHARE = 0.5

/** Whether the drawing lies whole within the pane with its words where it was put before. */
export function stillFits(drawing: Drawing, pane: Pane, at: Placement): boolean {
  const { left, top, width, height } = inside(pane)
  const [first, last] = reach(across(drawing, pane.textPx), at.scale)
  const { minY, maxY }: Bounds = drawing.bounds
  return (
    at.x + first >= left - HAIR_PX &&
    at.x + last <= left + width + HAIR_PX &&
    at.y + minY * at.scale - overTop(drawing, at.scale, pane.textPx) >= top - HAIR_PX &&
    at.y + maxY * at.scale <= top + height + HAIR_PX
  )
}
const HAIR_PX = 0.5

/** The drawing with the short form of its words, for a narrow page, or with the least of them. */
export const shortened = <T extends Pick<Drawing, 'shapes'>>(drawing: T, how: 'narrow' | 'tight'): T => ({
  ...drawing,
  shapes: drawing.shapes.map((shape) => {
    if (shape.kind === 'window') return shortened(shape, how)
    const short = shape.kind === 'text' ? ((how === 'tight' ? shape.least : undefined) ?? shape.short) : null
    return short === null ? shape : { ...shape, text: short }
  }),
})

/** A pixel of the pane as a point of the drawing, metres. */
export const toDrawing = (at: Placement, px: Point2): Point2 => [(px[0] - at.x) / at.scale, (px[1] - at.y) / at.scale]
