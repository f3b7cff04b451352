import { type Placement, toPane } from './placement'
import type { Plate } from './plates'
import type { Point2, Shape, Weight } from './types'

const CIRCLE_SIDES = 32

/** A straight piece of what is drawn, on the pane. */
export interface Segment {
  readonly ends: readonly [Point2, Point2]
  readonly weight: Weight
}

export function segmentsOf(shape: Shape, at: Placement): readonly Segment[] {
  if (shape.kind === 'line') {
    const points = shape.points.map((point) => toPane(at, point))
    const all = shape.closed && points.length > 0 ? [...points, points[0]!] : points
    return all.slice(1).map((point, i) => ({ ends: [all[i]!, point], weight: shape.weight }))
  }
  if (shape.kind !== 'circle') return []
  const [x, y] = toPane(at, shape.centre)
  const radius = shape.radiusM * at.scale
  const on = (i: number): Point2 => {
    const turn = (2 * Math.PI * i) / CIRCLE_SIDES
    return [x + radius * Math.cos(turn), y + radius * Math.sin(turn)]
  }
  return Array.from({ length: CIRCLE_SIDES }, (_, i) => ({ ends: [on(i), on(i + 1)], weight: shape.weight }))
}

/** A point as a plate sees it: from its middle, along its words and square to them. */
const seenFrom = ({ middle, along }: Plate, [x, y]: Point2): Point2 => {
  const [dx, dy] = [x - middle[0], y - middle[1]]
  return [dx * along[0] + dy * along[1], dy * along[0] - dx * along[1]]
}

/** Whether a plate reaches into the circle of an enlarged detail, which hides what lies under it. */
export function isUnder(shape: Shape, plate: Plate, at: Placement): boolean {
  if (shape.kind !== 'window') return false
  const [x, y] = seenFrom(plate, toPane(at, shape.centre))
  const [wide, high] = plate.half
  return Math.hypot(Math.max(0, Math.abs(x) - wide), Math.max(0, Math.abs(y) - high)) < shape.radiusM * at.scale
}

/** Length of a segment within a plate, however it is turned. */
export function within([start, end]: readonly [Point2, Point2], plate: Plate): number {
  const { half } = plate
  const [a, b] = [seenFrom(plate, start), seenFrom(plate, end)]
  let [from, to] = [0, 1]
  for (const axis of [0, 1] as const) {
    const step = b[axis] - a[axis]
    const sides = [-half[axis] - a[axis], half[axis] - a[axis]] as const
    if (Math.abs(step) < 1e-12) {
      if (sides[0] > 0 || sides[1] < 0) return 0
    } else {
      const [first, last] = sides.map((side) => side / step).sort((p, q) => p - q) as [number, number]
      from = Math.max(from, first)
      to = Math.min(to, last)
    }
  }
  return to > from ? (to - from) * Math.hypot(b[0] - a[0], b[1] - a[1]) : 0
}
