import type { Point2 } from './types'

/** Where a drawing lies on a pane or a paper: pixels or millimetres a metre, and the place there of the drawing's 0, 0. */
export interface Placement {
  readonly scale: number
  readonly x: number
  readonly y: number
}

export const toPane = (at: Placement, p: Point2): Point2 => [p[0] * at.scale + at.x, p[1] * at.scale + at.y]
