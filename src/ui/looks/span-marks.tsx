import type { EdgeSpan, PlaceIn } from './edge-span'

interface SpanMarksProps {
  readonly span: EdgeSpan
  /** Width over height of the whole crop, and of the middle part of it that is shown at full width. */
  readonly aspect: number
  readonly shown: number
  /** Whether the millimetres stand beside it. */
  readonly figured: boolean
}

/** Over an edge crop: a line along which the edge is measured, a tick at each end of it, and its width. */
export function SpanMarks({ span, aspect, shown, figured }: SpanMarksProps) {
  const percent = (share: number) => `${(100 * share).toFixed(2)}%`
  const part = aspect / shown
  const at = ({ x, y }: PlaceIn) => ({ x: percent(x), y: percent((y - 0.5) / part + 0.5) })
  const lines = [span.cut, ...span.ticks].flatMap((points) =>
    points.slice(1).map((point, i) => {
      const [from, to] = [at(points[i]!), at(point)]
      return { x1: from.x, y1: from.y, x2: to.x, y2: to.y }
    }),
  )
  const words = `${span.fullMm.toFixed(span.fullMm < 5 ? 1 : 0)} mm`
  const lowest = [...span.cut, ...span.ticks.flat()].reduce((a, b) => (b.y > a.y ? b : a), { x: 0.5, y: 0 })
  const under = at({ x: Math.min(0.8, Math.max(0.2, lowest.x)), y: Math.min(lowest.y, 0.5 + 0.4 * part) })
  return (
    <svg
      className="span-marks"
      role="img"
      aria-label={figured ? `The edge that is measured: ${words}, square to the light` : 'The edge that is measured'}
    >
      {['under', 'over'].map((name) => (
        <g key={name} className={name}>
          {lines.map((line) => (
            <line key={`${line.x1} ${line.y1} ${line.x2}`} {...line} />
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
