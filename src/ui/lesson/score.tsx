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
  /** Key of the question whose answer made them too few for this round; null: they are not. */
  readonly spoilt: string | null
  /** Which were not right, counted from 1 as they are asked. */
  readonly wrong: readonly number[]
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
    const found = grade(question.answer, answer, (set) => (set === undefined ? null : states.readingsOf(set)))
    return found ? [{ key, right: found.right }] : []
  })
  if (graded.length === 0) return null
  const right = graded.filter((each) => each.right).length
  const done = graded.length === asked.length
  const wrong = graded.filter((each) => !each.right)
  const spoilt = wrong[asked.length - pass]?.key ?? null
  const numbers = wrong.map(({ key }) => asked.findIndex((each) => each.key === key) + 1)
  return { right, count: graded.length, done, missed: done && right < pass, spoilt, wrong: numbers }
}

interface ScoreProps {
  readonly step: number
  readonly asked: readonly Asked[]
  readonly pass: number
  readonly score: Scored
  /** Key of the question that is shown. */
  readonly current: string
  onAgain(): void
  /** null: no step before it explains. */
  readonly onWhy: (() => void) | null
  /** null: it is the last step. */
  readonly onOn: (() => void) | null
}

/** The score; where it is missed, the ways to mend that, which come before the one that goes on. */
export function Score({
  step,
  asked,
  pass,
  score: { right, count, done, missed, spoilt, wrong },
  current,
  onAgain,
  onWhy,
  onOn,
}: ScoreProps) {
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
  const isLost = !done && spoilt === current
  const needed = pass === asked.length ? `all ${pass}` : `${pass}`
  return (
    <div className="verdict">
      {asked.length > 1 && (
        <p role="status">
          {done && <b>{missed ? 'Not passed: ' : 'Passed: '}</b>}
          {`${right} of ${count} right`}
          {missed &&
            `, ${wrong.length === 1 ? 'question' : 'questions'} ${wrong.join(', ')} not, and ${needed} are needed`}
          {/* Once, with the answer that made it so. */}
          {isLost && ': too few for this round'}.
        </p>
      )}
      {isLost && (
        <p className="ways">
          <button type="button" className="word under" onKeyDown={onePress} onClick={onAgain}>
            begin the round again
          </button>
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
