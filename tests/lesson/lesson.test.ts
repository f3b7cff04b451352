import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import type { z } from 'zod'
import {
  addStep,
  askedWords,
  type Condition,
  changedSitting,
  changeStep,
  changesBetween,
  dropSet,
  dropStep,
  followsLight,
  grade,
  isLesson,
  judge,
  keepSet,
  type Lesson,
  lessonJsonSchema,
  type lessonSchema,
  moveStep,
  newLesson,
  onlyWords,
  piecesOf,
  type Readings,
  readLesson,
  reasonOf,
  retitleLesson,
  rightChoices,
  sittingOf,
  writeLesson,
} from '../../src/lesson'
import type { Reading } from '../../src/readings'
import { firstSitting, problemSentence, readSitting, type Sitting, setCamera, setModifier } from '../../src/sitting'

type Plain<T> = T extends readonly unknown[]
  ? { -readonly [K in keyof T]: Plain<T[K]> }
  : T extends object
    ? { -readonly [K in keyof T as string extends K ? never : K]: Plain<T[K]> }
    : T
type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false

const start = firstSitting()
const wide = setModifier(start, 'key', { diameterM: 1.2 })
const lesson: Lesson = [
  (l: Lesson) => keepSet(l, 'wide', wide),
  (l: Lesson) => addStep(l, 'predict', 'edge.A.nose.full'),
  (l: Lesson) => addStep(l, 'measure', 'edge.A.nose.full'),
  (l: Lesson) => addStep(l, 'try', 'edge.A.nose.full'),
].reduce((l, edit) => edit(l), newLesson(start, 'Wider'))

const told = (source: unknown): readonly string[] => {
  const result = readLesson(source)
  return 'problems' in result ? result.problems.map((problem) => `${problem.rule} ${problemSentence(problem)}`) : []
}
const withStep = (index: number, change: Record<string, unknown>) => ({
  ...lesson,
  steps: lesson.steps.map((step, i) => (i === index ? { ...step, ...change } : step)),
})

