import { inColumns, isWords, LETTER_SIZE, meet, type Plate, plateOf, type Words } from './legible'
import { type Placement, toPane } from './placement'
import type { Point2, Shape } from './types'

/** How far a letter may go from its own place and in how many directions it is tried, as times its height. */
const RINGS = [0.7, 1.2, 1.8, 2.5, 3.2]
const DIRECTIONS = 16
/** What a height of going away costs, and a label that is run into, as times a height of line that is covered. */
const COST = { away: 0.15, label: 4 }
/** Half the width and height of a letter with the white round it, as shares of its size. */
const HALF = [0.38, 0.42] as const
const CIRCLE_SIDES = 32

/** Where a drawing may reach: its upper left corner and its size. */
interface Pane {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/**
 * For paper, where nothing moves: letters moved a little, within the pane, to where they cover the least of lines and labels.
 * textPx: of labels, letterPx: of letters; all in the units of the placement.
 */
export function clearLetters(
  shapes: readonly Shape[],
  at: Placement,
  textPx: number,
  letterPx: number,
  pane: Pane,
): readonly Shape[] {
  const letters = shapes.filter(isWords).filter(({ size }) => size === 'letter')
  if (letters.length === 0) return shapes
  const segments = shapes.flatMap((shape) => segmentsOf(shape, at))
  const labels = inColumns(shapes, at, textPx)
    .filter(isWords)
    .filter(({ size }) => size === 'label')
    .map((words) => plateOf(words, at, textPx))
  const moved = new Map<Shape, Words>()
  const placed: Plate[] = []
  for (const letter of letters) {
    const best = placesFor(letterPx)
      .map(({ dx, dy, away }) => {
        const there: Words = { ...letter, at: [letter.at[0] + dx / at.scale, letter.at[1] + dy / at.scale] }
        const { middle, along } = plateOf(there, at, letterPx / LETTER_SIZE)
        const plate: Plate = { middle, along, half: [HALF[0] * letterPx, HALF[1] * letterPx] }
        const covered = segments.reduce((sum, segment) => sum + within(segment, plate), 0)
        const met = [...labels, ...placed].filter((other) => meet(plate, other)).length
        const isOut = away > 0 && !isWithin(plate, pane)
        return {
          there,
          plate,
          cost: isOut ? Number.POSITIVE_INFINITY : covered + letterPx * (COST.away * away + COST.label * met),
        }
      })
      .reduce((a, b) => (b.cost < a.cost - 1e-9 ? b : a))
    moved.set(letter, best.there)
    placed.push(best.plate)
  }
  return shapes.map((shape) => moved.get(shape) ?? shape)
}

const isWithin = ({ middle: [x, y], half: [wide, high] }: Plate, pane: Pane): boolean =>
  x - wide >= pane.x && x + wide <= pane.x + pane.width && y - high >= pane.y && y + high <= pane.y + pane.height

/** Its own place first. */
const placesFor = (letterPx: number): readonly { dx: number; dy: number; away: number }[] => [
  { dx: 0, dy: 0, away: 0 },
  ...RINGS.flatMap((away) =>
    Array.from({ length: DIRECTIONS }, (_, i) => {
      const turn = (2 * Math.PI * i) / DIRECTIONS
      return { dx: away * letterPx * Math.cos(turn), dy: away * letterPx * Math.sin(turn), away }
    }),
  ),
]

type Segment = readonly [Point2, Point2]

function segmentsOf(shape: Shape, at: Placement): readonly Segment[] {
  if (shape.kind === 'line') {
    const points = shape.points.map((point) => toPane(at, point))
    const all = shape.closed && points.length > 0 ? [...points, points[0]!] : points
    return all.slice(1).map((point, i) => [all[i]!, point])
  }
  if (shape.kind !== 'circle') return []
  const [x, y] = toPane(at, shape.centre)
  const radius = shape.radiusM * at.scale
  const on = (i: number): Point2 => {
    const turn = (2 * Math.PI * i) / CIRCLE_SIDES
    return [x + radius * Math.cos(turn), y + radius * Math.sin(turn)]
  }
  return Array.from({ length: CIRCLE_SIDES }, (_, i) => [on(i), on(i + 1)])
}

/** Length of a segment within a level plate. */
function within([a, b]: Segment, { middle, half }: Plate): number {
  let [from, to] = [0, 1]
  for (const axis of [0, 1] as const) {
    const step = b[axis] - a[axis]
    const ends = [-1, 1].map((side) => middle[axis] + side * half[axis] - a[axis])
    if (Math.abs(step) < 1e-12) {
      if (ends[0]! > 0 || ends[1]! < 0) return 0
    } else {
      const [first, last] = ends.map((end) => end / step).sort((p, q) => p - q) as [number, number]
      from = Math.max(from, first)
      to = Math.min(to, last)
    }
  }
  return to > from ? (to - from) * Math.hypot(b[0] - a[0], b[1] - a[1]) : 0
}
