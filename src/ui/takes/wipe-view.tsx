import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef, useState } from 'react'
import type { Look } from '../../rig'
import { type Cell, finenessOf, useContact } from '../contact/contact-desk'
import { useDrawn } from '../contact/use-drawn'
import type { PictureDetail } from '../picture/desk'
import { TARGET } from '../picture/timing'
import { pixelsOf } from '../picture/use-picture-desk'
import { useSize } from '../picture/use-size'
import type { Beside } from '../session-types'
import { setSession, useSession, useSitting } from '../store'
import { type FirstPicture, firstPicture, thumbOf, WHOLE } from './first-picture'
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
  const seen = useLookInSight(look)
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
  const names = { left: nameOf(left, sitting, wipe.inHand), right: nameOf(right, sitting, wipe.inHand) }
  const due = halves.flatMap(({ half }) => (half ? (stateOf(half.name, cellOf(half)) ?? []) : []))
  return (
    <div className="wipe" ref={box} style={{ ['--at' as string]: `${wipe.at}%` }}>
      {halves.map(({ side, half }) =>
        half ? (
          <Still key={side} side={side} half={half} look={look} cell={cellOf(half)} />
        ) : (
          seen !== look && <NowStill key={side} side={side} look={look} />
        ),
      )}
      <Divider
        at={wipe.at}
        named={`${names.left} on the left, ${names.right} on the right`}
        onMove={(at) => setSession({ wipe: { ...wipe, at } })}
      />
      <Sides
        names={namesFor(sitting, wipe)}
        {...names}
        state={fault ?? (due.join('; ') || null)}
        onChoose={(side, name) => setSession({ wipe: { ...wipe, ...chosen(wipe, side, name) } })}
      />
    </div>
  )
}

/** What of a half is still to come, in words; null: nothing. */
function stateOf(name: string, cell: Cell | null): string | null {
  if (cell?.finished) return null
  return cell?.bitmap ? `finishing ${name}, ${cell.samples} of ${TARGET} samples` : `drawing ${name}`
}

interface StillProps {
  readonly side: 'left' | 'right'
  readonly half: NonNullable<Beside>
  readonly look: Look
  readonly cell: Cell | null
}

/**
 * Over its half of the picture. Until it is drawn, what was last seen of that very set stands there; else it is plain, as the picture of
 * the set in hand is not to be taken for it.
 */
function Still({ side, half, look, cell }: StillProps) {
  const canvas = useRef<HTMLCanvasElement>(null)
  const first = useMemo(() => firstPicture(half, look), [half, look])
  const thumb = useMemo(() => (look === 'camera' ? thumbOf(half) : null), [half, look])
  const isFirst = first !== null && !cell?.finished && first.fineness > (cell ? finenessOf(cell) : 0)
  const shown = isFirst ? first : (cell?.bitmap ?? null)
  useEffect(() => {
    if (canvas.current && shown) put(canvas.current, shown)
  }, [shown])
  const isDrawn = shown !== null || thumb !== null
  const style = thumb === null ? undefined : { background: `0 0 / 100% 100% url(${thumb})` }
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a bare canvas takes no focus
    <canvas ref={canvas} className={side} data-drawn={isDrawn || undefined} style={style} aria-hidden="true" />
  )
}

/** Over the half of the set in hand, after another look was chosen: its picture still is of the one before. */
function NowStill({ side, look }: { side: 'left' | 'right'; look: Look }) {
  const sitting = useSitting()
  const half = useMemo(() => ({ name: nameOf(null, sitting), sitting }), [sitting])
  const isThere = useMemo(() => firstPicture(half, look) !== null, [half, look])
  return isThere && <Still side={side} half={half} look={look} cell={null} />
}

/** Of the picture of the set in hand: what it shows. first: until there is another. */
function useLookInSight(first: Look): Look {
  const [look, setLook] = useState(first)
  useEffect(() => {
    const pictured = (event: Event) => setLook((event as CustomEvent<PictureDetail>).detail.look)
    document.addEventListener('picture', pictured)
    return () => document.removeEventListener('picture', pictured)
  }, [])
  return look
}

function put(canvas: HTMLCanvasElement, shown: FirstPicture | ImageBitmap): void {
  const { image, part } = 'part' in shown ? shown : { image: shown, part: WHOLE }
  // One that was closed has no size.
  if (image.width === 0) return
  canvas.width = image.width
  canvas.height = image.height
  const [left, top] = [part.x * image.width, part.y * image.height]
  const context = canvas.getContext('2d')
  context?.setTransform(1 / part.share, 0, 0, 1 / part.share, -left / part.share, -top / part.share)
  context?.drawImage(image, 0, 0)
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
