import { isUnder, type Segment, segmentsOf, within } from './covered'
import type { Placement } from './placement'
import { isWords, meet, type Plate, plateOf, type Words } from './plates'
import { between } from './shapes'
import type { Point2, Shape, Weight } from './types'

/** Where along its line a figure is tried, its middle first, and how many heights of text off it. */
const ALONG = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9]
const OFF = [0, 0.3, 0.6, 1.2, 1.8, 2.4]
/** White round it, as a share of the height of the text. */
const ROUND = 0.15
/** What it costs, as times a height of heavy line that is covered: an end of the line, a height off it, the other side, a label met. */
const COST = { end: 1, off: 0.25, side: 0.3, label: 6 }
/** What a covered length of a line of each weight counts: a thin one is soon followed by eye. */
const COUNTS: Readonly<Record<Weight, number>> = { cut: 1, object: 1, thin: 0.4, dimension: 0.4 }

/** Figures that may slide along what they measure stand where they cover the least of lines and labels, within what is drawn. */
export function slideClear(shapes: readonly Shape[], at: Placement, textPx: number): readonly Shape[] {
  if (!shapes.some((shape) => isWords(shape) && shape.along)) return shapes
  const segments = shapes.flatMap((shape) => segmentsOf(shape, at))
  const [xs, ys] = [0, 1].map((axis) => segments.flatMap(({ ends }) => ends.map((end) => end[axis]!)))
  const pane = { left: least(xs!), right: most(xs!), top: least(ys!), bottom: most(ys!) }
  const fixed = shapes.filter(isWords).filter(({ along }) => !along)
  const placed: Plate[] = fixed.map((words) => plateOf(words, at, textPx))
  return shapes.map((shape) => {
    if (!isWords(shape) || !shape.along) return shape
    const costOf = (plate: Plate) => {
      const box = boxOf(plate)
      if (!isWithin(box, pane) || shapes.some((other) => isUnder(other, plate, at))) return Number.POSITIVE_INFINITY
      const covered = segments
        .filter(reaches(box))
        .reduce((sum, { ends, weight }) => sum + COUNTS[weight] * within(ends, plate), 0)
      return covered + COST.label * textPx * placed.filter((other) => meet(plate, other)).length
    }
    const best = cheapest(placesOf(shape, shape.along, at, textPx), textPx, (words) => {
      const plate = withWhite(plateOf(words, at, textPx), ROUND * textPx)
      return { words, plate, cost: costOf(plate) }
    })
    placed.push(best.plate)
    return best.words
  })
}

interface Tried {
  readonly words: Words
  readonly plate: Plate
  readonly cost: number
}

/** Of places from the nearest on; those that are dear by themselves are not looked at, since a hand that drags waits for this. */
function cheapest(places: readonly Place[], textPx: number, look: (words: Words) => Tried): Tried {
  let best: Tried | null = null
  for (const { words, cost } of [...places].sort((a, b) => a.cost - b.cost)) {
    const own = textPx * cost
    if (best && own >= best.cost) break
    const tried = look(words)
    if (!best || tried.cost + own < best.cost) best = { ...tried, cost: tried.cost + own }
  }
  return best!
}

const withWhite = (plate: Plate, by: number): Plate => ({ ...plate, half: [plate.half[0] + by, plate.half[1] + by] })

const least = (values: readonly number[]) => values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY)
const most = (values: readonly number[]) => values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY)

interface Box {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

function boxOf({ middle: [x, y], along, half }: Plate): Box {
  const wide = half[0] * Math.abs(along[0]) + half[1] * Math.abs(along[1])
  const high = half[0] * Math.abs(along[1]) + half[1] * Math.abs(along[0])
  return { left: x - wide, right: x + wide, top: y - high, bottom: y + high }
}

const isWithin = (box: Box, { left, right, top, bottom }: Box): boolean =>
  box.left >= left && box.right <= right && box.top >= top && box.bottom <= bottom

/** Whether any of a segment may lie in the box. */
const reaches =
  ({ left, right, top, bottom }: Box) =>
  ({ ends: [[ax, ay], [bx, by]] }: Segment): boolean =>
    !((ax < left && bx < left) || (ax > right && bx > right) || (ay < top && by < top) || (ay > bottom && by > bottom))

interface Place {
  readonly words: Words
  readonly cost: number
}

/** Its own place first, then along its line, off it, and on the other side of it. */
function placesOf(
  words: Words,
  [from, to]: readonly [Point2, Point2],
  at: Placement,
  textPx: number,
): readonly Place[] {
  const turn = (words.angleDeg * Math.PI) / 180
  const sides = words.stands === 'under' ? (['under', 'over'] as const) : (['over', 'under'] as const)
  return sides.flatMap((stands, side) =>
    OFF.flatMap((off) =>
      ALONG.map((t) => {
        const [x, y] = between(from, to, t)
        const liftM = ((stands === 'under' ? -1 : 1) * off * textPx) / at.scale
        const there: Point2 = [x + Math.sin(turn) * liftM, y - Math.cos(turn) * liftM]
        return {
          words: { ...words, at: there, stands },
          cost: COST.end * 2 * Math.abs(t - 0.5) + COST.off * off + COST.side * side,
        }
      }),
    ),
  )
}
