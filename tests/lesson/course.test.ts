import { readFileSync } from 'node:fs'
import Ajv2020 from 'ajv/dist/2020'
import { describe, expect, test } from 'vitest'
import {
  type Answer,
  grade,
  judgeAll,
  type Lesson,
  lessonJsonSchema,
  piecesOf,
  type Question,
  type Readings,
  reasonOf,
  rightChoices,
  sittingOf,
  timesWords,
  writeLesson,
} from '../../src/lesson'
import { knownOf, NUMBER, NUMBER_WORDS, SAYINGS } from './number-words'
import { FOLDERS, files, missedBy, open, readingsIn } from './shipped'

/** The lessons and faulty sets that come with the program, held against the program: what they say, ask for and judge. */

const questionsOf = ({ steps }: Lesson): readonly Question[] =>
  steps.flatMap((step) => {
    if (step.kind === 'measure' && step.answer) return [{ ...step, answer: step.answer, hides: [] }]
    return step.kind === 'predict' ? [step] : step.kind === 'try' ? (step.questions ?? []) : []
  })
const proseOf = (lesson: Lesson): readonly string[] => [
  lesson.answers ?? '',
  ...lesson.steps.map(({ text }) => text),
  ...lesson.steps.flatMap((step) => (step.kind === 'try' ? [step.hint ?? '', step.why ?? ''] : [])),
  ...questionsOf(lesson).flatMap(({ text, answer, hint = '', why = '' }) => [
    text,
    hint,
    why,
    ...(answer.kind === 'choice' ? answer.choices.map(({ words }) => words) : []),
    ...whysOf(answer),
  ]),
]
const whysOf = (answer: Answer): readonly string[] =>
  answer.kind === 'choice' ? answer.choices.flatMap(({ why }) => why ?? []) : []

test('fifteen lessons and at least eight faulty sets; each has all five steps, or all but one', () => {
  expect(files.filter((file) => file.startsWith(FOLDERS[0])).length).toBe(15)
  expect(files.filter((file) => file.startsWith(FOLDERS[1])).length).toBeGreaterThanOrEqual(8)
  for (const file of files) {
    const kinds = new Set(open(file).steps.map(({ kind }) => kind))
    for (const kind of ['predict', 'explain', 'try'] as const) expect(kinds, file).toContain(kind)
    expect(kinds.has('see') || kinds.has('measure'), file).toBe(true)
  }
  expect(files.filter((file) => file.startsWith(FOLDERS[0])).map((file) => open(file).number)).toEqual(
    Array.from({ length: 15 }, (_, i) => i + 1),
  )
})

test('each lesson of the course says which question it answers, each another one', () => {
  const asked = files.filter((file) => file.startsWith(FOLDERS[0])).map((file) => open(file).answers)
  for (const question of asked) expect(question).toMatch(/^[A-Z].{20,80}\?$/)
  expect(new Set(asked).size).toBe(asked.length)
})

test('each file is as the program writes it, and by its JSON Schema', () => {
  const ajv = new Ajv2020({ strict: true, allowUnionTypes: true })
  ajv.addKeyword('unit')
  const validate = ajv.compile(lessonJsonSchema())
  for (const file of files) {
    const text = readFileSync(file, 'utf8')
    expect(writeLesson(open(file)), file).toBe(text)
    expect(validate(JSON.parse(text)) || JSON.stringify(validate.errors), file).toBe(true)
  }
})

