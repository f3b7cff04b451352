import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react'
import type { Sitting } from '../../sitting'
import { edit, setSession, useSession, useSitting } from '../store'
import { exposureNote } from './exposed'
import { useTakePictures } from './pictures'
import { COMPARED, pictureKey, shows, showTake, type Take } from './take'

/** Shows one of two takes that are compared; a row of such steps is one for undo. */
export const showCompared = (first: Take, second: Take, shown: Take): boolean =>
  edit(`${first.name} | ${second.name}`, (now) => showTake(now, shown.name), COMPARED)

/** Puts the first take left of a divider and the second right of it; the first is shown until there is a still of it. */
export function startWipe(first: Take, second: Take): void {
  const pictured = useTakePictures.getState().stills.has(pictureKey(first))
  showCompared(first, second, pictured ? second : first)
  setSession({ wipe: { first: first.name, second: second.name, waiting: !pictured } })
}

/** Two takes in one frame: a still of the first left of a divider, the set as it now stands right of it. */
export function Wipe() {
  const wipe = useSession((session) => session.wipe)
  const sitting = useSitting()
  const first = sitting.takes.find(({ name }) => name === wipe?.first)
  const second = sitting.takes.find(({ name }) => name === wipe?.second)
  const still = useTakePictures(({ stills }) => (first ? stills.get(pictureKey(first)) : undefined))
  const canvas = useRef<HTMLCanvasElement>(null)
  const [at, setAt] = useState(50)
  const goOn = wipe?.waiting && still !== undefined
  useEffect(() => {
    if (!goOn || !wipe || !first || !second) return
    setSession({ wipe: { ...wipe, waiting: false } })
    showCompared(first, second, second)
  }, [goOn, wipe, first, second])
  useEffect(() => {
    if (!canvas.current || !still) return
    canvas.current.width = still.canvas.width
    canvas.current.height = still.canvas.height
    canvas.current.getContext('2d')?.drawImage(still.canvas, 0, 0)
  }, [still])
  if (!first || !second || !still) return null
  return (
    <div className="wipe" style={{ ['--at' as string]: `${at}%` }}>
      {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a bare canvas takes no focus */}
      <canvas ref={canvas} aria-hidden="true" />
      <Divider at={at} named={`${first.name} on the left, ${rightOf(sitting, second)} on the right`} onMove={setAt} />
    </div>
  )
}

/** Beside the comparison: what of it is exposure and not light. */
export function ExposureNote({ className }: { className: string }) {
  const wipe = useSession((session) => session.wipe)
  const sitting = useSitting()
  const [first, second] = [wipe?.first, wipe?.second].map((name) => sitting.takes.find((take) => take.name === name))
  if (!wipe || !first || !second) return null
  const words = exposureNote(first, { name: rightOf(sitting, second), sitting })
  return words && <p className={className}>{words}</p>
}

const rightOf = (sitting: Sitting, second: Take): string =>
  shows(sitting, second) ? second.name : 'the set as it stands'

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
    if (event.key === 'Escape') setSession({ wipe: null })
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
