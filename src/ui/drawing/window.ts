import { type Drawing, type Point2, platesOf, type Shape } from '../../paper'
import { type Pane, type Placement, toDrawing, toPane } from './fit'

type Window = Extract<Shape, { kind: 'window' }>

/** A free place on a pane, pixels. */
export interface Spot {
  readonly centre: Point2
  readonly radius: number
}

/** A pane and what is drawn on it. */
export interface Sheet {
  readonly shapes: readonly Shape[]
  readonly at: Placement
  readonly pane: Pane
}

/** Radius of the window against the size of the text: smaller than the least, its figures would run into one another. */
const MOST_EM = 5.4
const LEAST_EM = 3.5
/** Clear of lines, words and the pane's edges, pixels. */
const CLEAR_PX = 6
const STEP_PX = 12
/** A spot that is still free keeps the window, though it has grown a little tight. */
const STAYS = 0.85

export const windowOf = ({ shapes }: Pick<Drawing, 'shapes'>): Window | null =>
  shapes.find((shape): shape is Window => shape.kind === 'window') ?? null

/** The nearest spot to a point that takes the window at full size; else the largest; null where all are too small. */
export function freeSpot({ shapes, at, pane }: Sheet, near: Point2, before: Spot | null): Spot | null {
  const { textPx, titlePx } = pane
  const taken = obstacles(shapes, at, textPx)
  const most = MOST_EM * textPx
  const smallest = LEAST_EM * textPx
  /** 0 where it is less than is wanted: most places are given up after a few obstacles. */
  const room = ([x, y]: Point2, wanted = smallest): number => {
    let least = Math.min(x, y - titlePx, pane.width - x, pane.height - y)
    for (const [ox, oy] of taken) {
      if (least - CLEAR_PX < wanted) return 0
      const d = Math.hypot(ox - x, oy - y)
      if (d < least) least = d
    }
    return Math.min(most, least - CLEAR_PX)
  }
  if (before && room(before.centre) >= STAYS * before.radius) {
    const radius = Math.min(before.radius, room(before.centre))
    if (radius >= smallest) return { centre: before.centre, radius }
  }
  const from = toPane(at, near)
  let best: Spot | null = null
  let bestWay = Number.POSITIVE_INFINITY
  for (let x = STEP_PX; x < pane.width; x += STEP_PX)
    for (let y = titlePx; y < pane.height; y += STEP_PX) {
      const radius = room([x, y], best?.radius)
      const way = Math.hypot(x - from[0], y - from[1])
      if (radius < smallest || (best && (radius < best.radius || (radius === best.radius && way >= bestWay)))) continue
      best = { centre: [x, y], radius }
      bestWay = way
    }
  return best
}

/** Points along every line, and the corners of every label, pixels. */
function obstacles(shapes: readonly Shape[], at: Placement, textPx: number): Point2[] {
  const points: Point2[] = []
  for (const shape of shapes) {
    if (shape.kind === 'line') {
      const path = shape.points.map((p) => toPane(at, p))
      if (shape.closed && path.length > 0) path.push(path[0]!)
      for (let i = 1; i < path.length; i++) points.push(...along(path[i - 1]!, path[i]!))
    } else if (shape.kind === 'circle') {
      const [cx, cy] = toPane(at, shape.centre)
      const r = shape.radiusM * at.scale
      for (let i = 0; i < 24; i++) {
        const angle = (i * Math.PI) / 12
        points.push([cx + r * Math.cos(angle), cy + r * Math.sin(angle)])
      }
    }
  }
  return [...points, ...platesOf(shapes, at, textPx)]
}

function along(a: Point2, b: Point2): Point2[] {
  const count = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / STEP_PX))
  return Array.from({ length: count + 1 }, (_, i): Point2 => {
    const t = i / count
    return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
  })
}

/** The shapes with the window at a spot, its line coming from a point of this drawing; without it where spot is null. */
export function withWindow(
  shapes: readonly Shape[],
  window: Window | null,
  spot: Spot | null,
  from: Point2 | null,
  at: Placement,
): readonly Shape[] {
  const others = shapes.filter((shape) => shape.kind !== 'window')
  if (!window || !spot || !from) return others
  return [...others, { ...window, from, centre: toDrawing(at, spot.centre), radiusM: spot.radius / at.scale }]
}