/** What the documents themselves say: sizes, distances, camera settings, bounds of goals. */
function factsOf(lesson: Lesson, file: string): ReadonlySet<string> {
  const cm = (metres: unknown) => `${Math.round(Number(metres) * 1000) / 10} cm`
  const facts = lesson.sets.flatMap(({ name }) => {
    const { sources, camera, panels } = sittingOf(lesson, name)!
    const tapes = readingsIn(lesson, file)(name)!.filter(({ id }) => /^source\.\w\.tape$/.test(id))
    return [
      ...sources.flatMap(({ modifier }) => [cm(modifier.widthM), cm(modifier.diameterM), `${modifier.grid}`]),
      ...tapes.flatMap(({ value, text }) => [`${Number(text)} m`, `${Number(Number(value).toFixed(2))} m`]),
      ...panels.map(({ widthM, heightM }) => `${widthM} m by ${heightM} m`),
      `f/${camera.fNumber}`,
      `ISO ${camera.iso}`,
      ...[camera.shutterS].flatMap((s) => [`1/${Math.round(1 / s)} s`, `1/${Math.round(1 / s)}`]),
    ]
  })
  const goals = lesson.steps.flatMap((step) => (step.kind === 'try' ? (step.goal ?? []) : []))
  const middles = goals.flatMap(({ from, to, reading }) => {
    if (from === undefined || to === undefined) return []
    // f-numbers and ratios lie in the middle of their band by stops.
    const middle = Math.sqrt(from * to)
    return [reading.startsWith('exposure') ? `f/${Math.round(middle)}` : `${Math.round(middle)} : 1`]
  })
  return new Set([...facts, ...middles])
}
/** Names of pictures, and an example of how to type. */
const NO_FACTS = /picture \d|as 4 for 4 : 1/g
const FIGURES = /f\/[\d.]+|ISO \d+|1\/\d+( s\b)?|[\d.]+ m by [\d.]+ m|\d+° grid|[\d.]+ ?(cm\b|m\b|: 1|°|%)|[\d.]*\d/g

