import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef } from 'react'
import { type Cell, useContact } from '../contact/contact-desk'
import { useDrawn } from '../contact/use-drawn'
import { pixelsOf } from '../picture/use-picture-desk'
import { useSize } from '../picture/use-size'
import type { Beside } from '../session-types'
import { setSession, useSession, useSitting } from '../store'
import { Sides } from './sides'
import { chosen, endWipe, nameOf, namesFor } from './wipe'

/**
 * Two sets in one frame, in each view. What is not the set in hand is drawn beside the page, to the same finish, and laid over its half
 * of the picture: the set in hand stays what it is, and may be worked on meanwhile.
 */
export function Wipe() {
  const wipe = useSession((session) => session.wipe)
  const look = useSession((session) => session.look)
  const units = useSession((session) => session.units)
  const sitting = useSitting()
  const box = useRef<HTMLDivElement>(null)
  const size = useSize(box, true)
  const fault = useContact((state) => state.fault)
  const [left, right] = [wipe?.left ?? null, wipe?.right ?? null]
  const wholePx = size && box.current ? pixelsOf(box.current).width : undefined
  const row = useMemo(() => {
    const halves = wholePx === undefined ? [] : [left, right].filter((half) => half !== null)
    return { sets: halves.map((half) => half.sitting), looks: halves.map(() => look) }
  }, [left, right, look, wholePx])
  const cells = useDrawn(row.sets, units, { looks: row.looks, wholePx: wholePx ?? 0 })
  if (!wipe) return null
  const cellOf = (half: Beside): Cell | null => (half ? (cells[row.sets.indexOf(half.sitting)] ?? null) : null)
  const halves = [
    { side: 'left', half: left },
    { side: 'right', half: right },
  ] as const
  const names = { left: nameOf(left, sitting), right: nameOf(right, sitting) }
  const isDue = (of: (cell: Cell | null) => boolean) => halves.find(({ half }) => half && of(cellOf(half)))?.half?.name
  const undrawn = isDue((cell) => !cell?.bitmap)
  const unfinished = isDue((cell) => !cell?.finished)
  return (
    <div className="wipe" ref={box} style={{ ['--at' as string]: `${wipe.at}%` }}>
      {halves.map(({ side, half }) => half && <Still key={side} side={side} bitmap={cellOf(half)?.bitmap ?? null} />)}
      <Divider
        at={wipe.at}
        named={`${names.left} on the left, ${names.right} on the right`}
        onMove={(at) => setSession({ wipe: { ...wipe, at } })}
      />
      <Sides
        names={namesFor(sitting, wipe)}
        {...names}
        state={fault ?? (undrawn ? `drawing ${undrawn}` : unfinished ? `finishing ${unfinished}` : null)}
        onChoose={(side, name) => setSession({ wipe: { ...wipe, ...chosen(wipe, side, name) } })}
      />
    </div>
  )
}

/** Over its half of the picture; until it is drawn, the picture of the set in hand is not to be taken for it. */
function Still({ side, bitmap }: { side: 'left' | 'right'; bitmap: ImageBitmap | null }) {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    if (!canvas.current || !bitmap) return
    canvas.current.width = bitmap.width
    canvas.current.height = bitmap.height
    canvas.current.getContext('2d')?.drawImage(bitmap, 0, 0)
  }, [bitmap])
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a bare canvas takes no focus
  return <canvas ref={canvas} className={side} data-drawn={bitmap !== null || undefined} aria-hidden="true" />
}

/** Percent of the picture's width a key; with Shift ten times that. */
const KEYS: Readonly<Record<string, number>> = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }

interface DividerProps {
  readonly at: number
  readonly named: string
  onMove(at: number): void
}

/** It follows the pointer wherever the picture is pressed, and the arrow keys; Escape ends the comparison. */
function Divider({ at, named, onMove }: DividerProps) {
  const held = useRef(false)
  const put = (percent: number) => onMove(Math.min(100, Math.max(0, percent)))
  const follow = (event: PointerEvent<HTMLDivElement>) => {
    const box = event.currentTarget.getBoundingClientRect()
    if (held.current) put(((event.clientX - box.left) / box.width) * 100)
  }
  const key = (event: KeyboardEvent) => {
    if (event.key === 'Escape') endWipe()
    const ends: Readonly<Record<string, number>> = { Home: 0, End: 100 }
    const way = KEYS[event.key]
    const to = ends[event.key] ?? (way === undefined ? undefined : at + way * (event.shiftKey ? 10 : 1))
    if (to === undefined) return
    event.preventDefault()
    put(to)
  }
  return (
    <div
      className="divider"
      role="slider"
      tabIndex={0}
      aria-label="divider between two sets"
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={Math.round(at)}
      aria-valuetext={`${named}, parted at ${Math.round(at)} %`}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId)
        // A finger gives no focus, and Escape would not end it.
        event.currentTarget.focus()
        held.current = true
        follow(event)
      }}
      onPointerMove={follow}
      onPointerUp={() => {
        held.current = false
      }}
      onPointerCancel={() => {
        held.current = false
      }}
      onKeyDown={key}
    >
      <i />
    </div>
  )
}
