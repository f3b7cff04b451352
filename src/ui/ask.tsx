import { useState } from 'react'
import { ASKED_FOR, applyEdits, goalFrom, type Way } from '../readings'
import { useDerived } from './derived'
import { currentSitting, edit, setSession, useSession } from './store'

/** No goal: a thousand places of the backdrop, metered. */
const GRID = 'grid'
const isGrid = (words: string): boolean => words.trim().toLowerCase() === GRID

/** Asks the solver in words: 'f/8', '3:1', 'white', …; the answer's edits are applied as one step. */
export function Ask() {
  const [typed, setTyped] = useState('')
  const [fault, setFault] = useState<string | null>(null)
  const ask = (words: string) => {
    const goal = isGrid(words) ? ({ kind: 'grid' } as const) : goalFrom(words, currentSitting())
    setFault(typeof goal === 'string' ? goal : null)
    setSession({ asked: typeof goal === 'string' ? null : { words, goal } })
  }
  return (
    <div className="ask">
      <form
        onSubmit={(event) => {
          event.preventDefault()
          ask(typed)
        }}
      >
        <input
          className="field"
          aria-label="ask for"
          aria-invalid={fault !== null}
          autoComplete="off"
          spellCheck={false}
          placeholder="f/8, please"
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
        <button type="submit" className="word under">
          ask
        </button>
      </form>
      <p className="asked-for">
        {[...ASKED_FOR, GRID].map((words) => (
          <button
            key={words}
            type="button"
            className="word under"
            onClick={() => {
              setTyped(words)
              ask(words)
            }}
          >
            {words}
          </button>
        ))}
      </p>
      {fault && (
        <p className="fault" role="alert">
          {fault}.
        </p>
      )}
      <Answered />
    </div>
  )
}

/** An answer is of one question and one set: the next edit takes the question back. */
function Answered() {
  const asked = useSession((session) => session.asked)
  const solved = useDerived((derived) => derived.solved)
  if (!asked) return null
  if (solved?.asked !== asked) return <p role="status">Looking for it.</p>
  if (typeof solved.answer === 'string') return <p role="alert">{solved.answer}</p>
  const { way, sentence, others } = solved.answer
  const apply = ({ words, edits }: Way) => edit(`${asked.words}: ${words}`, (sitting) => applyEdits(sitting, edits))
  return (
    <div role="status">
      <p>{sentence[0]!.toUpperCase() + sentence.slice(1)}</p>
      <p className="asked-for">
        {way && (
          <button type="button" className="word under" onClick={() => apply(way)}>
            apply
          </button>
        )}
        {others.map((other) => (
          <button key={other.words} type="button" className="word under" onClick={() => apply(other)}>
            {other.words}
          </button>
        ))}
        <button type="button" className="word under" onClick={() => setSession({ asked: null })}>
          close
        </button>
      </p>
    </div>
  )
}
