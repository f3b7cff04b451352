import { type EdgeSpan, MARK_MM, type PlaceIn } from './edge-span'

interface SpanMarksProps {
  readonly span: EdgeSpan
  /** Width over height of the whole crop, and of the middle part of it that is shown at full width. */
  readonly aspect: number
  readonly shown: number
  /** Whether the millimetres stand beside it. */
  readonly figured: boolean
  /** Whether the part from 10 to 90 % of the light is marked too. */
  readonly inner: boolean
}

/** What stands over and under a ruler, as a share of the whole crop's height. */
const RULER_MARGIN = 0.08

/**
 * Width over height of so much of crops, at one scale, that the longest of their rulers lies within it; most: no broader than that, where the
 * whole crop is not.
 */
export function shownFor(spans: readonly EdgeSpan[], aspect: number, most: number): number {
  const off = spans.flatMap(({ ruler }) => ruler.line.map(({ y }) => Math.abs(y - 0.5)))
  const part = Math.min(1, 2 * (Math.max(0, ...off) + RULER_MARGIN))
  return Math.min(Math.max(most, aspect), aspect / part)
}

/** Over an edge crop: a ruler beside the edge, a line that leads there from each end of it that is seen, and its width. */
export function SpanMarks({ span, aspect, shown, figured, inner }: SpanMarksProps) {
  const percent = (share: number) => `${(100 * share).toFixed(2)}%`
  const part = aspect / shown
  const at = ({ x, y }: PlaceIn) => ({ x: percent(x), y: percent((y - 0.5) / part + 0.5) })
  const linesOf = (paths: readonly (readonly PlaceIn[])[]) =>
    paths.flatMap((points) =>
      points.slice(1).map((point, i) => {
        const [from, to] = [at(points[i]!), at(point)]
        return { x1: from.x, y1: from.y, x2: to.x, y2: to.y }
      }),
    )
  const { line, marks, drawnMm, hiddenMm } = span.ruler
  // Beside an edge that is hidden: dashed, and open where it begins.
  const dashes = drawnMm > 0 ? Math.round((hiddenMm / drawnMm) * (line.length - 1)) : 0
  const leads = linesOf([...(dashes > 0 ? marks.slice(1) : marks), ...span.ticks, ...(inner ? span.inner : [])])
  const edge = linesOf([line]).filter((_, i) => i >= dashes || i % 2 === 1)
  return (
    <svg
      className="span-marks"
      role="img"
      aria-label={`${figured ? `The edge that is measured: ${widthWords(span)}` : 'The edge that is measured'}${rulerWords(span)}`}
    >
      {[
        { name: 'under', lines: [...leads, ...edge] },
        { name: 'over ruled', lines: leads },
        { name: 'over', lines: edge },
      ].map(({ name, lines }) => (
        <g key={name} className={name}>
          {lines.map((line) => (
            <line key={`${line.x1} ${line.y1} ${line.x2} ${line.y2}`} {...line} />
          ))}
        </g>
      ))}
      {figuresOf(span, part)
        .filter(({ words }) => figured || words === NOUGHT)
        .map(({ words, place, ...as }) => (
          <text key={words} {...at(place)} {...as}>
            {words}
          </text>
        ))}
    </svg>
  )
}

/** '13 mm', 'wider than the face'. */
const widthWords = ({ fullMm, isAllRound }: EdgeSpan): string =>
  fullMm === null ? (isAllRound ? 'wider than the face' : 'no edge') : `${fullMm.toFixed(fullMm < 5 ? 1 : 0)} mm`

/** '15 of 25 mm' where the face falls away before the end, so that nobody counts its spaces and misses some. */
const ruledWords = (span: EdgeSpan): string =>
  span.ends[1] === 'past' && span.ruler.line.length > 0
    ? `${span.ruler.drawnMm.toFixed(0)} of ${widthWords(span)}`
    : widthWords(span)

function rulerWords({ fullMm, ends: [begin, end], ruler }: EdgeSpan): string {
  if (fullMm === null) return ''
  const behind = begin === 'hidden' ? ', which lies behind the nose,' : ''
  const past = end === 'past' ? `, which lies past the face: ${ruler.drawnMm.toFixed(0)} mm of it are ruled` : ''
  return `; a ruler beside it, a mark each ${MARK_MM} mm square to the light, from where the source begins to show${behind} to where all of it shows${past}`
}

