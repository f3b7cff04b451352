import { useMemo } from 'react'
import {
  type Condition,
  type Lesson,
  type LessonLook,
  placeholdersIn,
  type Question,
  type Shown,
  type Step,
  sittingOf,
} from '../../lesson'
import type { EdgeRays, Reading } from '../../readings'
import type { Sitting } from '../../sitting'
import { type Cell, useContact } from '../contact/contact-desk'
import { useDrawn } from '../contact/use-drawn'

/** Sittings of a lesson by their states, each made once so that it keeps its identity. */
const made = new WeakMap<Lesson, Map<string, Sitting>>()

function stateOf(lesson: Lesson, name: string): Sitting {
  const states = made.get(lesson) ?? new Map<string, Sitting>()
  made.set(lesson, states)
  const sitting = states.get(name) ?? sittingOf(lesson, name)!
  states.set(name, sitting)
  return sitting
}

const ofConditions = (conditions: readonly Condition[] | undefined): readonly string[] =>
  (conditions ?? []).flatMap(({ set, minus }) => [set, minus].filter((name) => name !== undefined))
/** States whose numbers a text holds. */
export const ofText = (text: string): readonly string[] => placeholdersIn(text).good.flatMap(({ sets }) => sets)

/** States that rows of a table are told by. */
const ofRows = (rows: readonly Shown[] = []): readonly string[] => rows.flatMap(({ times }) => times ?? [])

function ofQuestion({ text, answer, readings, hint = '', why = '' }: Question): readonly string[] {
  const words = [...ofText(text), ...ofText(`${hint} ${why}`), ...ofRows(readings)]
  if (answer.kind !== 'choice') return [...words, ...ofConditions([answer.of])]
  return [
    ...words,
    ...answer.choices.flatMap(({ words, why = '', holds }) => [...ofText(`${words} ${why}`), ...ofConditions(holds)]),
  ]
}

/** States whose numbers a step needs beside those that it shows. */
export function readFor(step: Step): readonly string[] {
  if (step.kind === 'predict') return ofQuestion(step)
  if (step.kind === 'try')
    return [
      ...ofText(step.text),
      ...ofText(`${step.hint ?? ''} ${step.why ?? ''}`),
      ...ofConditions(step.goal),
      ...(step.goal && step.from !== undefined ? [step.from] : []),
      ...(step.questions ?? []).flatMap(ofQuestion),
    ]
  const asked = step.kind === 'measure' && step.answer ? ofQuestion({ ...step, answer: step.answer, hides: [] }) : []
  return [...asked, ...ofText(step.text), ...ofRows(step.readings), ...ofConditions(step.claims)]
}

export interface States {
  /** Readings of a state, as far as they are there; null: not yet. */
  readingsOf(set: string): readonly Reading[] | null
  /** The state itself. */
  sittingOf(set: string): Sitting
  /** Its light is read to the end: no number of it moves any more. */
  settledOf(set: string): boolean
  /** What makes the edge of a state's nose shadow; null: there is none, or not yet. */
  raysOf(set: string): EdgeRays | null
  /** The picture of a state in a look. */
  cellOf(set: string, look: LessonLook): Cell | null
  /** All that was asked for is read to the end. */
  readonly settled: boolean
  /** All pictures that were asked for have all their samples. */
  readonly finished: boolean
  readonly fault: string | null
}

/** Has states drawn in these looks, and others read alone, for as long as they are shown. */
export function useStates(
  lesson: Lesson,
  shown: readonly string[],
  looks: readonly LessonLook[],
  read: readonly string[],
): States {
  const alone = read.filter((name, i) => !shown.includes(name) && read.indexOf(name) === i)
  const asked = [...shown.flatMap((set) => looks.map((look) => `${look} ${set}`)), ...alone.map((set) => `- ${set}`)]
  const key = asked.join('\n')
  const row = useMemo(() => {
    const entries = key === '' ? [] : key.split('\n').map((each) => /^(\S+) (.*)$/.exec(each)!)
    return {
      names: entries.map(([, , name]) => name!),
      looks: entries.map(([, look]) => (look === '-' ? null : (look as LessonLook))),
      sittings: entries.map(([, , name]) => stateOf(lesson, name!)),
    }
  }, [key, lesson])
  const cells = useDrawn(row.sittings, 'metres', { looks: row.looks, isQuick: true })
  const fault = useContact((state) => state.fault)
  const at = (set: string, look: LessonLook | null) => {
    const index = row.names.findIndex((name, i) => name === set && (look === null || row.looks[i] === look))
    return cells[index] ?? null
  }
  return {
    readingsOf: (set) => at(set, null)?.readings ?? null,
    sittingOf: (set) => stateOf(lesson, set),
    settledOf: (set) => at(set, null)?.settled ?? false,
    raysOf: (set) => at(set, null)?.rays ?? null,
    cellOf: (set, look) => at(set, look),
    settled: cells.length > 0 && cells.every((cell) => cell.settled),
    finished: cells.length > 0 && cells.every((cell, i) => cell.finished || row.looks[i] === null),
    fault,
  }
}
