import { type PointerEvent, useLayoutEffect, useRef, useState } from 'react'
import type { NumberRow } from './model'
import { type Owner, useNumberRow } from './rows'
import { keyedValue } from './slider'

/** Sixteenths of the page's text size, in which the tape is drawn: marks and figures grow with the text. */
const PER_EM = 16
const UNITS_PER_MARK = 16
const HEIGHT = 70

interface RulerProps {
  readonly row: NumberRow
  readonly owner: Owner
}

/** The held control of a phone: a tape that runs under a fixed hairline, one mark a step, figures at every fourth. */
export function Ruler({ row, owner }: RulerProps) {
  const { name, shown, units, set, reset } = useNumberRow(row, owner)
  const held = useRef<{ x: number; value: number; gesture: string } | null>(null)
  const mark = row.quantity.step * (row.quantity.step === 1 ? 5 : 1)
  // Powers and f-numbers are figured at whole steps; their tenths would run into one another.
  const every = row.quantity.step === 0.1 ? 10 : 4
  const scale = UNITS_PER_MARK / mark
  const [svg, width] = useTapeWidth()
  const snap = (value: number) =>
    Math.min(row.range[1], Math.max(row.range[0], Math.round(value / row.quantity.step) * row.quantity.step))
  const move = (event: PointerEvent<SVGSVGElement>) => {
    if (!held.current) return
    const moved = (event.clientX - held.current.x) * (width / event.currentTarget.clientWidth)
    set(snap(held.current.value - moved / scale), held.current.gesture)
  }
  const first = Math.ceil((row.value - width / 2 / scale) / mark)
  const last = Math.floor((row.value + width / 2 / scale) / mark)
  const marks = Array.from({ length: last - first + 1 }, (_, i) => first + i)
  return (
    <div className="ruler">
      <output>{shown}</output>
      <svg
        ref={svg}
        viewBox={`0 0 ${width} ${HEIGHT}`}
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: HTML has no slider that is a tape
        role="slider"
        tabIndex={0}
        aria-label={`${name}, tape`}
        aria-valuemin={row.range[0]}
        aria-valuemax={row.range[1]}
        aria-valuenow={row.value}
        aria-valuetext={shown}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId)
          held.current = { x: event.clientX, value: row.value, gesture: `${name} tape ${event.timeStamp}` }
        }}
        onPointerMove={move}
        onPointerUp={() => {
          held.current = null
        }}
        onDoubleClick={reset}
        onKeyDown={(event) => {
          const next = keyedValue(event.key, event.shiftKey, row.value, row.range, row.quantity.step)
          if (next === null) return
          event.preventDefault()
          set(next, event.repeat ? `${name} held` : null)
        }}
      >
        <title>{`${name}: ${shown}`}</title>
        {marks.map((k) => {
          const x = width / 2 + (k * mark - row.value) * scale
          const figured = k % every === 0
          return (
            <g key={k}>
              <line className={k % 2 === 0 ? 'tick' : 'half'} x1={x} x2={x} y1={10} y2={k % 2 === 0 ? 38 : 26} />
              {figured && (
                <text x={x} y={60}>
                  {row.quantity.format(k * mark, units).replace(/ (m|right|left|up|down)\b/g, '')}
                </text>
              )}
            </g>
          )
        })}
        <line className="hair" x1={width / 2} x2={width / 2} y1={0} y2={44} />
      </svg>
    </div>
  )
}

/** The tape's element and its width in sixteenths of the text size. */
function useTapeWidth() {
  const svg = useRef<SVGSVGElement>(null)
  const [width, setWidth] = useState(350)
  useLayoutEffect(() => {
    const element = svg.current
    if (!element) return
    // Its height counts in the text size, so that a change of either is told.
    const observer = new ResizeObserver(() => {
      const em = Number.parseFloat(getComputedStyle(document.documentElement).fontSize)
      if (element.clientWidth > 0) setWidth((PER_EM * element.clientWidth) / em)
    })
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [svg, width] as const
}
