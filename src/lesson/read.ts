import {
  type FileKind,
  type Migration,
  migrate,
  type Problem,
  parseText,
  problemsOfSchema,
  readSitting,
  shown,
} from '../sitting'
import { isPart, partsOf } from './parts'
import { placeholdersIn } from './prose'
import { lessonSchema } from './schema'
import { changedSitting } from './sets'
import type { Answer, Condition, Lesson, Question, Shown, Step, TryStep } from './types'

export type LessonResult = { readonly lesson: Lesson } | { readonly problems: readonly Problem[] }

const LESSON: FileKind = { format: 'halfshade.lesson', what: 'lesson', rules: { format: 'L1', newer: 'L5' } }

/** Ordered and without gaps, as those of a sitting. Version 1 is the first, so there is none yet. */
const LESSON_MIGRATIONS: readonly Migration[] = []

/** A lesson from the text of a file or from a parsed value, raised to the current version; or every problem found. Never throws. */
export function readLesson(source: unknown, steps: readonly Migration[] = LESSON_MIGRATIONS): LessonResult {
  const parsed = typeof source === 'string' ? parseText(source, 'L6', 'lesson') : { value: source }
  if ('problem' in parsed) return { problems: [parsed.problem] }
  const raised = migrate(parsed.value, steps, LESSON)
  if ('problem' in raised) return { problems: [raised.problem] }
  const { document: newest } = raised
  const start = readSitting(newest.start)
  if ('problems' in start)
    return { problems: start.problems.map((problem) => ({ ...problem, rule: 'L7', path: inStart(problem.path) })) }
  const whole = { ...newest, start: start.sitting }
  const result = lessonSchema.safeParse(whole)
  if (!result.success) return { problems: problemsOfSchema(result.error, whole, 'L2') }
  const lesson = result.data as unknown as Lesson
  const problems = problemsOfLesson(lesson)
  return problems.length > 0 ? { problems } : { lesson }
}

const inStart = (path: string): string => (path === '' ? 'start' : `start.${path}`)

/** Whether the text of a file says that it is a lesson. */
export const isLesson = (text: string): boolean => /"format"\s*:\s*"halfshade\.lesson"/.test(text)

/** What a schema cannot say. */
export function problemsOfLesson(lesson: Lesson): readonly Problem[] {
  return [
    ...repeatedNames(lesson),
    ...lesson.sets.flatMap(({ changes }, i) => {
      const result = changedSitting(lesson.start, changes, `sets[${i}]`)
      return 'problems' in result ? result.problems : []
    }),
    ...lesson.steps.flatMap((step, i) => problemsOfStep(lesson, step, `steps[${i}]`)),
  ]
}

function repeatedNames({ sets }: Lesson): readonly Problem[] {
  return sets.flatMap(({ name }, i): Problem[] => {
    const first = sets.findIndex((other) => other.name === name)
    if (first === i) return []
    return [
      wrong(
        'L4',
        `sets[${i}].name`,
        'a name that no other state has',
        `${shown(name)}, as in sets[${first}]`,
        'Give one of the two another name.',
      ),
    ]
  })
}

const wrong = (rule: Problem['rule'], path: string, expected: string, got: string, advice: string): Problem => ({
  rule,
  path,
  expected,
  got,
  advice,
})

function problemsOfStep(lesson: Lesson, step: Step, path: string): readonly Problem[] {
  if (step.kind === 'predict') return problemsOfQuestion(lesson, step, path)
  if (step.kind !== 'try')
    return [
      ...prose(lesson, step.text, `${path}.text`),
      ...named(lesson, step.sets, `${path}.sets`),
      ...rows(lesson, step.readings, `${path}.readings`),
      ...conditions(lesson, step.claims, `${path}.claims`),
      ...(step.kind === 'measure' && step.answer
        ? [
            ...problemsOfAnswer(lesson, step.answer, `${path}.answer`),
            ...prose(lesson, step.hint ?? '', `${path}.hint`),
          ]
        : []),
    ]
  const { from, way, goal, questions } = step
  return [
    ...prose(lesson, step.text, `${path}.text`),
    ...prose(lesson, step.hint ?? '', `${path}.hint`),
    ...prose(lesson, step.why ?? '', `${path}.why`),
    ...named(lesson, from === undefined ? [] : [from], `${path}.from`),
    ...named(lesson, way === undefined ? [] : [way], `${path}.way`),
    ...conditions(lesson, goal, `${path}.goal`),
    ...parts(lesson, step, `${path}.only`),
    ...(questions ?? []).flatMap((question, i) => problemsOfQuestion(lesson, question, `${path}.questions[${i}]`)),
    ...(!goal?.length && !questions?.length
      ? [wrong('L8', path, 'a goal or questions', 'neither', 'State a goal in readings, or ask questions.')]
      : []),
  ]
}

