import type { Bounds, Point2 } from '../../paper'

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

/** The largest scale at which the drawing lies whole within the pane. */
export function largestScale(bounds: Bounds, pane: Size): number {
  const width = Math.max(40, pane.width - MARGIN.left - MARGIN.right)
  const height = Math.max(40, pane.height - MARGIN.top - MARGIN.bottom)
  return Math.min(width / (bounds.maxX - bounds.minX), height / (bounds.maxY - bounds.minY))
}

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
