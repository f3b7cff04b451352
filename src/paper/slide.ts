import { type Box, isUnder, type Segment, segmentsOf, within } from './covered'
import { insideOf, type Placement, toPane } from './placement'
import { isWords, meet, type Plate, plateOf, type Words } from './plates'
import { between, readableAngle } from './shapes'
import type { Point2, Shape, Weight } from './types'

type Detail = Extract<Shape, { kind: 'window' }>

type Line = readonly [Point2, Point2]

const isDetail = (shape: Shape): shape is Detail => shape.kind === 'window'

/** Where along its line a figure is tried, its middle first, and how many heights of text off it. */
const ALONG = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9]
const OFF = [0, 0.3, 0.6, 1.2, 1.8, 2.4, 3]
/** So far off its line a dimension in ink may stand. */
const NEAR = 0.6
/** White round it, as a share of the height of the text. */
const ROUND = 0.15
/** What it costs, as times a height of heavy line that is covered: an end of the line, a height off it of the thing in hand and of others, whose figures don't say by their colour what they belong to, the other side, a label met. */
const COST = { end: 1, off: 0.25, away: 0.8, side: 0.3, label: 6 }
/** Words that are said elsewhere too are left out where they would still cover so much, as times a height. */
const SPARE = 0.4
/** What a covered length of a line of each weight counts: a thin one is soon followed by eye. */
const COUNTS: Readonly<Record<Weight, number>> = { cut: 1, object: 1, thin: 0.6, dimension: 0.6 }

/**
 * Figures that may slide along what they measure stand where they cover the least of lines and labels, within `room` (left out: what is
 * drawn), in an enlarged detail within its circle, whose rim would cut them off. room: in the units of the placement.
 */
export function slideClear(shapes: readonly Shape[], at: Placement, textPx: number, room?: Box): readonly Shape[] {
  const segments = shapes.flatMap((shape) => segmentsOf(shape, at, textPx))
  const pane = room ?? boxRoundAll(segments)
  const details = shapes.filter(isDetail)
  const fits = (plate: Plate) => isWithin(boxOf(plate), pane) && !details.some((detail) => isUnder(detail, plate, at))
  return slide(shapes, segments, { at, textPx, tries: triesOf }, fits).map((shape) =>
    isDetail(shape) ? { ...shape, shapes: slideInside(shape, at, textPx) } : shape,
  )
}

function slideInside(detail: Detail, at: Placement, textPx: number): readonly Shape[] {
  const [x, y] = toPane(at, detail.centre)
  const rim = detail.radiusM * at.scale
  const inside = insideOf(detail, at)
  const segments = detail.shapes.flatMap((shape) => segmentsOf(shape, inside, textPx))
  return slide(detail.shapes, segments, { at: inside, textPx, tries: triesOf }, ({ middle, half }) => {
    const reach = [Math.abs(middle[0] - x) + half[0], Math.abs(middle[1] - y) + half[1]] as const
    return Math.hypot(...reach) < rim
  })
}

function slide(
  shapes: readonly Shape[],
  segments: readonly Segment[],
  { at, textPx, tries }: { at: Placement; textPx: number; tries: (words: Words) => readonly Try[] },
  fits: (plate: Plate) => boolean,
): readonly Shape[] {
  const fixed = shapes.filter(isWords).filter(({ along }) => !along)
  const placed: Plate[] = fixed.map((words) => plateOf(words, at, textPx))
  return shapes.flatMap((shape) => {
    if (!isWords(shape) || !shape.along) return [shape]
    const plateAt = (words: Words) => withWhite(plateOf(words, at, textPx), ROUND * textPx)
    const line = shape.along
    const round = boxRound(line, plateAt(shape), at, textPx)
    const near = segments.filter((segment) => reaches(round, segment))
    const costOf = (plate: Plate, most = Number.POSITIVE_INFINITY) => {
      if (!fits(plate)) return Number.POSITIVE_INFINITY
      const met = placed.filter((other) => meet(plate, other)).length
      return covered(near, plate, COST.label * textPx * met, most)
    }
    const best = cheapest(tries(shape), textPx, (way, most) => {
      const words = putAt(shape, line, way, at, textPx)
      const plate = plateAt(words)
      return { words, plate, cost: costOf(plate, most) }
    })
    if (shape.spare && costOf(best.plate) > SPARE * textPx) return []
    placed.push(best.plate)
    return [best.words]
  })
}

/** What a plate costs that covers pieces of lines; of a sum beyond `most` nobody asks how far. */
function covered(near: readonly Segment[], plate: Plate, start: number, most: number): number {
  const box = boxOf(plate)
  let cost = start
  for (const segment of near) {
    if (cost > most) break
    if (reaches(box, segment)) cost += COUNTS[segment.weight] * within(segment.ends, plate)
  }
  return cost
}

