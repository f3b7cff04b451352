import { z } from 'zod'
import { fileJsonSchema, leaves, sittingSchema } from '../sitting'
import { LESSON_LOOKS } from './types'

const { oneOf, quantity, text } = leaves

/** The lesson as a zod schema; it says the same as types.ts. looseObject: unknown keys survive (L3). */

const name = (about: string) => text(about).min(1, { error: 'a name' })
const listOf = <T extends z.ZodType>(entry: T, of: string) => z.array(entry, { error: `a list of ${of}` })

const source = {
  set: name("Name of a state. Left out: the learner's own set.").optional(),
  reading: name('Id of a reading.'),
  minus: name('Of this state the reading is taken off; f-numbers then give stops.').optional(),
}
const quantitySchema = z.looseObject(source).meta({ id: 'Quantity' })

const bound = (about: string) => quantity('', [-1e6, 1e6], about).optional()
const conditionSchema = z
  .looseObject({
    ...source,
    says: text('What it is called before a class.').optional(),
    from: bound("At least, in the reading's unit."),
    to: bound("At most, in the reading's unit."),
    is: listOf(name('A word of the reading; "nothing": it does not exist.'), 'words').optional(),
  })
  .meta({ id: 'Condition' })
const conditions = listOf(conditionSchema, 'conditions')

const within = quantity('', [0, 1000], "How far off still counts as right: the reading's unit, for f-numbers stops.")
const answerSchema = z
  .discriminatedUnion(
    'kind',
    [
      z.looseObject({
        kind: z.literal('choice'),
        choices: listOf(
          z.looseObject({
            words: name('To choose.'),
            holds: conditions,
            why: text('Said of who chose it where it is wrong: the cause.').optional(),
          }),
          'choices',
        ),
      }),
      z.looseObject({
        kind: z.literal('angle'),
        plane: oneOf(['round', 'up'], 'As on the plan, or as on the elevation.'),
        of: quantitySchema,
        within,
      }),
      z.looseObject({ kind: z.literal('number'), of: quantitySchema, within }),
    ],
    { error: 'an answer of kind "choice", "angle" or "number"' },
  )
  .meta({ id: 'Answer' })

const shows = {
  text: text('Before the class. Numbers stand in braces: {state: reading}.'),
  sets: listOf(name('Of a state.'), 'names of states'),
  readings: listOf(
    z.looseObject({
      says: name('Of the row.'),
      reading: name('Id of a reading.'),
      times: name('Of this state it is told how many times as much it is.').optional(),
    }),
    'readings',
  ).optional(),
  looks: listOf(oneOf(LESSON_LOOKS, 'At the sitter; sees: from the cheek.'), 'views').optional(),
}
const hint = text('Said of a wrong answer, or of a goal that is missed: the cause.').optional()
const why = text('Said once it is answered, or once the goal is met: the cause.').optional()
const question = { ...shows, hides: listOf(name('Of a state.'), 'names of states'), answer: answerSchema, hint, why }
const questionSchema = z.looseObject(question).meta({ id: 'Question' })
const claims = conditions.optional()

const stepSchema = z
  .discriminatedUnion(
    'kind',
    [
      z.looseObject({ kind: z.literal('predict'), ...question }),
      z.looseObject({ kind: z.literal('see'), ...shows, claims }),
      z.looseObject({
        kind: z.literal('measure'),
        ...shows,
        answer: answerSchema.optional(),
        hint,
        why,
        claims,
      }),
      z.looseObject({ kind: z.literal('explain'), ...shows, formula: text('On demand.').optional(), claims }),
      z.looseObject({
        kind: z.literal('try'),
        text: shows.text,
        from: name('State that the learner begins with.').optional(),
        goal: conditions.optional(),
        only: listOf(name('Part of the sitting that may be changed.'), 'parts').optional(),
        way: name('State that meets the goal.').optional(),
        tries: quantity('', [1, 100], 'So many times it may be judged.').optional(),
        without: listOf(name('Beginning of the id of a reading.'), 'beginnings of ids').optional(),
        hint,
        why,
        questions: listOf(questionSchema, 'questions').optional(),
        pass: quantity('', [1, 100], 'So many must be right.').optional(),
      }),
    ],
    { error: 'a step of kind "predict", "see", "measure", "explain" or "try"' },
  )
  .meta({ id: 'Step' })

const setSchema = z
  .looseObject({
    name: name('Of the state.'),
    changes: z
      .record(z.string(), z.unknown(), { error: 'places of the sitting with their new values, in braces { }' })
      .meta({ description: 'Against start: {"sources[0].modifier.diameterM": 1.2}.' }),
  })
  .meta({ id: 'State' })

export const lessonSchema = z.looseObject({
  format: oneOf(['halfshade.lesson'], 'Says what the file is.'),
  version: z.literal(1, { error: '1' }).meta({ description: 'Of the format.' }),
  title: name('Of the lesson.'),
  number: quantity('', [1, 999], 'Place in a course.').optional(),
  answers: name('The question that it answers, for whoever looks for a lesson.').optional(),
  note: text('For the teacher.'),
  start: sittingSchema,
  sets: listOf(setSchema, 'states'),
  steps: listOf(stepSchema, 'steps'),
})

/** The JSON Schema (2020-12) of a lesson file; the rules between fields are in SPEC.md only. */
export const lessonJsonSchema = (): Readonly<Record<string, unknown>> => fileJsonSchema('Lesson', lessonSchema)