describe('the file', () => {
  test('L2 the schema says what types.ts says, and shared/lesson.schema.json is current: npm run schema', () => {
    // What zod infers of the sitting inside is compared in the sitting's own test.
    type Own<T extends object> = Omit<Plain<T>, 'start'>
    const same: Same<Own<z.infer<typeof lessonSchema>>, Own<Lesson>> = true
    expect(same).toBe(true)
    expect(JSON.parse(readFileSync('shared/lesson.schema.json', 'utf8'))).toEqual(
      JSON.parse(JSON.stringify(lessonJsonSchema())),
    )
  })

  test('L3 unknown fields survive reading, editing and writing at every level', () => {
    const odd = {
      ...lesson,
      colour: 'blue',
      sets: lesson.sets.map((set) => ({ ...set, seat: 3 })),
      steps: lesson.steps.map((step) => ({ ...step, minutes: 4 })),
    }
    const read = readLesson(JSON.stringify(odd))
    if ('problems' in read) throw new Error(told(odd).join('\n'))
    const edited = changeStep(keepSet(read.lesson, 'wide', start), 1, { text: 'Now.' })
    const again = JSON.parse(writeLesson(edited))
    expect([again.colour, again.sets[1].seat, again.steps[1].minutes, again.steps[0].minutes]).toEqual([
      'blue',
      3,
      4,
      4,
    ])
    expect(writeLesson(edited)).toBe(writeLesson(JSON.parse(writeLesson(edited))))
    expect(isLesson(writeLesson(lesson)) && !isLesson('{"format": "halfshade.kit"}')).toBe(true)
  })

  test.each([
    ['L6', '{"format": "halfshade.lesson",', /a text in JSON/],
    ['L1', { ...lesson, format: 'halfshade.kit' }, /format: expected "halfshade\.lesson"/],
    ['L5', { ...lesson, version: 2 }, /newer Halfshade/],
    ['L2', { ...lesson, steps: [{ kind: 'sing' }] }, /steps\[0\].*"predict", "see", "measure"/],
    ['L4', { ...lesson, sets: [...lesson.sets, lesson.sets[0]] }, /sets\[2\]\.name: .*"start", as in sets\[0\]/],
    [
      'L4',
      withStep(1, { readings: [{ says: 'edge', reading: 'edge.A.nose.full', times: 'narrow' }] }),
      /steps\[1\]\.readings\[0\]\.times: expected the name of a state: start, wide, got "narrow"/,
    ],
    [
      'L4',
      withStep(1, { sets: ['narrow'] }),
      /steps\[1\]\.sets: expected the name of a state: start, wide, got "narrow"/,
    ],
    ['L4', withStep(0, { sets: ['start'] }), /steps\[0\]\.hides\[0\]/],
    ['L7', { ...lesson, start: { ...start, camera: undefined } }, /start\.camera/],
    [
      'L7',
      { ...lesson, sets: [{ name: 'start', changes: { 'sources[4].on': true } }, lesson.sets[1]] },
      /sets\[0\]\.changes/,
    ],
    [
      'L7',
      { ...lesson, sets: [{ name: 'start', changes: { 'camera.iso': 1 } }, lesson.sets[1]] },
      /camera\.iso: expected a number from 6/,
    ],
    ['L8', withStep(2, { goal: [{ reading: 'edge.A.nose.full' }] }), /steps\[2\]\.goal\[0\]: expected from, to or is/],
    ['L8', withStep(2, { goal: [] }), /a goal or questions/],
    ['L8', withStep(0, { answer: { kind: 'choice', choices: [{ words: 'yes', holds: [] }] } }), /at least two choices/],
    ['L8', withStep(2, { only: ['A.colour'] }), /steps\[2\]\.only: expected a part of the sitting: A\.place/],
    ['L9', withStep(1, { text: 'It is {4.5} wide.' }), /braces that name a state/],
    ['L9', withStep(1, { text: 'It is {wide} wide.' }), /braces that name a state/],
  ])('%s is told with its place', (rule, source, words) => {
    const all = told(source)
    expect(all[0]).toMatch(words)
    expect(all[0]).toMatch(new RegExp(`^${rule} `))
  })
})

test('the question that a lesson answers is written, and an empty one is taken out', () => {
  const asks = retitleLesson(lesson, { answers: 'What makes an edge soft?' })
  expect(JSON.parse(writeLesson(asks)).answers).toBe('What makes an edge soft?')
  expect(Object.keys(retitleLesson(asks, { answers: ' ' }))).toEqual(Object.keys(lesson))
})

test('what the light decides may still move while it is read, lengths and angles not', () => {
  const read = (text: string, unit: string, value: number | string = 1) => followsLight({ text, unit, value })
  expect([read('f/8', ''), read('-1.0', 'stop'), read('24', 'J'), read('85', '%')]).toEqual([true, true, true, true])
  expect([read('13', 'mm'), read('45', '°'), read('1.50', 'm'), read('loop', '', 'loop')]).toEqual(
    Array.from({ length: 4 }, () => false),
  )
})