describe.each(files)('%s', (file) => {
  const lesson = open(file)

  test('every number in its prose is the program’s, or stands in its own sittings', () => {
    const readings = readingsIn(lesson, file)
    for (const text of proseOf(lesson)) {
      const pieces = piecesOf(text, (set) => readings(set))
      for (const piece of pieces)
        if (piece.kind === 'number') expect(piece.text, `${text} ${piece.reading}`).toMatch(/\d|[a-z]/)
    }
    const facts = factsOf(lesson, file)
    const words = [...proseOf(lesson), ...lesson.sets.map(({ name }) => name)]
    for (const text of words) {
      const bare = text.replace(/\{[^}]*\}/g, '').replace(NO_FACTS, '')
      for (const [figure] of bare.matchAll(FIGURES)) {
        const fact = figure.replace(' grid', '')
        expect(facts.has(fact) || [...facts].join(' | '), `${fact} in: ${text}`).toBe(true)
      }
    }
  })

  test('every number in words, and every number of formulas and of its note, is the program’s or a closed form', () => {
    const stem = file.replace(/^.*\/|\.lesson\.json$/g, '')
    const checks = NUMBER_WORDS[stem] ?? {}
    // Choices are judged by what they hold.
    const asked = questionsOf(lesson).flatMap(({ text, hint = '', why = '', answer }) => [
      text,
      hint,
      why,
      ...whysOf(answer),
    ])
    const hints = lesson.steps.flatMap((step) => (step.kind === 'try' ? [step.hint ?? '', step.why ?? ''] : []))
    const beside = [...lesson.steps.flatMap((step) => ('formula' in step ? (step.formula ?? []) : [])), lesson.note]
    const all = [lesson.answers ?? '', ...lesson.steps.map(({ text }) => text), ...asked, ...hints, ...beside]
    const bare = (text: string) =>
      Object.keys(checks)
        .reduce((rest, phrase) => rest.replaceAll(phrase, ''), text.replace(/\{[^}]*\}/g, ''))
        .replace(SAYINGS, '')
    for (const text of all) expect(bare(text).match(NUMBER) ?? [], text).toEqual([])
    for (const text of beside) expect(bare(text).match(/\d/g) ?? [], text).toEqual([])
    for (const [phrase, check] of Object.entries(checks)) {
      expect(
        all.some((text) => text.includes(phrase)),
        phrase,
      ).toBe(true)
      check(knownOf(lesson, readingsIn(lesson, file)))
    }
  })

  test('pictures that it calls exposed alike are, within a tenth of a stop at the near cheek', () => {
    const isAlike = (text: string) => /expos\w+ alike|Equal exposure/.test(text)
    // Said in the note, it goes for all that is shown.
    const shown = lesson.steps.flatMap((step) =>
      step.kind !== 'try' && (isAlike(step.text) || isAlike(lesson.note)) ? [step.sets] : [],
    )
    for (const sets of shown) {
      // Against what the camera is set to: f/16 at f/16 is as bright as f/8 at f/8.
      const read = sets.map(
        (set) =>
          Number(readingsIn(lesson, file)(set)!.find(({ id }) => id === 'exposure.nearCheek.disc.light')?.value) /
          sittingOf(lesson, set)!.camera.fNumber,
      )
      if (read.length > 0)
        expect(2 * Math.log2(Math.max(...read) / Math.min(...read)), `${sets} ${read}`).toBeLessThan(0.1)
    }
    if (file.includes('02-size')) expect(shown.length).toBeGreaterThan(4)
  })

  test('it explains in two sentences at most, each time with a formula for who asks', () => {
    const explains = lesson.steps.flatMap((step) => (step.kind === 'explain' ? [step] : []))
    for (const { text } of explains)
      expect(text.replace(/\{[^}]*\}/g, 'n').match(/[.!?](?=\s|$)/g)!.length, text).toBeLessThanOrEqual(2)
    for (const { formula, text } of explains) expect(formula, text).toMatch(/ = |∝|twice as much|common practice/)
  })

  test('every wrong answer to a prediction is met with a cause, in one sentence', () => {
    for (const step of lesson.steps) {
      if (step.kind !== 'predict') continue
      const { answer, hint, text } = step
      const wrong = answer.kind === 'choice' ? wrongOnes(answer, readingsIn(lesson, file)) : []
      const causes = answer.kind === 'choice' ? wrong.map((i) => answer.choices[i]!.why) : [hint]
      expect(causes.length, text).toBeGreaterThan(0)
      for (const cause of causes) expect(cause?.replace(/\{[^}]*\}/g, 'n'), text).toMatch(/^[^.!?]{20,}\.$/)
      // No cause is given against what is right.
      if (answer.kind === 'choice') expect(whysOf(answer)).toHaveLength(wrong.length)
    }
  })

  test('whoever misses a try is told by what, and hears a cause', () => {
    for (const step of lesson.steps) {
      if (step.kind !== 'try') continue
      // And whoever meets a goal by what: one cause.
      if (step.goal) for (const words of [step.hint, step.why]) expect(words, step.text).toMatch(/\w.*\.$/)
      if (step.goal) expect(step.why!.length, step.why).toBeGreaterThan(40)
      for (const { hint, text } of step.questions ?? []) expect(hint, text).toMatch(/\w.*\.$/)
    }
    for (const { answer, text } of questionsOf(lesson)) {
      if (answer.kind !== 'choice') continue
      // Of the states that it is judged by, each by its name with what is read there.
      const reason = reasonOf(answer, readingsIn(lesson, file))
      expect(reason, text).toMatch(/: .+ \S+/)
      const [right] = rightChoices(answer.choices, readingsIn(lesson, file))!
      for (const { set } of answer.choices[right!]!.holds)
        expect(`${reason};`, text).toMatch(new RegExp(` with ${set}[ ,;]`))
    }
  })

  test('what its steps claim holds', () => {
    const claims = lesson.steps.flatMap((step) => ('claims' in step ? (step.claims ?? []) : []))
    const verdicts = judgeAll(claims, readingsIn(lesson, file))!
    expect(verdicts.map(({ words }, i) => (words === 'met' ? '' : `${claims[i]!.reading} ${words}`)).join('')).toBe('')
  })

  /** All of its records that name a reading, and all that its prose tells. */
  const edgeKinds = (part: unknown): ReadonlySet<string> =>
    new Set([...JSON.stringify(part).matchAll(/edge\.\w\.\w+\.(full|tenToNinety)/g)].map(([, kind]) => kind!))

  test('the width of an edge is one number throughout, or both are told apart side by side', () => {
    if (edgeKinds(lesson.steps).size < 2) return
    for (const step of lesson.steps) {
      if (!edgeKinds(step).has('tenToNinety')) continue
      const rows = step.kind === 'try' ? [] : (step.readings ?? [])
      expect([...edgeKinds(rows)].sort(), step.text).toEqual(['full', 'tenToNinety'])
      const part = rows.find(({ reading }) => reading.endsWith('tenToNinety'))!
      expect(part.says, step.text).toMatch(/10 to 90 %/)
    }
  })

  test('what it tells as so many times another is a number there', () => {
    for (const step of lesson.steps) {
      if (step.kind === 'try') continue
      for (const { reading, times } of step.readings ?? [])
        for (const set of times === undefined ? [] : step.sets) {
          const [a, b] = [set, times].map((name) => readingsIn(lesson, file)(name)!.find(({ id }) => id === reading)!)
          expect(timesWords(a!, b!), `${step.text}: ${set}`).toMatch(/^\d+\.\d times$/)
        }
    }
  })

  test('every reading that it shows is one of that set, or of none', () => {
    for (const step of lesson.steps) {
      if (step.kind === 'try') continue
      for (const { reading } of step.readings ?? [])
        expect(
          step.sets.some((set) => readingsIn(lesson, file)(set)!.some(({ id }) => id === reading)),
          `${step.text}: ${reading}`,
        ).toBe(true)
    }
  })

  test('a scripted learner is graded right, a wrong one wrong', () => {
    for (const { answer, text } of questionsOf(lesson)) {
      const readings = readingsIn(lesson, file)
      for (const given of rightOnes(answer, readings)) expect(grade(answer, given, readings)!.right, text).toBe(true)
      for (const given of wrongOnes(answer, readings)) expect(grade(answer, given, readings)!.right, text).toBe(false)
    }
  })

  test('every goal is reached one way, and missed by who does nothing', () => {
    for (const step of lesson.steps) {
      if (step.kind !== 'try' || !step.goal) continue
      const missed = (state: string) => missedBy(lesson, file, step, sittingOf(lesson, state)!)
      expect(missed(step.way!), step.text).toEqual([])
      expect(missed(step.from!).length, step.text).toBeGreaterThan(0)
      const began = judgeAll(step.goal, readingsIn(lesson, file, step.from!))!
      for (const { met, words } of began) expect(met || /misses by|is |caution/.test(words) || words).toBe(true)
    }
  })
})

/** Number of the reading that is asked for. */
const numberOf = (
  { of }: Exclude<Answer, { kind: 'choice' }>,
  readings: Readings,
): { value: number; isStops: boolean } => {
  const found = readings(of.set)!.find(({ id }) => id === of.reading)!
  return { value: Number(found.value), isStops: found.text.startsWith('f/') }
}

function rightOnes(answer: Answer, readings: Readings): readonly number[] {
  if (answer.kind === 'choice') {
    const right = rightChoices(answer.choices, readings)!
    expect(right, answer.choices.map(({ words }) => words).join(' / ')).toHaveLength(1)
    return right
  }
  const { value, isStops } = numberOf(answer, readings)
  return [value, isStops ? value * 2 ** (0.45 * answer.within) : value + 0.9 * answer.within]
}

function wrongOnes(answer: Answer, readings: Readings): readonly number[] {
  if (answer.kind === 'choice') {
    const right = rightChoices(answer.choices, readings)!
    return answer.choices.map((_, i) => i).filter((i) => !right.includes(i))
  }
  const { value, isStops } = numberOf(answer, readings)
  return isStops
    ? [value * 2 ** (0.55 * answer.within), value / 2]
    : [value + 1.1 * answer.within, value - 1.1 * answer.within]
}
