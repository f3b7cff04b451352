import { grade } from '../../lesson'
import { type Asked, useLesson } from './lesson-store'
import { isJudgeable } from './prose'
import type { States } from './use-states'

interface ScoreProps {
  readonly asked: readonly Asked[]
  readonly pass: number
  readonly states: States
  onAgain(): void
  /** null: no step before it explains. */
  readonly onWhy: (() => void) | null
}

/** How many of the questions are right so far, against the pass mark; where it is missed, the ways to mend that. */
export function Score({ asked, pass, states, onAgain, onWhy }: ScoreProps) {
  const given = useLesson((state) => state.given)
  if (!asked.every(({ question }) => isJudgeable(question.answer, states))) return null
  const graded = asked.flatMap(({ key, question }) => {
    const answer = given[key]
    if (answer === undefined) return []
    return grade(question.answer, answer, (set) => (set === undefined ? null : states.readingsOf(set))) ?? []
  })
  if (graded.length === 0) return null
  const right = graded.filter((each) => each.right).length
  const done = graded.length === asked.length
  const missed = done && right < pass
  const end = missed ? `it takes ${pass} to pass` : 'passed'
  return (
    <div className="verdict">
      {asked.length > 1 && (
        <p role="status">
          {`${right} of ${graded.length} right`}
          {done ? `: ${end}.` : '.'}
        </p>
      )}
      {missed && (
        <p className="ways">
          <button type="button" className="word under" onClick={onAgain}>
            try again
          </button>
          {onWhy && (
            <button type="button" className="word under" onClick={onWhy}>
              see why
            </button>
          )}
        </p>
      )}
    </div>
  )
}