describe('states', () => {
  const put = (changes: Record<string, unknown>): Sitting => {
    const result = changedSitting(start, changes, 'sets[0]')
    if ('problems' in result) throw new Error(result.problems.map(problemSentence).join('\n'))
    return result.sitting
  }

  test('what differs is written by its smallest parts, and put back it is the same sitting', () => {
    expect(changesBetween(start, wide)).toEqual({
      'sources[0].modifier.diameterM': 1.2,
      // The umbrella's own depth and shaft follow its size.
      'sources[0].modifier.depthM': wide.sources[0].modifier.depthM,
      'sources[0].modifier.shaftM': wide.sources[0].modifier.shaftM,
    })
    const bare = {
      ...setCamera(start, { fNumber: 11, hood: { depthM: 0.05, diameterM: 0.08 } }),
      panels: [],
      backdrop: null,
    }
    for (const to of [wide, bare, start]) expect(put(changesBetween(start, to))).toEqual(asRead(to))
  })

  test('a thing more, a field less and a key that is no word go in the whole record that holds them', () => {
    const two = { ...start, panels: [...start.panels, { ...start.panels[0], id: 'panel-2' }] }
    expect(Object.keys(changesBetween(start, two))).toEqual(['panels'])
    const withStand = { ...start, sources: [{ ...start.sources[0], stand: { name: 'low', highestM: 2, loadKg: 3 } }] }
    const back = changedSitting(withStand, changesBetween(withStand, start), 'sets[0]')
    expect('sitting' in back && back.sitting).toEqual(asRead(start))
    const odd = { ...start, camera: { ...start.camera, 'a.b': 1 } } as Sitting
    expect(put(changesBetween(start, odd))).toEqual(asRead(odd))
  })

  test('no path reaches past the sitting', () => {
    for (const path of ['__proto__.x', 'constructor.prototype.x', 'camera..iso', 'sources[9]', 'panels.length', ''])
      expect('problems' in changedSitting(start, { [path]: 1 }, 'sets[0]'), path).toBe(true)
    expect(sittingOf(lesson, 'wide')).toEqual(asRead(wide))
    expect(sittingOf(lesson, 'none')).toBeNull()
  })
})

const asRead = (sitting: Sitting): Sitting => {
  const result = readSitting(sitting)
  if ('problems' in result) throw new Error('no sitting')
  return result.sitting
}

const made = (id: string, value: number | string | null, unit: string, text: string): Reading => ({
  ...{ id, value, unit, text, band: null, sentence: '', sourceId: null },
  place: { name: '', at: null },
  why: { formula: '', filled: '', source: '' },
})
const TABLE: Readonly<Record<string, readonly Reading[]>> = {
  near: [
    made('f', 8, '', 'f/8'),
    made('edge', 24, 'mm', '24'),
    made('edge.A.nose.full', 24, 'mm', '24'),
    made('turn', -170, '°', '170'),
    made('pattern', 'loop', '', 'Loop'),
    made('source.A.azimuthFromLens', 20, '°', '20'),
    made('source.A.elevation', 35, '°', '35'),
    made('spill', 6, 'sr', '6.0'),
  ],
  wide: [made('edge', 12, 'mm', '12'), made('spill', 4, 'sr', '4.0')],
  far: [
    made('f', 4, '', 'f/4'),
    made('edge', 9, 'mm', '9'),
    made('turn', 10, '°', '10'),
    made('pattern', null, '', '–'),
    made('spill', 2, 'sr', '2.0'),
  ],
}
const readings: Readings = (set) => TABLE[set ?? 'near'] ?? null

