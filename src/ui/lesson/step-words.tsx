import { useState } from 'react'
import {
  askedWords,
  type Condition,
  isFNumber,
  type Lesson,
  onlyWords,
  type Quantity,
  readingName,
  sittingOf,
  type TryStep,
  turnWords,
  withUnit,
} from '../../lesson'
import type { Reading } from '../../readings'
import { openSitting, setSession } from '../store'
import { putOwnAside, setLesson, useLesson } from './lesson-store'
import { NOTHING, Prose } from './prose'
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

/** A reading as it is told of a state: side by side, left and right or over and under are not told apart by a bare angle. */
export function valueWords({ id, value, text, unit }: Reading): string {
  const [, turn] = /^source\.\w\.(azimuth|elevation)/.exec(id) ?? []
  if (turn && typeof value === 'number') return turnWords(turn === 'azimuth' ? 'round' : 'up', value)
  // What is lost is told under that name: a minus would say so twice.
  if (/^source\.\w\.loss$/.test(id)) return withUnit(text.startsWith('−') ? text.slice(1) : `−${text}`, unit)
  return withUnit(text, unit)
}

/**
 * 'edge of the nose shadow: 24 to 30 mm', by the readings of any set that has it. from: the state that one begins with, told as such;
 * begun: its readings, whose number stands beside it.
 */
export const goalWords = (
  condition: Condition,
  readings: readonly Reading[] | null,
  from: string | undefined,
  begun: readonly Reading[] | null = readings,
): string => {
  const found = (all: readonly Reading[] | null) => all?.find(({ id }) => id === condition.reading)
  const [reading, first] = [found(readings), found(begun)]
  const name = condition.says ?? (reading ? readingName(reading) : condition.reading)
  const asked = askedWords(condition, reading, from)
  return `${name}: ${first ? asked.replace('at the start', `at the start (${valueWords(first)})`) : asked}`
}

/** What a number is typed in: 'mm', 'stops'; of an f-number nothing, as f/ stands before it. */
export function unitOf({ set, reading: id }: Quantity, states: States): string {
  const reading = set === undefined ? undefined : states.readingsOf(set)?.find((each) => each.id === id)
  if (!reading) return ''
  if (isFNumber(reading)) return 'as an f-number'
  return reading.unit === 'stop' ? 'stops' : reading.unit
}

/** Puts the set that a goal begins with on the working surface. */
export function beginGoal(lesson: Lesson, step: TryStep): void {
  const from = step.from === undefined ? null : sittingOf(lesson, step.from)
  putOwnAside()
  // The lesson's own name stands over the goal.
  if (from) openSitting(from, step.from!)
  setLesson({ tries: 0, judged: null })
  const sought = step.goal?.map(({ reading }) => reading) ?? []
  setSession({ teaching: 'trying', without: step.without ?? [], sought, page: 'controls' })
}

/** What a goal asks for, and the way to the working surface. */
export function Goal({ lesson, step, states }: { lesson: Lesson; step: TryStep; states: States }) {
  const readings = step.from === undefined ? null : states.readingsOf(step.from)
  const isMet = useLesson(({ judged }) => judged?.verdicts.every(({ met }) => met) ?? false)
  return (
    <div className="goal">
      <ul>
        {step.goal!.map((condition) => (
          <li key={`${condition.reading} ${condition.minus}`}>{goalWords(condition, readings, step.from)}</li>
        ))}
        {step.only && <li>{onlyWords(step.only, lesson.start.sources)}</li>}
      </ul>
      {isMet && (
        <p role="status">
          Goal met. <Prose text={step.why ?? ''} hidden={NOTHING} states={states} />
        </p>
      )}
      {step.tries !== undefined && <p>{`You have it judged ${step.tries} times at most.`}</p>}
      <p>
        The working surface is the page with picture, plan and controls. Your own sitting is put by and comes back when
        the lessons are closed.
      </p>
      <button type="button" className="word under lock" onClick={() => beginGoal(lesson, step)}>
        begin on the working surface
      </button>
    </div>
  )
}
