import { type KeyboardEvent, type PointerEvent, useRef, type WheelEvent } from 'react'
import type { Handle, Point2 } from '../../paper'
import { type Placement, toPane } from './fit'

/** A finger and a mouse find at least this many pixels round the point. */
const LEAST_GRIP_PX = 13

const gripPx = (handle: Handle, at: Placement): number => Math.max(LEAST_GRIP_PX, handle.reachM * at.scale)

/**
 * What is taken by a press at a point of the drawing: of all handles round it the one whose own point is nearest, as those of aim,
 * nose and sitter lie over each other. pressed: the uppermost.
 */
export function handleAt(handles: readonly Handle[], pressed: Handle, point: Point2, at: Placement): Handle {
  const off = (handle: Handle) => Math.hypot(handle.at[0] - point[0], handle.at[1] - point[1])
  return handles
    .filter((handle) => off(handle) * at.scale <= gripPx(handle, at))
    .reduce((best, handle) => (off(handle) < off(best) ? handle : best), pressed)
}

interface HandleProps {
  readonly handle: Handle
  readonly isSelected: boolean
  /** In hand with what is selected: drawn with a ring, as only the selected thing is in pencil. */
  readonly isAlso: boolean
  readonly at: Placement
  onPress(event: PointerEvent<SVGGElement>): void
  onKey(event: KeyboardEvent<SVGGElement>): void
  onWheel(event: WheelEvent<SVGGElement>): void
  onReset(event: PointerEvent<SVGGElement>): void
  /** adds: to what is in hand already. */
  onSelect(adds: boolean): void
}

/**
 * A place of the drawing that can be taken in hand, by pointer or by keys. It shows itself when pointed at or focused;
 * a press, Enter, Space or an arrow key selects its thing, the focus alone does not.
 */
export function HandleView({
  handle,
  isSelected,
  isAlso,
  at,
  onPress,
  onKey,
  onWheel,
  onReset,
  onSelect,
}: HandleProps) {
  const [cx, cy] = toPane(at, handle.at)
  const lastTap = useRef(0)
  return (
    // biome-ignore lint/a11y/useSemanticElements: SVG has no button element
    <g
      className="handle"
      role="button"
      tabIndex={0}
      aria-label={`${handle.name}. Arrow keys move it.`}
      aria-pressed={isSelected || isAlso}
      data-also={isAlso || undefined}
      data-target={`${handle.target.type}${'id' in handle.target ? ` ${handle.target.id}` : ''}`}
      onPointerDown={(event) => {
        // Two presses within a double-click's time: put back. The browser's own dblclick is lost to the redrawn handle.
        const again = event.timeStamp - lastTap.current < 350
        lastTap.current = event.timeStamp
        if (again) onReset(event)
        else onPress(event)
      }}
      // With Shift a browser would select all words from the last press to here. It would also not focus what is pressed.
      onMouseDown={(event) => {
        if (!event.shiftKey) return
        event.preventDefault()
        event.currentTarget.focus()
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Enter' && event.key !== ' ') return onKey(event)
        event.preventDefault()
        onSelect(event.ctrlKey || event.metaKey)
      }}
      onWheel={onWheel}
      // Pressed by a pointer it is in hand already; this is what a screen reader sends.
      onClick={(event) => event.detail === 0 && onSelect(false)}
    >
      <circle className="grip" cx={cx} cy={cy} r={gripPx(handle, at)} />
    </g>
  )
}