describe('the judge', () => {
  // Stops by the series of f-numbers: f/8 to f/11 is one, f/8 to f/4 two.
  test.each<[Condition, boolean, string]>([
    [{ reading: 'f', from: 8, to: 8 }, true, 'met'],
    [{ reading: 'f', from: 8 * Math.SQRT2 }, false, 'misses by 1.0 stop (under)'],
    [{ reading: 'f', to: 5.6568 }, false, 'misses by 1.0 stop (over)'],
    [{ reading: 'f', minus: 'far', from: 1.9, to: 2.1 }, true, 'met'],
    [{ reading: 'f', minus: 'far', to: 1.5 }, false, 'misses by 0.5 stops (over)'],
    [{ reading: 'edge', from: 30 }, false, 'misses by 6.0 mm (under)'],
    [{ reading: 'edge.A.nose.full', from: 30 }, false, 'misses by 6.0 mm (too narrow)'],
    [{ reading: 'edge.A.nose.full', to: 20 }, false, 'misses by 4.0 mm (too wide)'],
    [{ reading: 'edge', minus: 'far', from: 15, to: 15 }, true, 'met'],
    [{ reading: 'pattern', is: ['Rembrandt', 'loop'] }, true, 'met'],
    [{ reading: 'pattern', is: ['split'] }, false, 'is loop, not split'],
    [{ set: 'far', reading: 'pattern', is: ['nothing'] }, true, 'met'],
    [{ set: 'far', reading: 'pattern', from: 2 }, false, 'is nothing: there is no number'],
    [{ reading: 'none', from: 2 }, false, 'is nothing: there is no number'],
    [{ reading: 'turn', from: -169.99 }, false, 'misses by 0.01° (under)'],
    [{ reading: 'source.A.azimuthFromLens', from: 30 }, false, 'misses by 10° (too far to camera left)'],
    [{ reading: 'source.A.elevation', to: 30 }, false, 'misses by 5° (too high)'],
  ])('%j', (condition, met, words) => {
    expect(judge(condition, readings)).toMatchObject({ met, words })
  })

  test('what is not read is not judged', () => {
    expect(judge({ set: 'later', reading: 'f', from: 1 }, readings)).toBeNull()
    expect(grade({ kind: 'number', of: { set: 'later', reading: 'f' }, within: 1 }, 8, readings)).toBeNull()
  })

  test('a prediction: a number in its unit, an f-number in stops, an angle the short way round, a choice by readings', () => {
    const number = (given: number) =>
      grade({ kind: 'number', of: { set: 'near', reading: 'f' }, within: 0.5 }, given, readings)
    expect(number(9)).toMatchObject({ right: true, answer: 'f/8' })
    expect(number(16)).toMatchObject({ right: false, words: 'off by 2.0 stops, too high' })
    expect(number(4)).toMatchObject({ right: false, words: 'off by 2.0 stops, too low' })
    expect(number(-1)!.right).toBe(false)
    const angle = (given: number) =>
      grade({ kind: 'angle', plane: 'round', of: { set: 'near', reading: 'turn' }, within: 15 }, given, readings)
    expect(angle(178)).toMatchObject({ right: true, answer: '170° to camera left' })
    expect(angle(150)).toMatchObject({ right: false, words: 'off by 40°, too far to camera left' })
    // −120° is 50° on from −170° towards the lens by camera left, so to the right of it.
    expect(angle(-120)).toMatchObject({ right: false, words: 'off by 50°, too far to camera right' })
    const choices = [
      { words: 'wider', holds: [{ set: 'far', says: 'edge', reading: 'edge', minus: 'near', from: 1 }] },
      { words: 'narrower', holds: [] },
    ]
    expect(rightChoices(choices, readings)).toEqual([1])
    expect(grade({ kind: 'choice', choices }, 0, readings)).toMatchObject({ right: false, answer: 'narrower' })
    expect(reasonOf({ kind: 'choice', choices }, readings)).toBe('edge: 9 mm with far, 24 mm with near')
    expect(reasonOf({ kind: 'choice', choices }, readings, ['near', 'far'])).toBe(
      'edge: 24 mm with near, 9 mm with far',
    )
    expect(reasonOf({ kind: 'choice', choices }, () => null)).toBe('')
    // Held against several states, a reading is named once, and each state once.
    const most = (reading: string) => [
      {
        words: 'near',
        holds: ['far', 'wide'].map((minus) => ({ set: 'near', says: reading, reading, minus, from: 1 })),
      },
      { words: 'another', holds: [] },
    ]
    expect(reasonOf({ kind: 'choice', choices: most('edge') }, readings)).toBe(
      'edge: 24 mm with near, 9 mm with far, 12 mm with wide',
    )
    expect(reasonOf({ kind: 'choice', choices: most('spill') }, readings)).toBe(
      'spill: with near 3.0 times as much as with far, 1.5 times as much as with wide',
    )
  })

  test('what is asked for, in words', () => {
    const f = TABLE.near![0]
    expect(askedWords({ reading: 'f', from: 8, to: 11 }, f)).toBe('f/8 to f/11')
    expect(askedWords({ reading: 'stops', to: -3 }, { ...f!, unit: 'stop', text: '−2.0' })).toBe('−3 stops or lower')
    const against = (bounds: { from?: number; to?: number }) => askedWords({ reading: 'f', minus: 'far', ...bounds }, f)
    expect([
      against({ to: -1 }),
      against({ to: 2 }),
      against({ from: -1 }),
      against({ from: 0 }),
      against({ from: -5, to: 5 }),
      against({ from: 1, to: 2 }),
      against({ from: -2, to: -1 }),
      against({ from: -1, to: 2 }),
    ]).toEqual([
      'at least 1 stop less than in “far”',
      'at most 2 stops more than in “far”',
      'at most 1 stop less than in “far”',
      'at least 0 stops more than in “far”',
      'within 5 stops of “far”',
      '1 to 2 stops more than in “far”',
      '1 to 2 stops less than in “far”',
      '1 stop less to 2 stops more than in “far”',
    ])
    expect(askedWords({ reading: 'edge', from: 20 }, TABLE.near![1])).toBe('at least 20 mm')
    expect(askedWords({ reading: 'pattern', is: ['loop', 'split'] }, TABLE.near![3])).toBe('loop or split')
    expect(askedWords({ reading: 'caution.A.inFrame', is: ['nothing'] }, undefined)).toBe('no caution')
    expect(onlyWords(['A.place', 'backdrop'])).toBe('change only A’s place, the backdrop')
    const lamps = [
      { letter: 'A', role: 'key' },
      { letter: 'B', role: 'hair' },
    ] as const
    expect(onlyWords(['A.place'], lamps)).toBe('change only A’s place (A is the key, so lettered on the plan)')
    expect(onlyWords(['A.place', 'A.power'], lamps)).toBe(
      'move only A, the key, so lettered on the plan; its power follows by itself',
    )
  })
})

