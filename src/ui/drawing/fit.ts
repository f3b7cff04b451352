import type { Bounds, Drawing, Point2, Shape } from '../../paper'

export interface Size {
  readonly width: number
  readonly height: number
}

/** Where a drawing lies in its pane: pixels a metre, and the pane's pixel under the drawing's 0, 0. */
export interface Placement {
  readonly scale: number
  readonly x: number
  readonly y: number
}

/** Pixels left free round the drawing: above for its title. */
export const MARGIN = { left: 16, right: 16, top: 44, bottom: 12 }

/** Mean width of a figure or letter of a label, as a share of the size of the text. */
const LETTER = 0.49

/** The largest scale at which the drawing lies whole within the pane, and its words do not run out on the right. */
export function largestScale({ shapes, bounds }: Drawing, pane: Size, textPx: number): number {
  const width = Math.max(40, pane.width - MARGIN.left - MARGIN.right)
  const height = Math.max(40, pane.height - MARGIN.top - MARGIN.bottom)
  const forWords = shapes.map((shape) =>
    isLevelStart(shape) && shape.at[0] > bounds.minX + 0.1
      ? Math.max(width / 4, width - shape.text.length * LETTER * textPx) / (shape.at[0] - bounds.minX)
      : Number.POSITIVE_INFINITY,
  )
  return Math.min(width / (bounds.maxX - bounds.minX), height / (bounds.maxY - bounds.minY), ...forWords)
}

const isLevelStart = (shape: Shape): shape is Extract<Shape, { kind: 'text' }> =>
  shape.kind === 'text' && shape.anchor === 'start' && shape.angleDeg === 0

/** The drawing in the middle of its pane; an elevation stands on the lower edge instead. */
export function place(bounds: Bounds, pane: Size, scale: number, onFloor: boolean): Placement {
  const x = (pane.width - (bounds.maxX + bounds.minX) * scale) / 2
  const top = MARGIN.top + (pane.height - MARGIN.top - MARGIN.bottom) / 2
  const y = onFloor
    ? pane.height - MARGIN.bottom - bounds.maxY * scale
    : top - ((bounds.maxY + bounds.minY) / 2) * scale
  return { scale, x, y }
}

/** A pixel of the pane as a point of the drawing, metres. */
export const toDrawing = (at: Placement, px: Point2): Point2 => [(px[0] - at.x) / at.scale, (px[1] - at.y) / at.scale]

export const toPane = (at: Placement, p: Point2): Point2 => [p[0] * at.scale + at.x, p[1] * at.scale + at.y]

/** The same placement moved sideways until no word runs out of the pane on the right, as far as the left has room. */
export function withWordsInSight(at: Placement, { shapes, bounds }: Drawing, pane: Size, textPx: number): Placement {
  const ends = shapes.map((shape) =>
    isLevelStart(shape) ? toPane(at, shape.at)[0] + shape.text.length * LETTER * textPx : 0,
  )
  const over = Math.max(0, ...ends) - (pane.width - 4)
  const room = toPane(at, [bounds.minX, 0])[0]
  return over > 0 ? { ...at, x: at.x - Math.min(over, Math.max(0, room)) } : at
}
