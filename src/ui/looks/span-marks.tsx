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
  const leads = linesOf([...span.ruler.marks, ...span.ticks, ...(inner ? span.inner : [])])
  const edge = linesOf([span.ruler.line])
  const words = widthWords(span)
  return (
    <svg
      className="span-marks"
      role="img"
      aria-label={`${figured ? `The edge that is measured: ${words}` : 'The edge that is measured'}${rulerWords(span)}`}
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
      {figuresOf(span, part).map(({ place, isOver, isNought }) =>
        isNought ? (
          <text key="0" {...at(place)} dy={isOver ? '-0.6em' : '1.7em'} textAnchor="middle">
            0
          </text>
        ) : (
          figured && (
            <text key="width" {...at(place)} dy={isOver ? '-0.6em' : '1.7em'} textAnchor="middle">
              {span.ends[1] === 'past' ? `${words} in all` : words}
            </text>
          )
        ),
      )}
    </svg>
  )
}

/** '13 mm', 'wider than the face'. */
const widthWords = ({ fullMm, isAllRound }: EdgeSpan): string =>
  fullMm === null ? (isAllRound ? 'wider than the face' : 'no edge') : `${fullMm.toFixed(fullMm < 5 ? 1 : 0)} mm`

function rulerWords({ fullMm, ends: [begin, end] }: EdgeSpan): string {
  if (fullMm === null) return ''
  const behind = begin === 'hidden' ? ', which lies behind the nose,' : ''
  const past = end === 'past' ? ', which lies past the face' : ''
  return `; a ruler beside it, a mark each ${MARK_MM} mm square to the light, from where the source begins to show${behind} to where all of it shows${past}`
}

/** Under so many millimetres a nought would stand on the width. */
const LEAST_NOUGHT_MM = 2

/** Where nought and the width stand: off the two ends of the ruler, as far as it is drawn, within the crop. */
function figuresOf({ fullMm, ruler, ends }: EdgeSpan, part: number) {
  const all = ruler.line
  if (fullMm === null) return [{ place: { x: 0.5, y: 0.5 + 0.4 * part }, isOver: false, isNought: false }]
  if (all.length === 0) return []
  const isFalling = ruler.marks.length < 2 || ruler.marks[0]![0]!.y < ruler.marks.at(-1)![0]!.y
  const highest = all.reduce((a, b) => (b.y < a.y ? b : a))
  const lowest = all.reduce((a, b) => (b.y > a.y ? b : a))
  const within = ({ x, y }: PlaceIn): PlaceIn => ({
    x: Math.min(0.8, Math.max(0.2, x)),
    y: Math.min(0.5 + 0.4 * part, Math.max(0.5 - 0.4 * part, y)),
  })
  const [nought, width] = isFalling ? [highest, lowest] : [lowest, highest]
  return [
    ...(fullMm < LEAST_NOUGHT_MM || ends[0] === 'past'
      ? []
      : [{ place: within(nought), isOver: isFalling, isNought: true }]),
    { place: within(width), isOver: !isFalling, isNought: false },
  ]
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

/** Under an edge's crop: which end of the ruler is not on the cheek; nothing where both are. */
export const SpanKey = ({ span }: { span: EdgeSpan | null }) => (
  <p className="span-key" aria-hidden="true">
    {span && offWords(span)}
  </p>
)

function offWords({ fullMm, isAllRound, ends: [begin, end] }: EdgeSpan): string {
  if (fullMm === null) return isAllRound ? 'no ends to measure between' : ''
  if (begin === 'hidden') return `begins behind the nose${end === 'past' ? ', ends past the face' : ''}`
  return end === 'past' ? 'ends past the face' : ''
}
