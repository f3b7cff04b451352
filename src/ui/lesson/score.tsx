import { useEffect, useRef } from 'react'
import { grade } from '../../lesson'
import { type Asked, noteDone, noteMissed } from './lesson-store'
import { isJudgeable } from './prose'
import { onePress } from './question'
import type { States } from './use-states'

interface Scored {
  readonly right: number
  readonly count: number
  /** All are answered, and too few are right. */
  readonly missed: boolean
  readonly done: boolean
}

/** How many of the questions are right so far, against the pass mark; null: none is in, or not all can be judged yet. */
export function scoreOf(
  asked: readonly Asked[],
  pass: number,
  given: Readonly<Record<string, number>>,
  states: States,
): Scored | null {
  if (!asked.every(({ question }) => isJudgeable(question.answer, states))) return null
  const graded = asked.flatMap(({ key, question }) => {
    const answer = given[key]
    if (answer === undefined) return []
    return grade(question.answer, answer, (set) => (set === undefined ? null : states.readingsOf(set))) ?? []
  })
  if (graded.length === 0) return null
  const right = graded.filter((each) => each.right).length
  const done = graded.length === asked.length
  return { right, count: graded.length, done, missed: done && right < pass }
}

interface ScoreProps {
  readonly step: number
  readonly asked: readonly Asked[]
  readonly pass: number
  readonly score: Scored
  onAgain(): void
  /** null: no step before it explains. */
  readonly onWhy: (() => void) | null
  /** null: it is the last step. */
  readonly onOn: (() => void) | null
}

/** The score; where it is missed, the ways to mend that, which come before the one that goes on. */
export function Score({ step, asked, pass, score: { right, count, done, missed }, onAgain, onWhy, onOn }: ScoreProps) {
  useEffect(() => {
    if (done) noteMissed(step, missed)
    if (done && !missed) noteDone()
  }, [step, done, missed])
  const again = useRef<HTMLButtonElement>(null)
  // Whoever has just answered the last goes on from here; a focus that stands elsewhere stays.
  useEffect(() => {
    const focused = document.activeElement
    if (missed && (focused === document.body || focused?.matches('.question'))) again.current?.focus()
  }, [missed])
  const needed = pass === asked.length ? `all ${pass}` : `${pass}`
  return (
    <div className="verdict">
      {asked.length > 1 && (
        <p role="status">
          {done && <b>{missed ? 'Not passed: ' : 'Passed: '}</b>}
          {`${right} of ${count} right`}
          {missed && `, and ${needed} are needed`}
          {!done &&
            count - right > asked.length - pass &&
            ': too few for this round, which can be tried again at its end'}
          .
        </p>
      )}
      {missed && (
        <p className="ways">
          <button ref={again} type="button" className="word under lock" onKeyDown={onePress} onClick={onAgain}>
            try again
          </button>
          {onWhy && (
            <button type="button" className="word under" onClick={onWhy}>
              see why
            </button>
          )}
          {onOn && (
            <button type="button" className="word under" onClick={onOn}>
              go on all the same
            </button>
          )}
        </p>
      )}
    </div>
  )
}
