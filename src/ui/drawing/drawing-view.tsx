import { type KeyboardEvent, type PointerEvent, useMemo, useRef, useState, type WheelEvent } from 'react'
import { type Drawing, type Handle, legible, type Point2, type Target } from '../../paper'
import type { Sitting } from '../../sitting'
import { useDerivedNow, useMarksNow } from '../derived'
import { holdOthers } from '../late'
import { choose, currentSitting, edit, inHand, setSession, useSession, useStore } from '../store'
import { type Pane, type Placement, roomOn, toDrawing, toPane } from './fit'
import { HandleView, handleAt } from './handle'
import { drag, nudge, type Plane, putBack, selectionOf } from './moves'
import { ShapeView } from './shape'
import { type DragHow, goesRound } from './slide'
import { moveTold, putBackName } from './step-names'
import { together } from './together'
import { useEarlyMoves } from './use-early-moves'

interface DrawingViewProps {
  readonly drawing: Drawing
  readonly at: Placement
  readonly pane: Pane
  readonly plane: Plane
  /** Points of the drawing that carry a ring: a caution's spot, the place of a reading. */
  readonly rings: readonly {
    readonly id: string
    readonly at: Point2
    readonly kind: 'caution' | 'place'
    readonly name?: string
  }[]
  /** What is in the hand, so that the sheet doesn't slide under it; null: nothing any more. */
  onHold(held: InHand | null): void
}

/** A handle under the pointer, and what it keeps as long as it goes with it. */
export interface InHand {
  readonly target: Target
  readonly plane: Plane
  readonly keepsAngle: boolean
  readonly keepsRound: boolean
}

/** Turns of the wheel farther apart are two steps, ms. */
const WHEEL_PAUSE_MS = 600

interface Turned {
  readonly name: string
  readonly at: number
  readonly gesture: string
}

interface Held {
  readonly handle: Handle
  readonly gesture: string
  /** From the pointer to the handle's point, metres of the drawing. */
  readonly offset: readonly [number, number]
  readonly plane: Plane
  /** It has gone round the sitter: until then a source on the plan keeps its direction. */
  goesRound: boolean
}

/** Half the height of a source's lit face when it stands upright, metres; 0 for anything else. */
export function halfFaceOf(target: Target): number {
  const source = target.type === 'source' && useDerivedNow.getState().rig?.sources.find(({ id }) => id === target.id)
  if (!source) return 0
  const { shape, widthM, heightM } = source.litFace
  return (shape === 'disc' ? widthM : heightM) / 2
}

/** By the keys held and the choice beside the word Plan. Several things that go together keep their heights. */
function howOf(target: Target, keys: Keys, alone: boolean) {
  const { keepsHeight } = useStore.getState().session
  return {
    snaps: keys.shiftKey,
    keepsAngle: alone && keepsHeight === keys.altKey,
    keepsRound: keys.ctrlKey || keys.metaKey,
    halfFaceM: halfFaceOf(target),
  } satisfies DragHow
}
type Keys = Pick<MouseEvent, 'shiftKey' | 'altKey' | 'ctrlKey' | 'metaKey'>

/** Takes what is pressed in hand; what is in hand already stays so with all the rest. False: it was let go. */
function takeUp(id: string, adds: boolean): boolean {
  const { session } = useStore.getState()
  const held = inHand(session)
  if (adds || !held.includes(id)) return choose(id, adds)
  setSession({ selected: id, also: held.filter((other) => other !== id) })
  return true
}