test('prose has its numbers from the program; hidden or unread ones are left blank', () => {
  const text = 'It was {far: edge}, is {near: edge}: {near - far: f} more, {near: pattern}.'
  const words = (hidden: readonly string[], known = readings) =>
    piecesOf(text, known, hidden)
      .map((piece) => piece.text ?? '___')
      .join('')
  expect(words([])).toBe('It was 9 mm, is 24 mm: 2.0 stops more, Loop.')
  expect(words(['near'])).toBe('It was 9 mm, is ___: ___ more, ___.')
  // 24 mm are 2.7 times 9 mm; stops and words are not told so.
  const times = (inside: string) => piecesOf(`{${inside}}`, readings).map(({ text }) => text)
  expect([times('near / far: edge'), times('near / far: f'), times('near / far: pattern')]).toEqual([
    ['2.7 times'],
    ['–'],
    ['–'],
  ])
  expect(words([], () => null)).toBe('It was ___, is ___: ___ more, ___.')
})

test('steps are added, moved and dropped; a state that is shown stays', () => {
  expect(lesson.steps.map(({ kind }) => kind)).toEqual(['predict', 'measure', 'try'])
  expect(moveStep(lesson, 2, -1).steps.map(({ kind }) => kind)).toEqual(['predict', 'try', 'measure'])
  expect(moveStep(lesson, 0, -1)).toBe(lesson)
  expect(dropStep(lesson, 0).steps.map(({ kind }) => kind)).toEqual(['measure', 'try'])
  expect(() => dropSet(lesson, 'wide')).toThrow(/the name of a state/)
  expect(() => keepSet(lesson, ' ', wide)).toThrow(/a name/)
  expect(() => changeStep(lesson, 1, { text: '{wide: }' })).toThrow(/braces/)
})