/** Under so many millimetres a nought would stand on the width. */
const LEAST_NOUGHT_MM = 2

const NOUGHT = '0'
/** Words so near to the upper or lower rim, as a share of what is shown, would be cut. */
const RIM = 0.2
/** Words that begin or end at the middle line would leave the crop on its other side past these shares of its width. */
const ASIDE = { left: 0.4, right: 0.6, overhang: 0.14, rim: 0.06 }

/** Under the lips, as a share of what is shown, from its middle. */
const CHIN = 0.44

interface Figure {
  readonly words: string
  readonly place: PlaceIn
  readonly dx?: string
  readonly dy: string
  readonly textAnchor: 'start' | 'middle' | 'end'
}

/** Where nought and the width stand: off the two ends of the ruler, as far as it is drawn, within the crop. */
function figuresOf(span: EdgeSpan, part: number): readonly Figure[] {
  const { fullMm, ruler, ends } = span
  const all = ruler.line
  if (fullMm === null)
    return [{ words: widthWords(span), place: { x: 0.5, y: 0.5 + CHIN * part }, dy: '0', textAnchor: 'middle' }]
  if (all.length === 0) return []
  const isFalling = ruler.marks.length < 2 || ruler.marks[0]![0]!.y < ruler.marks.at(-1)![0]!.y
  const highest = all.reduce((a, b) => (b.y < a.y ? b : a))
  const lowest = all.reduce((a, b) => (b.y > a.y ? b : a))
  const [nought, width] = isFalling ? [highest, lowest] : [lowest, highest]
  const hasNought = fullMm >= LEAST_NOUGHT_MM && ends[0] === 'seen'
  return [
    ...(hasNought ? [figureAt(NOUGHT, nought, isFalling, part)] : []),
    figureAt(ruledWords(span), width, !isFalling, part),
  ]
}

/** Over or under a place; at the rim beside it. */
function figureAt(words: string, place: PlaceIn, isOver: boolean, part: number): Figure {
  const y = (place.y - 0.5) / part + 0.5
  const isAtRim = isOver ? y < RIM : y > 1 - RIM
  if (isAtRim) {
    const within = 0.5 + part * (Math.min(0.92, Math.max(0.08, y)) - 0.5)
    return { words, place: { x: place.x, y: within }, dx: '-0.6em', dy: '0.35em', textAnchor: 'end' }
  }
  const dy = isOver ? '-0.6em' : '1.7em'
  if (words === NOUGHT) return { words, place, dy, textAnchor: 'middle' }
  const { left, right, overhang, rim } = ASIDE
  if (place.x > right)
    return { words, place: { ...place, x: Math.min(1 - rim, place.x + overhang) }, dy, textAnchor: 'end' }
  if (place.x < left)
    return { words, place: { ...place, x: Math.max(rim, place.x - overhang) }, dy, textAnchor: 'start' }
  return { words, place, dy, textAnchor: 'middle' }
}

/** Under a crop, on its white border: what its tones say. */
export const Key = ({ of }: { of: readonly string[] }) => (
  <p className="span-key" aria-hidden="true">
    {of.map((words) => (
      <span key={words}>
        <svg viewBox="0 0 10 10" aria-hidden="true">
          <circle className={`end ${words}`} cx="5" cy="5" r="4" />
        </svg>
        {words}
      </span>
    ))}
  </p>
)

/** Under an edge's crop, in two lines at most: from how much of the source the edge runs to how much, or which end of it is not on the cheek. */
export const SpanKey = ({ span }: { span: EdgeSpan | null }) => (
  <p className="span-key ends" aria-hidden="true">
    {span && keyWords(span)}
  </p>
)

function keyWords({ fullMm, isAllRound, ends: [begin, end] }: EdgeSpan): string {
  if (fullMm === null) return isAllRound ? 'no ends to measure between' : ''
  if (begin === 'hidden') return end === 'past' ? 'from behind the nose to past the face' : 'begins behind the nose'
  if (end === 'past') return 'the edge ends past the face'
  return fullMm < LEAST_NOUGHT_MM ? 'from none of the lamp to all' : '0: none of the lamp; end: all'
}
