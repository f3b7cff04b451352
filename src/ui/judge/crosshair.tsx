import type { KeyboardEvent, PointerEvent } from 'react'
import type { Plate } from '../../camera'
import { putSpot, stepSpot, useSpot } from './spot'

/** A ring that leaves the place free, with four arms. */
const MARK = 'M5 0a5 5 0 1 0-10 0a5 5 0 1 0 10 0M5 0h8M-5 0h-8M0 5v8M0-5v-8'

/** Where the spot meter points: under the pointer, or as the arrow keys take it. */
export function Crosshair({ plate }: { plate: Plate }) {
  const { x, y } = useSpot()
  const follow = (event: PointerEvent<HTMLDivElement>) => {
    const box = event.currentTarget.getBoundingClientRect()
    putSpot({ x: (event.clientX - box.left) / box.width, y: (event.clientY - box.top) / box.height }, false)
  }
  const key = (event: KeyboardEvent) => {
    const to = stepSpot({ x, y }, event.key, event.shiftKey, plate)
    if (!to) return
    event.preventDefault()
    putSpot(to, true)
  }
  return (
    <div
      className="crosshair"
      role="application"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: an application is worked by keys
      tabIndex={0}
      aria-label="Spot meter in the picture. Arrow keys move it; its reading is told."
      onPointerMove={follow}
      onPointerDown={follow}
      onKeyDown={key}
    >
      <svg viewBox="-14 -14 28 28" style={{ left: `${100 * x}%`, top: `${100 * y}%` }} aria-hidden="true">
        <path className="edge" d={MARK} />
        <path d={MARK} />
      </svg>
    </div>
  )
}
