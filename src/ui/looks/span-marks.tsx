import { type EdgeSpan, MARK_MM, type PlaceIn } from './edge-span'

interface SpanMarksProps {
  readonly span: EdgeSpan
  /** Width over height of the whole crop, and of the middle part of it that is shown at full width. */
  readonly aspect: number
  readonly shown: number
  /** Whether the millimetres stand beside it. */
  readonly figured: boolean
}

/** Over an edge crop: a ruler beside the edge, the part of it that is edge between two long ticks, and its width. */
export function SpanMarks({ span, aspect, shown, figured }: SpanMarksProps) {
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
  const leads = linesOf([...span.ticks, ...span.inner])
  const { fullMm } = span
  const words = fullMm === null ? 'no edge' : `${fullMm.toFixed(fullMm < 5 ? 1 : 0)} mm`
  const lowest = [...span.ruler.line, ...span.ticks.flat()].reduce((a, b) => (b.y > a.y ? b : a), { x: 0.5, y: 0 })
  const under = at({ x: Math.min(0.8, Math.max(0.2, lowest.x)), y: Math.min(lowest.y, 0.5 + 0.4 * part) })
  const ruled = `a ruler beside it, a mark each ${MARK_MM} mm, square to the light`
  return (
    <svg
      className="span-marks"
      role="img"
      aria-label={`${figured ? `The edge that is measured: ${words}` : 'The edge that is measured'}; ${ruled}`}
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
      {figured && (
        <text {...under} dy="1.25em" textAnchor="middle">
          {words}
        </text>
      )}
    </svg>
  )
}