interface Tried {
  readonly words: Words
  readonly plate: Plate
  readonly cost: number
}

/** Of places from the nearest on; those that are dear by themselves are not looked at, since a hand that drags waits for this. */
function cheapest(tries: readonly Try[], textPx: number, look: (place: Try, most: number) => Tried): Tried {
  let [best, least]: [Tried | null, number] = [null, Number.POSITIVE_INFINITY]
  for (const place of tries) {
    const own = textPx * place.cost
    if (own >= least) break
    const tried = look(place, least - own)
    if (best === null || tried.cost + own < least) [best, least] = [tried, tried.cost + own]
  }
  return best!
}

const withWhite = (plate: Plate, by: number): Plate => ({ ...plate, half: [plate.half[0] + by, plate.half[1] + by] })

const boxRoundAll = (boxes: readonly Box[]): Box =>
  boxes.reduce(
    (a, b) => ({
      left: Math.min(a.left, b.left),
      right: Math.max(a.right, b.right),
      top: Math.min(a.top, b.top),
      bottom: Math.max(a.bottom, b.bottom),
    }),
    NOTHING,
  )

const NOTHING: Box = {
  left: Number.POSITIVE_INFINITY,
  right: Number.NEGATIVE_INFINITY,
  top: Number.POSITIVE_INFINITY,
  bottom: Number.NEGATIVE_INFINITY,
}

/** All that words by a line may cover, wherever they slide. */
function boxRound([from, to]: Line, { half }: Plate, at: Placement, textPx: number): Box {
  const [[ax, ay], [bx, by]] = [toPane(at, from), toPane(at, to)]
  const reach = Math.hypot(half[0], half[1]) + (Math.max(...OFF) + 1) * textPx
  return {
    left: Math.min(ax, bx) - reach,
    right: Math.max(ax, bx) + reach,
    top: Math.min(ay, by) - reach,
    bottom: Math.max(ay, by) + reach,
  }
}

function boxOf({ middle: [x, y], along, half }: Plate): Box {
  const wide = half[0] * Math.abs(along[0]) + half[1] * Math.abs(along[1])
  const high = half[0] * Math.abs(along[1]) + half[1] * Math.abs(along[0])
  return { left: x - wide, right: x + wide, top: y - high, bottom: y + high }
}

const isWithin = (box: Box, { left, right, top, bottom }: Box): boolean =>
  box.left >= left && box.right <= right && box.top >= top && box.bottom <= bottom

/** Whether any of a segment may lie in the box. */
const reaches = (box: Box, segment: Segment): boolean =>
  segment.right >= box.left && segment.left <= box.right && segment.bottom >= box.top && segment.top <= box.bottom

/** A place by its line: how far along, how many heights of text off it, on the other side than at first or not. */
interface Try {
  readonly t: number
  readonly off: number
  readonly isAcross: boolean
  readonly cost: number
}

/** Own place first, then along the line, off it, and on the other side of it. */
const triesOff = (offs: readonly number[], dearness: number): readonly Try[] =>
  [false, true]
    .flatMap((isAcross) =>
      offs.flatMap((off) =>
        ALONG.map((t) => ({
          ...{ t, off, isAcross },
          cost: COST.end * 2 * Math.abs(t - 0.5) + dearness * off + (isAcross ? COST.side : 0),
        })),
      ),
    )
    .sort((a, b) => a.cost - b.cost)

const TRIES = {
  // It says by its colour what it belongs to: where a near lamp covers its short line, it stands beside the gear.
  pencil: triesOff(OFF, COST.off),
  on: triesOff(OFF, COST.away),
  // A dimension whose colour does not say what it measures keeps to its line.
  close: triesOff(
    OFF.filter((off) => off <= NEAR),
    COST.away,
  ),
}

const triesOf = ({ tone, stands }: Words): readonly Try[] =>
  tone === 'pencil' ? TRIES.pencil : stands === 'on' ? TRIES.on : TRIES.close

/** Words at a place by their line; those on no line's side may go both ways. */
function putAt(words: Words, [from, to]: Line, { t, off, isAcross }: Try, at: Placement, textPx: number): Words {
  const turn = (readableAngle(from, to) * Math.PI) / 180
  const way = (words.stands === 'under') === isAcross ? 1 : -1
  const [x, y] = between(from, to, t)
  const liftM = (way * off * textPx) / at.scale
  return {
    ...words,
    at: [x + Math.sin(turn) * liftM, y - Math.cos(turn) * liftM],
    stands: words.stands === 'on' ? 'on' : way < 0 ? 'under' : 'over',
  }
}
