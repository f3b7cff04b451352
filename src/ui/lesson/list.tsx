import { type KeyboardEvent, useEffect, useId, useRef, useState } from 'react'
import { Over } from '../contact/over'
import { FilePick } from '../file-pick'
import { readText } from '../read-file'
import { useSession } from '../store'
import { COURSE, type Entry, FAULTS } from './catalogue'
import { closeLessons, setLesson, useLesson } from './lesson-store'
import { openLesson } from './open'
import { TOGETHER_MS, typedNumber } from './typed-number'

const TITLE = 'lessons-title'

const ALL: readonly Entry[] = [...COURSE, ...FAULTS]
const NUMBERS = COURSE.flatMap(({ number }) => number ?? [])
/** So far an arrow goes on. */
const WAYS: Readonly<Record<string, number>> = { ArrowUp: -1, ArrowDown: 1, Home: -ALL.length, End: ALL.length }

/** All lessons, each with the question that it answers. One row is reached by Tab, the others from it by arrows or by number. */
export function List() {
  const fault = useLesson((state) => state.fault)
  const { at, setAt, rows, keys } = useRows()
  const row = (entry: Entry) => {
    const i = ALL.indexOf(entry)
    return (
      <Row
        key={entry.title}
        entry={entry}
        isAt={i === at}
        onFocus={() => setAt(i)}
        toRow={(button) => {
          rows.current[i] = button
        }}
      />
    )
  }
  return (
    <Over titled={TITLE} className="lesson" onKeys={keys} onClose={closeLessons}>
      <header className="contact-head">
        <h2 id={TITLE}>Lessons</h2>
        <p className="whereabouts">Predict, see, measure, explain, try. Your sitting stays as it is.</p>
        <FilePick
          word="open a lesson"
          accept=".json,application/json"
          onFile={(file) => void readText(file, openLesson, (fault) => setLesson({ fault }))}
        />
        <button type="button" className="word" onClick={() => setLesson({ view: 'writing' })}>
          write a lesson
        </button>
        <button type="button" className="word" onClick={closeLessons}>
          close
        </button>
      </header>
      {fault && <p className="said">{fault}</p>}
      <p className="list-keys">
        <kbd>↑</kbd> <kbd>↓</kbd> to another lesson, <kbd>1</kbd> to <kbd>{NUMBERS.length}</kbd> to that one,{' '}
        <kbd>Enter</kbd> open it, <kbd>Esc</kbd> close
      </p>
      <div className="lesson-list">
        <section>
          <h3>The course: each lesson, and the question that it answers</h3>
          <ol>{COURSE.map(row)}</ol>
        </section>
        <section>
          <h3>Faulty sets to diagnose</h3>
          <ol>{FAULTS.map(row)}</ol>
        </section>
      </div>
    </Over>
  )
}

/** The row that keys are at: at first that of the lesson one comes from. */
function useRows() {
  const [at, setAt] = useState(() => {
    const from = useLesson.getState().lesson?.title
    return Math.max(
      0,
      ALL.findIndex(({ title }) => title === from),
    )
  })
  const rows = useRef<(HTMLButtonElement | null)[]>([])
  const typed = useRef({ number: '', ms: 0 })
  const first = useRef(at)
  useEffect(() => rows.current[first.current]?.focus(), [])
  const go = (to: number) => rows.current[Math.min(ALL.length - 1, Math.max(0, to))]?.focus()
  const keys = (event: KeyboardEvent) => {
    const { key, timeStamp, ctrlKey, metaKey, altKey } = event
    if (ctrlKey || metaKey || altKey) return
    const way = WAYS[key]
    if (way !== undefined) go(at + way)
    else if (/^\d$/.test(key)) {
      const before = timeStamp - typed.current.ms < TOGETHER_MS ? typed.current.number : ''
      const number = typedNumber(before, key, NUMBERS)
      typed.current = { number: number ?? '', ms: timeStamp }
      if (number !== null) go(ALL.findIndex((entry) => `${entry.number}` === number))
    }
    // Held down, the Enter that led here does not open a lesson too.
    else if (!(key === 'Enter' && event.repeat)) return
    event.preventDefault()
  }
  return { at, setAt, rows, keys }
}

interface RowProps {
  readonly entry: Entry
  readonly isAt: boolean
  onFocus(): void
  toRow(button: HTMLButtonElement | null): void
}

function Row({ entry: { number, title, answers, open }, isAt, onFocus, toRow }: RowProps) {
  const id = useId()
  const isDone = useSession(({ lessonsDone }) => lessonsDone.includes(title))
  return (
    <li>
      <button
        ref={toRow}
        type="button"
        className="word"
        tabIndex={isAt ? 0 : -1}
        aria-describedby={answers === null ? undefined : id}
        onFocus={onFocus}
        onClick={() => void open()}
      >
        {number !== null && <span className="n">{number}</span>} {title}
        {isDone && <span className="done"> done</span>}
      </button>
      {answers !== null && (
        <p id={id} className="answers">
          <span className="unseen">answers: </span>
          {answers}
        </p>
      )}
    </li>
  )
}
