import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react'
import type { Sitting } from '../../sitting'
import { useDerived } from '../derived'
import { type PictureDetail, pictureDesk } from '../picture/desk'
import { currentSitting, setSession, useSession, useSitting, type Wipe as WipeState } from '../store'
import { stillKey, useTakePictures } from './pictures'
import { usePlateOf } from './plates'
import { Sides } from './sides'
import { shows } from './take'
import { endWaiting, endWipe, rightOf, startWipe, waitFor } from './wipe'

/** Another take on one side; the one that stands on the other side already changes places with it. */
function choose(wipe: WipeState, side: 'first' | 'second', name: string): void {
  const { takes } = currentSitting()
  const names = { first: wipe.first, second: wipe.second, [side]: name }
  if (names.first === names.second) names[side === 'first' ? 'second' : 'first'] = wipe[side]
  const [first, second] = [names.first, names.second].map((one) => takes.find((take) => take.name === one))
  if (!first || !second) return
  // What stands on the right stays there, changed or not, while the left is chosen.
  if (side === 'first' && name !== wipe.second) {
    setSession({ wipe: { ...wipe, first: name } })
    if (wipe.waiting) waitFor(first, wipe.waiting)
  } else startWipe(first, second)
}

/** Two takes in one frame: a still of the first left of a divider, the set as it now stands right of it; in each view. */
export function Wipe() {
  const wipe = useSession((session) => session.wipe)
  const look = useSession((session) => session.look)
  const sitting = useSitting()
  const first = sitting.takes.find(({ name }) => name === wipe?.first)
  const second = sitting.takes.find(({ name }) => name === wipe?.second)
  const still = useTakePictures(({ stills }) => (first ? stills.get(stillKey(first, look)) : undefined))
  const canvas = useRef<HTMLCanvasElement>(null)
  const waiting = wipe?.waiting
  // Judged, the two are told apart in stops as well: then the first is shown until its light is counted out, too.
  const judging = useSession((session) => session.judging !== null)
  const counted = usePlateOf(first, look) !== undefined || !judging
  const isKnown = still !== undefined && still.samples >= (wipe?.least ?? 0) && counted
  useEffect(() => {
    if (!first || waiting === undefined) return
    if (waiting && isKnown) endWaiting(waiting)
    // Another view, of which there is no still yet.
    if (!waiting && !isKnown) waitFor(first, currentSitting())
  }, [waiting, isKnown, first])
  useEffect(() => {
    if (!canvas.current || !still) return
    canvas.current.width = still.canvas.width
    canvas.current.height = still.canvas.height
    canvas.current.getContext('2d')?.drawImage(still.canvas, 0, 0)
  }, [still])
  const pictured = usePictured()
  const samples = useDerived(({ picture }) => ('samples' in picture ? picture.samples : 0))
  if (!wipe || !first || !second) return null
  const right = wipe.waiting ? second.name : rightOf(sitting, second)
  const isSecondDue = still !== undefined && shows(sitting, second) && !(pictured && shows(pictured, second))
  const share = still && !isSecondDue && samples > 0 ? still.samples / samples : 1
  const behind = share < SAME_FINISH ? Math.max(1, Math.round(100 * share)) : null
  return (
    <div className="wipe" style={{ ['--at' as string]: `${wipe.at}%` }}>
      {still && (
        <>
          {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a bare canvas takes no focus */}
          <canvas ref={canvas} aria-hidden="true" />
          <Divider
            at={wipe.at}
            named={`${first.name} on the left, ${right} on the right`}
            onMove={(at) => setSession({ wipe: { ...wipe, at } })}
          />
        </>
      )}
      <Sides
        names={sitting.takes.map(({ name }) => name)}
        left={first.name}
        right={right}
        drawing={!still || wipe.waiting ? first.name : isSecondDue ? second.name : null}
        behind={behind}
        onDrawOn={() => waitFor(first, currentSitting(), samples)}
        onChoose={(side, name) => choose(wipe, side, name)}
      />
    </div>
  )
}

/** From this share of the other side's samples on nobody sees that one side is the grainier: their errors are 1 to 1.1. */
const SAME_FINISH = 0.8

/** The sitting whose picture came in last; null: none yet. */
function usePictured(): Sitting | null {
  const [pictured, setPictured] = useState(pictureDesk.inSight)
  useEffect(() => {
    const take = (event: Event) => setPictured((event as CustomEvent<PictureDetail>).detail.sitting)
    document.addEventListener('picture', take)
    return () => document.removeEventListener('picture', take)
  }, [])
  return pictured
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
      aria-label="divider between two takes"
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
