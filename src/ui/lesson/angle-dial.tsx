import { type KeyboardEvent, type PointerEvent, useRef } from 'react'
import { turnWords } from '../../lesson'

interface DialProps {
  readonly plane: 'round' | 'up'
  /** Degrees; null: not sketched yet. */
  readonly value: number | null
  readonly locked: boolean
  onValue(degrees: number): void
}

const R = 90
const PLANES = {
  round: {
    least: -180,
    most: 180,
    asks: 'where the lamp stands, round from the lens',
  },
  up: { least: -90, most: 90, asks: 'how far the lamp stands over the eyes' },
} as const

/** To a whole degree. round: 0 at the camera below, positive to the right. up: 0 level, positive upwards. */
function degreesAt(plane: DialProps['plane'], x: number, y: number): number {
  const at = plane === 'round' ? Math.atan2(x, y) : Math.atan2(-y, Math.abs(x))
  return Math.round((at * 180) / Math.PI)
}

function placeOf(plane: DialProps['plane'], degrees: number): readonly [number, number] {
  const a = (degrees * Math.PI) / 180
  return plane === 'round' ? [R * Math.sin(a), R * Math.cos(a)] : [R * Math.cos(a), -R * Math.sin(a)]
}

/** Of the plate that an angle is drawn on. */
export const PLATE_BOX = { round: '-120 -120 240 250', up: '-60 -120 240 240' } as const

/** What an angle is drawn on, on the screen and on paper: the circle about the head, from above or from the side. */
export function Plate({ plane }: Pick<DialProps, 'plane'>) {
  if (plane === 'up')
    return (
      <>
        <path className="thin" d={`M0 ${-R}A${R} ${R} 0 0 1 0 ${R}`} />
        <path className="thin dashed" d={`M0 0H${R}`} />
        <path className="object" d="M-20 -14q16-18 30-4l3 10 6 8-6 2-1 12q-16 8-26-2" />
        <text x={R + 8} y="5">
          level
        </text>
      </>
    )
  return (
    <>
      <path className="thin" d={`M0 ${-R}A${R} ${R} 0 1 0 0.01 ${-R}`} />
      <path className="thin dashed" d={`M0 0V${R}`} />
      <path className="object" d="M-14 4a14 17 0 1 1 28 0q-6 12-10 13l-4 6-4-6q-4-1-10-13" />
      <text y={R + 24} textAnchor="middle">
        camera
      </text>
      <text x="-118" y="-100">
        camera left
      </text>
      <text x="118" y="-100" textAnchor="end">
        camera right
      </text>
    </>
  )
}

/** An angle that is sketched: drawn with finger or mouse, or by arrow keys; the head in the middle, as on plan and elevation. */
export function AngleDial({ plane, value, locked, onValue }: DialProps) {
  const box = useRef<HTMLDivElement>(null)
  const { least, most, asks } = PLANES[plane]
  const sketch = (event: PointerEvent) => {
    if (locked || !box.current || (event.type === 'pointermove' && event.buttons === 0)) return
    const { left: x, top: y, width, height } = box.current.getBoundingClientRect()
    const half = plane === 'round' ? width / 2 : width * 0.25
    onValue(degreesAt(plane, event.clientX - x - half, event.clientY - y - height / 2))
  }
  const keys = (event: KeyboardEvent) => {
    const way = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key]
    if (way === undefined || locked) return
    event.preventDefault()
    event.stopPropagation()
    onValue(Math.min(most, Math.max(least, (value ?? 0) + way * (event.shiftKey ? 10 : 1))))
  }
  const [x, y] = placeOf(plane, value ?? 0)
  return (
    <div className="dial">
      <div
        className="sketch"
        ref={box}
        role="slider"
        tabIndex={locked ? -1 : 0}
        aria-label={asks}
        aria-valuemin={least}
        aria-valuemax={most}
        aria-valuenow={value ?? 0}
        aria-valuetext={value === null ? 'not sketched yet' : turnWords(plane, value)}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId)
          sketch(event)
        }}
        onPointerMove={sketch}
        onKeyDown={keys}
      >
        <svg aria-hidden="true" viewBox={PLATE_BOX[plane]}>
          <Plate plane={plane} />
          {value !== null && (
            <>
              <path className="ray" d={`M${x} ${y}L0 0`} />
              <circle className="lamp" cx={x} cy={y} r="8" />
            </>
          )}
        </svg>
      </div>
      <p>{value === null ? 'Draw the lamp, or use the arrow keys.' : turnWords(plane, value)}</p>
    </div>
  )
}