function problemsOfQuestion(
  lesson: Lesson,
  { text, sets, readings, hides, answer, hint = '', why = '' }: Question,
  path: string,
): readonly Problem[] {
  return [
    ...prose(lesson, text, `${path}.text`),
    ...prose(lesson, hint, `${path}.hint`),
    ...prose(lesson, why, `${path}.why`),
    ...named(lesson, sets, `${path}.sets`),
    ...rows(lesson, readings, `${path}.readings`),
    ...hides.flatMap((name, i): Problem[] =>
      sets.includes(name)
        ? []
        : [
            wrong(
              'L4',
              `${path}.hides[${i}]`,
              `one of the states that it shows: ${sets.map(shown).join(', ')}`,
              shown(name),
              'Show that state too, or do not hide it.',
            ),
          ],
    ),
    ...problemsOfAnswer(lesson, answer, `${path}.answer`),
  ]
}

function problemsOfAnswer(lesson: Lesson, answer: Answer, path: string): readonly Problem[] {
  if (answer.kind !== 'choice') {
    const { set, minus } = answer.of
    const from =
      set === undefined
        ? [wrong('L4', `${path}.of.set`, 'the name of a state', 'nothing', 'Name the state whose reading is right.')]
        : []
    return [
      ...from,
      ...named(
        lesson,
        [set, minus].filter((name) => name !== undefined),
        `${path}.of`,
      ),
    ]
  }
  const { choices } = answer
  const bare = choices.filter(({ holds }) => holds.length === 0).length
  return [
    ...(choices.length < 2
      ? [wrong('L8', `${path}.choices`, 'at least two choices', String(choices.length), 'Add a choice.')]
      : []),
    ...(bare > 0 && choices.length !== 2
      ? [
          wrong(
            'L8',
            `${path}.choices`,
            'conditions with each choice, as they are not two',
            `${bare} without`,
            'Say in readings when it is right.',
          ),
        ]
      : []),
    ...(bare === choices.length
      ? [
          wrong(
            'L8',
            `${path}.choices`,
            'a choice with conditions',
            'none',
            'Say in readings when one of them is right.',
          ),
        ]
      : []),
    ...choices.flatMap(({ words, holds, why = '' }, i) => [
      ...prose(lesson, words, `${path}.choices[${i}].words`),
      ...prose(lesson, why, `${path}.choices[${i}].why`),
      ...conditions(lesson, holds, `${path}.choices[${i}].holds`),
    ]),
  ]
}

const named = ({ sets }: Lesson, names: readonly string[], path: string): readonly Problem[] =>
  names
    .filter((name) => !sets.some((set) => set.name === name))
    .map((name) =>
      wrong(
        'L4',
        path,
        `the name of a state: ${sets.map((set) => set.name).join(', ') || 'there is none'}`,
        shown(name),
        'Name one of these, or add that state.',
      ),
    )

const rows = (lesson: Lesson, all: readonly Shown[] | undefined, path: string): readonly Problem[] =>
  (all ?? []).flatMap(({ times }, i) => named(lesson, times === undefined ? [] : [times], `${path}[${i}].times`))

function parts({ start }: Lesson, { only = [], from }: TryStep, path: string): readonly Problem[] {
  const bad = only.filter((part) => !isPart(part))
  const where = 'Name the state that the learner begins with.'
  return [
    ...bad.map((part) =>
      wrong('L8', path, `a part of the sitting: ${partsOf(start).join(', ')}`, shown(part), 'Name one of these.'),
    ),
    ...(only.length > 0 && from === undefined ? [wrong('L8', path, 'a state to begin with', 'none', where)] : []),
  ]
}

const conditions = (lesson: Lesson, all: readonly Condition[] | undefined, path: string): readonly Problem[] =>
  (all ?? []).flatMap(({ set, minus, from, to, is }, i) => {
    const at = `${path}[${i}]`
    return [
      ...named(
        lesson,
        [set, minus].filter((name) => name !== undefined),
        at,
      ),
      ...(from === undefined && to === undefined && !is?.length
        ? [wrong('L8', at, 'from, to or is', 'none of them', 'Say what the reading must be.')]
        : []),
      ...(from !== undefined && to !== undefined && from > to
        ? [wrong('L8', at, 'from at most as large as to', `${from} and ${to}`, 'Swap the two.')]
        : []),
    ]
  })

function prose(lesson: Lesson, text: string, path: string): readonly Problem[] {
  const { good, bad } = placeholdersIn(text)
  return [
    ...bad.map((inside) =>
      wrong(
        'L9',
        path,
        'braces that name a state and a reading, such as {dish: edge.A.nose.full}',
        shown(`{${inside}}`),
        'Write it so, or without braces.',
      ),
    ),
    ...good.flatMap(({ sets }) => named(lesson, sets, path)),
  ]
}
