import { type Placement, toPane } from './placement'
import type { Plate } from './plates'
import type { Point2, Shape, Weight } from './types'

const CIRCLE_SIDES = 32

/** A level rectangle, in the units of the placement. */
export interface Box {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

/** A straight piece of what is drawn, on the pane, and the box round it: a hand that drags asks many of them. */
export interface Segment extends Box {
  readonly ends: readonly [Point2, Point2]
  readonly weight: Weight
}

const segment = (a: Point2, b: Point2, weight: Weight): Segment => ({
  ends: [a, b],
  weight,
  left: Math.min(a[0], b[0]),
  right: Math.max(a[0], b[0]),
  top: Math.min(a[1], b[1]),
  bottom: Math.max(a[1], b[1]),
})

/** Of points that follow one another more closely than this, as a share of the height of the text, a figure heeds the first. */
const FINE = 0.2

/** A line's points without those that nobody can tell from its neighbours; the last one stays. */
function coarser(points: readonly Point2[], fine: number): readonly Point2[] {
  const kept: Point2[] = []
  points.forEach((point, i) => {
    const before = kept[kept.length - 1]
    const isFar = !before || Math.abs(point[0] - before[0]) + Math.abs(point[1] - before[1]) > fine
    if (isFar || i === points.length - 1) kept.push(point)
  })
  return kept
}

/** textPx: the height of the text that is to stand clear of it. */
export function segmentsOf(shape: Shape, at: Placement, textPx: number): readonly Segment[] {
  if (shape.kind === 'line') {
    const points = shape.points.map((point) => toPane(at, point))
    const all = shape.closed && points.length > 0 ? [...points, points[0]!] : points
    const few = coarser(all, FINE * textPx)
    return few.slice(1).map((point, i) => segment(few[i]!, point, shape.weight))
  }
  if (shape.kind !== 'circle') return []
  const [x, y] = toPane(at, shape.centre)
  const radius = shape.radiusM * at.scale
  const on = (i: number): Point2 => {
    const turn = (2 * Math.PI * i) / CIRCLE_SIDES
    return [x + radius * Math.cos(turn), y + radius * Math.sin(turn)]
  }
  return Array.from({ length: CIRCLE_SIDES }, (_, i) => segment(on(i), on(i + 1), shape.weight))
}

/** A point as a plate sees it: from its middle, along its words and square to them. */
const seenFrom = ({ middle, along }: Plate, [x, y]: Point2): Point2 => {
  const [dx, dy] = [x - middle[0], y - middle[1]]
  return [dx * along[0] + dy * along[1], dy * along[0] - dx * along[1]]
}

/** Whether a plate reaches into the circle of an enlarged detail, which hides what lies under it. */
export function isUnder(shape: Extract<Shape, { kind: 'window' }>, plate: Plate, at: Placement): boolean {
  const [x, y] = seenFrom(plate, toPane(at, shape.centre))
  const [wide, high] = plate.half
  return Math.hypot(Math.max(0, Math.abs(x) - wide), Math.max(0, Math.abs(y) - high)) < shape.radiusM * at.scale
}

/** Length of a segment within a plate, however it is turned. */
export function within(
  [[ax, ay], [bx, by]]: readonly [Point2, Point2],
  { middle: [mx, my], along: [ux, uy], half }: Plate,
): number {
  const u = (ax - mx) * ux + (ay - my) * uy
  const v = (ay - my) * ux - (ax - mx) * uy
  const du = (bx - ax) * ux + (by - ay) * uy
  const dv = (by - ay) * ux - (bx - ax) * uy
  const from = Math.max(0, enters(u, du, half[0]), enters(v, dv, half[1]))
  const to = Math.min(1, leaves(u, du, half[0]), leaves(v, dv, half[1]))
  return to > from ? (to - from) * Math.hypot(du, dv) : 0
}

/** Share of the way at which a place that begins at `start` and goes on by `step` comes to lie from −half to half, and no longer does. */
const enters = (start: number, step: number, half: number): number =>
  Math.abs(step) < 1e-12
    ? Math.abs(start) <= half
      ? Number.NEGATIVE_INFINITY
      : Number.POSITIVE_INFINITY
    : Math.min((-half - start) / step, (half - start) / step)
const leaves = (start: number, step: number, half: number): number =>
  Math.abs(step) < 1e-12 ? Number.POSITIVE_INFINITY : Math.max((-half - start) / step, (half - start) / step)
