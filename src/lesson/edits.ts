import { EditRefused, type Sitting } from '../sitting'
import { problemsOfLesson } from './read'
import { changesBetween } from './sets'
import type { Lesson, LessonSet, Step, StepKind } from './types'

/** Edits: pure functions (lesson, …) → a new lesson. Each throws EditRefused for what no lesson file may hold. */

export const newLesson = (start: Sitting, title: string): Lesson => ({
  format: 'halfshade.lesson',
  version: 1,
  title,
  note: '',
  start,
  sets: [{ name: 'start', changes: {} }],
  steps: [],
})

function checked(lesson: Lesson): Lesson {
  const [problem] = problemsOfLesson(lesson)
  if (problem) throw new EditRefused(problem)
  return lesson
}

/** Without a question it has none: an empty one is taken out. */
export function retitleLesson(lesson: Lesson, change: Partial<Pick<Lesson, 'title' | 'note' | 'answers'>>): Lesson {
  const { answers, ...rest } = { ...lesson, ...change }
  return answers?.trim() ? { ...rest, answers } : rest
}

/** The sitting as it stands becomes a state; one of that name is made anew. */
export function keepSet(lesson: Lesson, name: string, sitting: Sitting): Lesson {
  if (name.trim() === '')
    throw new EditRefused({
      rule: 'L2',
      path: 'sets',
      expected: 'a name',
      got: 'nothing',
      advice: 'Type what this state is, such as "box, near".',
    })
  const kept: LessonSet = { name, changes: changesBetween(lesson.start, sitting) }
  const isNew = lesson.sets.every((set) => set.name !== name)
  const sets = isNew
    ? [...lesson.sets, kept]
    : lesson.sets.map((set) => (set.name === name ? { ...set, ...kept } : set))
  return checked({ ...lesson, sets })
}

/** Refused while a step shows it. */
export const dropSet = (lesson: Lesson, name: string): Lesson =>
  checked({ ...lesson, sets: lesson.sets.filter((set) => set.name !== name) })

/** A step of a kind, as it begins: it shows the last state; a prediction hides it. reading: id of what is asked for; says: what it is called. */
export function addStep(lesson: Lesson, kind: StepKind, reading: string, says = 'reading'): Lesson {
  const last = lesson.sets.at(-1)!.name
  const of = { set: last, reading }
  const shows = { text: '', sets: lesson.sets.slice(-2).map(({ name }) => name) }
  const begun: Readonly<Record<StepKind, () => Step>> = {
    predict: () => ({ kind: 'predict', ...shows, hides: [last], answer: { kind: 'number', of, within: 0.3 } }),
    see: () => ({ kind: 'see', ...shows }),
    measure: () => ({ kind: 'measure', ...shows, readings: [{ says, reading }] }),
    explain: () => ({ kind: 'explain', text: '', sets: [] }),
    try: () => ({ kind: 'try', text: '', from: lesson.sets[0]!.name, goal: [{ reading, from: 0 }] }),
  }
  return checked({ ...lesson, steps: [...lesson.steps, begun[kind]()] })
}

export const changeStep = (lesson: Lesson, index: number, change: Readonly<Record<string, unknown>>): Lesson =>
  checked({
    ...lesson,
    steps: lesson.steps.map((step, i) => (i === index ? ({ ...step, ...change } as Step) : step)),
  })

export const dropStep = (lesson: Lesson, index: number): Lesson => ({
  ...lesson,
  steps: lesson.steps.filter((_, i) => i !== index),
})

/** To before the one in front of it (−1) or after the one behind it (1); at an end nothing changes. */
export function moveStep(lesson: Lesson, index: number, by: -1 | 1): Lesson {
  const [step, other] = [lesson.steps[index], lesson.steps[index + by]]
  if (!step || !other) return lesson
  const steps = lesson.steps.map((each, i) => (i === index ? other : i === index + by ? step : each))
  return { ...lesson, steps }
}
