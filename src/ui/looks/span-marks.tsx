import { type EdgeSpan, MARK_MM, type PlaceIn } from './edge-span'

/** As an edge's ticks are listed. */
const ENDS = ['shade', 'light'] as const

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

/** Over an edge crop: a ruler beside the edge, two lines that lead there from a dark dot at the edge's shade and a white one at its light, and its width. */
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
  const ruler = linesOf([span.ruler.line, ...span.ruler.marks])
  const edge = linesOf([span.ruler.edge])
  const leads = linesOf([...span.ticks, ...(inner ? span.inner : [])])
  const { fullMm } = span
  const words = fullMm === null ? 'no edge' : `${fullMm.toFixed(fullMm < 5 ? 1 : 0)} mm`
  const lowest = [...span.ruler.line, ...span.ticks.flat()].reduce((a, b) => (b.y > a.y ? b : a), { x: 0.5, y: 0 })
  const under = at({ x: Math.min(0.76, Math.max(0.24, lowest.x)), y: Math.min(lowest.y, 0.5 + 0.4 * part) })
  const ends = span.fullMm === null ? '' : ', from full shade (dark dot) to full light (white dot)'
  const ruled = `a ruler beside it, a mark each ${MARK_MM} mm, square to the light`
  return (
    <svg
      className="span-marks"
      role="img"
      aria-label={`${figured ? `The edge that is measured: ${words}` : 'The edge that is measured'}${ends}; ${ruled}`}
    >
      {[
        { name: 'under', lines: [...ruler, ...leads, ...edge] },
        { name: 'over ruled', lines: [...ruler, ...leads] },
        { name: 'over', lines: edge },
      ].map(({ name, lines }) => (
        <g key={name} className={name}>
          {lines.map((line) => (
            <line key={`${line.x1} ${line.y1} ${line.x2} ${line.y2}`} {...line} />
          ))}
        </g>
      ))}
      {span.ticks.map(([end], i) => {
        const { x, y } = at(end!)
        return <circle key={ENDS[i]} className={`end ${ENDS[i]}`} cx={x} cy={y} r="0.28em" />
      })}
      {figured && (
        <text {...under} dy="1.25em" textAnchor="middle">
          {words}
        </text>
      )}
    </svg>
  )
}

/** Under a crop, on its white border: what its dots or its tones say. */
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

/** Of the dots at an edge's ends; nothing until they are there. */
export function SpanKey({ span }: { span: EdgeSpan | null }) {
  return span?.fullMm === null ? <p className="span-key">no edge</p> : <Key of={span ? ENDS : []} />
}
