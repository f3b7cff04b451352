import { useState } from 'react'
import { askedWords, type Condition, type Lesson, sittingOf, type TryStep } from '../../lesson'
import type { Reading } from '../../readings'
import { openSitting, setSession } from '../store'
import { setLesson } from './lesson-store'
import type { States } from './use-states'

/** A formula, on demand. */
export function Formula({ text }: { text: string }) {
  const [open, setOpen] = useState(false)
  return (
    <div className="formula">
      <button type="button" className="word under" aria-expanded={open} onClick={() => setOpen(!open)}>
        formula
      </button>
      {open && <p>{text}</p>}
    </div>
  )
}

/** 'edge of the nose shadow: 24 to 30 mm', by the readings of any set that has it. */
export const goalWords = (condition: Condition, readings: readonly Reading[] | null): string => {
  const reading = readings?.find(({ id }) => id === condition.reading)
  const like = condition.minus === undefined ? '' : `, against “${condition.minus}”`
  return `${condition.says ?? condition.reading}${like}: ${askedWords(condition, reading)}`
}

/** Puts the set that a goal begins with on the working surface. */
export function beginGoal(lesson: Lesson, step: TryStep): void {
  const from = step.from === undefined ? null : sittingOf(lesson, step.from)
  if (from) openSitting(from, `${lesson.title}: ${step.from}`)
  setLesson({ tries: 0, judged: null })
  setSession({ teaching: 'trying', without: step.without ?? [] })
}

/** What a goal asks for, and the way to the working surface. */
export function Goal({ lesson, step, states }: { lesson: Lesson; step: TryStep; states: States }) {
  const readings =
    (step.way !== undefined && states.readingsOf(step.way)) ||
    (step.from !== undefined && states.readingsOf(step.from)) ||
    null
  return (
    <div className="goal">
      <ul>
        {step.goal!.map((condition) => (
          <li key={`${condition.reading} ${condition.minus}`}>{goalWords(condition, readings)}</li>
        ))}
      </ul>
      {step.tries !== undefined && <p>{`You have it judged ${step.tries} times at most.`}</p>}
      <button type="button" className="word under lock" onClick={() => beginGoal(lesson, step)}>
        begin on the working surface
      </button>
    </div>
  )
}
