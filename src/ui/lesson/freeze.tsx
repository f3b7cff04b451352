import { type KeyboardEvent, useState } from 'react'
import type { LessonLook } from '../../lesson'
import { Print } from '../contact/print'
import { MARK_MM } from '../looks/edge-span'
import { Key, SpanKey, SpanMarks } from '../looks/span-marks'
import { isCropped, lookWords } from './look-words'
import { SEEN } from './step-pictures'
import type { States } from './use-states'

/** Two pictures that take each other's place: the one that is seen and the one before it, by their names. */
interface Held {
  readonly now: string
  readonly other: string
}

/** Pictures of a step that may be held, of all that it shows; inTime: lets a change be only when the eye has had its time. */
export function useHeld(all: readonly string[], seen: readonly string[], inTime: (change: () => void) => void) {
  const [held, setHeld] = useState<Held | null>(null)
  const now = held && seen.includes(held.now) ? held : null
  const hold = (name: string) => {
    if (!seen.includes(name) || name === now?.now) return
    const next = seen[(seen.indexOf(name) + 1) % seen.length]!
    inTime(() => setHeld({ now: name, other: now?.now ?? next }))
  }
  const cut = () => {
    const name = now ? now.other : seen[0]
    if (name !== undefined) hold(name)
  }
  const letGo = () =>
    inTime(() => {
      // The word that is pressed goes with the picture: keys are heard on by the lesson.
      const focused = document.activeElement
      const lesson = focused?.closest('.freeze') ? focused.closest('section') : null
      setHeld(null)
      lesson?.focus()
    })
  /** While one is held, figures choose another, and no key reaches the question behind it. */
  const keys = (event: KeyboardEvent) => {
    if (!now || event.key === 'Tab') return
    event.stopPropagation()
    const named = all[Number(event.key) - 1]
    if (named !== undefined) hold(named)
  }
  return { held: now, hold, cut, letGo, keys, drop: () => setHeld(null) }
}

interface FreezeProps extends Pick<ReturnType<typeof useHeld>, 'hold' | 'cut' | 'letGo'> {
  readonly held: Held
  readonly all: readonly string[]
  readonly seen: readonly string[]
  readonly looks: readonly LessonLook[]
  /** Whether the width of an edge is told, and the part of it from 10 to 90 % of the light marked. */
  readonly figured: boolean
  readonly inner: boolean
  readonly states: States
}

/** One state, large, held in all its looks; a key cuts to the one before it in the same place, figures to any other. */
export function Freeze({ held, all, seen, looks, figured, inner, states, hold, cut, letGo }: FreezeProps) {
  const figure = (name: string) => all.indexOf(name) + 1
  const isMarked = looks.includes('edge') && (states.cellOf(held.now, 'edge')?.span?.fullMm ?? 0) > MARK_MM
  return (
    <div className="freeze">
      <p role="status">
        <b>{figure(held.now)}</b> {held.now}
        {isMarked && <span className="n">{`, ruler: ${MARK_MM} mm a mark`}</span>}
      </p>
      <div className="held" style={{ ['--count' as string]: looks.length }}>
        {looks.map((look) => (
          <HeldPicture key={look} name={held.now} look={look} figured={figured} inner={inner} states={states} />
        ))}
      </div>
      <p>
        {seen.length > 1 && (
          <button type="button" className="word" onClick={cut}>
            <kbd>F</kbd> show {figure(held.other)} in its place
          </button>
        )}
        {seen.length > 2 &&
          seen.map((name) => (
            <button
              key={name}
              type="button"
              className="word"
              aria-pressed={name === held.now}
              onClick={() => hold(name)}
            >
              <kbd>{figure(name)}</kbd> {name}
            </button>
          ))}
        <button type="button" className="word" onClick={letGo}>
          <kbd>Esc</kbd> back to the step
        </button>
      </p>
    </div>
  )
}

interface HeldPictureProps extends Pick<FreezeProps, 'figured' | 'inner' | 'states'> {
  readonly name: string
  readonly look: LessonLook
}

function HeldPicture({ name, look, figured, inner, states }: HeldPictureProps) {
  const cell = states.cellOf(name, look)
  const aspect = cell?.bitmap ? cell.bitmap.width / cell.bitmap.height : 0
  return (
    <Print
      bitmap={cell?.bitmap ?? null}
      broad={look === 'sees'}
      name={isCropped(look) ? `${name}, ${lookWords(look)}` : name}
    >
      {look === 'sees' && <Key of={SEEN} />}
      {cell?.span && aspect > 0 && (
        <>
          <SpanMarks span={cell.span} aspect={aspect} shown={aspect} figured={figured} inner={inner} />
          <SpanKey span={cell.span} />
        </>
      )}
    </Print>
  )
}