/** A drawing on the page: its shapes at the given scale, and its handles, which drag, nudge and reset. */
export function DrawingView({ drawing, at, pane, plane, rings, onHold }: DrawingViewProps) {
  const svg = useRef<SVGSVGElement>(null)
  const held = useRef<Held | null>(null)
  const turned = useRef<Turned | null>(null)
  const [holding, setHolding] = useState<InHand | null>(null)
  const hold = (inHand: InHand | null) => {
    holdOthers(inHand !== null)
    onHold(inHand)
    setHolding(inHand)
  }
  const marks = useMarksNow()
  const units = useSession((session) => session.units)
  const selected = useSession((session) => session.selected)
  const also = useSession((session) => session.also)

  const shapes = useMemo(
    () =>
      legible(drawing.shapes, at, pane.textPx, roomOn(pane)).map((shape, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: shapes have no identity; each drawing is a new list
        <ShapeView key={i} shape={shape} at={at} />
      )),
    [drawing, at, pane],
  )

  const pointAt = (event: Pick<PointerEvent, 'clientX' | 'clientY'>) => {
    const box = svg.current!.getBoundingClientRect()
    return toDrawing(at, [event.clientX - box.left, event.clientY - box.top])
  }
  /** What goes along with a handle that is worked by keys: the rest of what is in hand, if it is of that. */
  const heldWith = ({ target }: Handle) => {
    const held = inHand({ selected, also })
    return held.includes(selectionOf(target)) ? held.filter((id) => id !== selectionOf(target)) : []
  }
  const named = (handle: Handle) => {
    const tell = moveTold(handle.target, marks, units)
    const more = heldWith(handle).length
    return (before: Sitting, after: Sitting) => tell(before, after, more === 0 ? '' : `, ${more} more with it`)
  }
  const press = (uppermost: Handle) => (event: PointerEvent<SVGGElement>) => {
    svg.current!.setPointerCapture(event.pointerId)
    const point = pointAt(event)
    const handle = handleAt(drawing.handles, uppermost, point, at)
    if (!takeUp(selectionOf(handle.target), event.ctrlKey || event.metaKey)) return
    const alone = inHand(useStore.getState().session).length < 2
    const { keepsAngle, keepsRound, snaps } = howOf(handle.target, event, alone)
    hold({ target: handle.target, plane, keepsAngle, keepsRound: keepsRound || (alone && !snaps) })
    held.current = {
      handle,
      plane,
      goesRound: false,
      gesture: `drag ${event.timeStamp}`,
      offset: [handle.at[0] - point[0], handle.at[1] - point[1]],
    }
  }
  const moves = useEarlyMoves(svg, (event) => {
    if (!held.current) return
    const { handle, gesture, offset, plane: heldPlane } = held.current
    const point = pointAt(event)
    const to = [point[0] + offset[0], point[1] + offset[1]] as const
    const alone = also.length === 0
    const asked = howOf(handle.target, event, alone)
    if (marks) held.current.goesRound ||= goesRound(handle.at, to, marks)
    const keepsRound = asked.keepsRound || (alone && !asked.snaps && !held.current.goesRound)
    const how = { ...asked, keepsRound }
    const { keepsAngle } = how
    if (holding && (holding.keepsAngle !== keepsAngle || holding.keepsRound !== keepsRound))
      hold({ ...holding, keepsAngle, keepsRound })
    edit(
      named(handle),
      (sitting) => together(sitting, drag(sitting, handle.target, to, heldPlane, how, marks), handle.target, also),
      gesture,
    )
    if (handle.target.type === 'source') setSession({ hintSeen: true })
  })
  const release = () => {
    moves.latest()
    held.current = null
    hold(null)
  }
  const key = (handle: Handle) => (event: KeyboardEvent) => {
    const gesture = event.repeat ? `held ${handle.name}` : null
    if (!event.key.startsWith('Arrow')) return
    let moved = false
    edit(
      named(handle),
      (sitting) => {
        const how = howOf(handle.target, event, heldWith(handle).length === 0)
        const next = nudge(sitting, handle.target, event.key, event.shiftKey, plane, marks, how)
        moved = next !== null
        return next ? together(sitting, next, handle.target, heldWith(handle)) : sitting
      },
      gesture,
    )
    if (!moved) return
    event.preventDefault()
    takeUp(selectionOf(handle.target), false)
    if (handle.target.type === 'source') setSession({ hintSeen: true })
  }
  /** Turns of the wheel with no pause between them are one step. */
  const wheelGesture = (name: string, now: number): string => {
    const before = turned.current
    const goesOn = before?.name === name && now - before.at < WHEEL_PAUSE_MS
    turned.current = { name, at: now, gesture: goesOn ? before.gesture : `wheel ${name} ${now}` }
    return turned.current.gesture
  }
  const wheel = (handle: Handle) => (event: WheelEvent) => {
    if (event.deltaY === 0) return
    const arrow = event.deltaY < 0 ? 'ArrowUp' : 'ArrowDown'
    edit(
      moveTold(handle.target, marks, units),
      (sitting) =>
        nudge(sitting, handle.target, arrow, event.shiftKey, plane, marks, howOf(handle.target, event, true)) ??
        sitting,
      wheelGesture(handle.name, event.timeStamp),
    )
  }
  const reset = (uppermost: Handle) => (event: PointerEvent<SVGGElement>) => {
    const handle = handleAt(drawing.handles, uppermost, pointAt(event), at)
    const { opened } = useStore.getState().session
    edit(putBackName(currentSitting(), handle.target), (sitting) => putBack(sitting, opened, handle.target, plane))
  }
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing with handles in it is a group, not a fieldset
    <svg
      ref={svg}
      className={`drawing${holding ? ' held' : ''}`}
      style={{ fontSize: pane.textPx }}
      role="group"
      aria-label={drawing.description}
      onPointerMove={({ nativeEvent }) => moves.later(nativeEvent)}
      onPointerUp={release}
      onPointerCancel={release}
    >
      {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: shapes take no focus; the description above says what they show */}
      <g aria-hidden="true">
        {shapes}
        {rings.map((ring) => {
          const [cx, cy] = toPane(at, ring.at)
          const radius = ring.kind === 'caution' ? 11 : 6
          return (
            <g key={ring.id}>
              <circle className={`${ring.kind}-ring`} cx={cx} cy={cy} r={radius} />
              {ring.name && (
                <text
                  className="place-word"
                  x={cx + (cx > pane.width / 2 ? -12 : 12)}
                  y={cy - 8}
                  textAnchor={cx > pane.width / 2 ? 'end' : 'start'}
                >
                  {ring.name}
                </text>
              )}
            </g>
          )
        })}
      </g>
      {drawing.handles.map((handle) => (
        <HandleView
          key={`${handle.target.type}${'id' in handle.target ? handle.target.id : ''}`}
          handle={handle}
          isSelected={selectionOf(handle.target) === selected}
          isAlso={also.includes(selectionOf(handle.target))}
          at={at}
          onPress={press(handle)}
          onKey={key(handle)}
          onWheel={wheel(handle)}
          onReset={reset(handle)}
          onSelect={(adds) => choose(selectionOf(handle.target), adds)}
        />
      ))}
    </svg>
  )
}
