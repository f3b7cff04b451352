import { useState } from 'react'
import { ASKED_FOR, applyEdits, goalFrom, type Way } from '../readings'
import { useDerived } from './derived'
import { currentSitting, edit, setSession, useSession } from './store'

/** Asks the solver in words: 'f/8', '3:1', 'white', …; the answer's edits are applied as one step. */
export function Ask() {
  const [typed, setTyped] = useState('')
  const [fault, setFault] = useState<string | null>(null)
  const ask = (words: string) => {
    const goal = goalFrom(words, currentSitting())
    setFault(typeof goal === 'string' ? goal : null)
    setSession({ asked: typeof goal === 'string' ? null : goal })
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
        {ASKED_FOR.map((words) => (
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
      <Answered asked={typed} />
    </div>
  )
}

/** A stale answer is not shown: it is of another question, or of a set that was changed since. */
function Answered({ asked }: { asked: string }) {
  const goal = useSession((session) => session.asked)
  const solved = useDerived((derived) => derived.solved)
  if (!goal) return null
  if (!solved || JSON.stringify(solved.goal) !== JSON.stringify(goal)) return <p role="status">Looking for it.</p>
  const { way, sentence, others } = solved.answer
  const apply = ({ words, edits }: Way) =>
    edit(`${asked || 'asked for'}: ${words}`, (sitting) => applyEdits(sitting, edits))
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
