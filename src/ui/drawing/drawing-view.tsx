import { type KeyboardEvent, type PointerEvent, useRef, useState, type WheelEvent } from 'react'
import type { Drawing, Handle, Point2 } from '../../paper'
import { useMarks } from '../derived'
import { currentSitting, edit, select, setSession, useSession, useStore } from '../store'
import { type Placement, toDrawing, toPane } from './fit'
import { HandleView } from './handle'
import { legible } from './legible'
import { drag, nudge, type Plane, putBack, selectionOf } from './moves'
import { ShapeView } from './shape'
import { moveName, putBackName } from './step-names'

interface DrawingViewProps {
  readonly drawing: Drawing
  readonly at: Placement
  /** Size of a label, pixels. */
  readonly textPx: number
  readonly plane: Plane
  /** Points of the drawing that carry a ring: a caution's spot, the place of a reading. */
  readonly rings: readonly { readonly id: string; readonly at: Point2; readonly kind: 'caution' | 'place' }[]
  /** Frees or holds the placement, so that the sheet doesn't slide under the hand. */
  onHold(held: boolean): void
}

interface Held {
  readonly handle: Handle
  readonly gesture: string
  /** From the pointer to the handle's point, metres of the drawing. */
  readonly offset: readonly [number, number]
  readonly plane: Plane
}

/** A drawing on the page: its shapes at the given scale, and its handles, which drag, nudge and reset. */
export function DrawingView({ drawing, at, textPx, plane, rings, onHold }: DrawingViewProps) {
  const svg = useRef<SVGSVGElement>(null)
  const held = useRef<Held | null>(null)
  const [holding, setHolding] = useState(false)
  const marks = useMarks()
  const units = useSession((session) => session.units)
  const selected = useSession((session) => session.selected)

  const pointAt = (event: PointerEvent) => {
    const box = svg.current!.getBoundingClientRect()
    return toDrawing(at, [event.clientX - box.left, event.clientY - box.top])
  }
  const press = (handle: Handle) => (event: PointerEvent<SVGGElement>) => {
    svg.current!.setPointerCapture(event.pointerId)
    const point = pointAt(event)
    select(selectionOf(handle.target))
    onHold(true)
    setHolding(true)
    held.current = {
      handle,
      plane,
      gesture: `drag ${event.timeStamp}`,
      offset: [handle.at[0] - point[0], handle.at[1] - point[1]],
    }
  }
  const move = (event: PointerEvent) => {
    if (!held.current) return
    const { handle, gesture, offset, plane: heldPlane } = held.current
    const point = pointAt(event)
    const to = [point[0] + offset[0], point[1] + offset[1]] as const
    edit(moveName(handle.target, marks, units), (sitting) => drag(sitting, handle.target, to, heldPlane), gesture)
    if (handle.target.type === 'source') setSession({ hintSeen: true })
  }
  const release = () => {
    held.current = null
    setHolding(false)
    onHold(false)
  }
  const key = (handle: Handle) => (event: KeyboardEvent) => {
    const gesture = event.repeat ? `held ${handle.name}` : null
    if (nudge(currentSitting(), handle.target, 'ArrowUp', false, plane, null) === null) return
    let moved = false
    edit(
      moveName(handle.target, marks, units),
      (sitting) => {
        const next = nudge(sitting, handle.target, event.key, event.shiftKey, plane, marks)
        moved = next !== null
        return next ?? sitting
      },
      gesture,
    )
    if (!moved) return
    event.preventDefault()
    select(selectionOf(handle.target))
    if (handle.target.type === 'source') setSession({ hintSeen: true })
  }
  const wheel = (handle: Handle) => (event: WheelEvent) => {
    if (event.deltaY === 0) return
    const arrow = event.deltaY < 0 ? 'ArrowUp' : 'ArrowDown'
    edit(
      moveName(handle.target, marks, units),
      (sitting) => nudge(sitting, handle.target, arrow, event.shiftKey, plane, marks) ?? sitting,
      `wheel ${handle.name}`,
    )
  }
  const reset = (handle: Handle) => {
    const { opened } = useStore.getState().session
    edit(putBackName(currentSitting(), handle.target), (sitting) => putBack(sitting, opened, handle.target))
  }
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing with handles in it is a group, not a fieldset
    <svg
      ref={svg}
      className={`drawing${holding ? ' held' : ''}`}
      style={{ fontSize: textPx }}
      role="group"
      aria-label={drawing.description}
      onPointerMove={move}
      onPointerUp={release}
      onPointerCancel={release}
    >
      {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: shapes take no focus; the description above says what they show */}
      <g aria-hidden="true">
        {legible(drawing.shapes, at, textPx).map((shape, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: shapes have no identity; each drawing is a new list
          <ShapeView key={i} shape={shape} at={at} />
        ))}
        {rings.map((ring) => {
          const [cx, cy] = toPane(at, ring.at)
          const radius = ring.kind === 'caution' ? 11 : 6
          return <circle key={ring.id} className={`${ring.kind}-ring`} cx={cx} cy={cy} r={radius} />
        })}
      </g>
      {drawing.handles.map((handle) => (
        <HandleView
          key={`${handle.target.type}${'id' in handle.target ? handle.target.id : ''}`}
          handle={handle}
          isSelected={selectionOf(handle.target) === selected}
          at={at}
          onPress={press(handle)}
          onKey={key(handle)}
          onWheel={wheel(handle)}
          onReset={() => reset(handle)}
          onSelect={() => select(selectionOf(handle.target))}
        />
      ))}
    </svg>
  )
}
