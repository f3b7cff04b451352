import type { Point2, Shape } from './types'

/** Where a drawing lies on a pane or a paper: pixels or millimetres a metre, and the place there of the drawing's 0, 0. */
export interface Placement {
  readonly scale: number
  readonly x: number
  readonly y: number
}

export const toPane = (at: Placement, p: Point2): Point2 => [p[0] * at.scale + at.x, p[1] * at.scale + at.y]

/** The placement of what a detail enlarges: about its own middle, into its circle. */
export function insideOf(detail: Extract<Shape, { kind: 'window' }>, at: Placement): Placement {
  const [x, y] = toPane(at, detail.centre)
  const scale = (detail.radiusM * at.scale) / detail.spanM
  return { scale, x: x - detail.about[0] * scale, y: y - detail.about[1] * scale }
}
