import { describe, expect, test } from 'vitest'
import {
  checkSitting,
  firstSitting,
  mirrorSet,
  readSitting,
  type SitterGaze,
  type Sitting,
  setCamera,
  setGaze,
  setLean,
  setSitter,
  sittingJsonSchema,
  writeSitting,
} from '../../src/sitting'
import { refusal } from './refusal'

const first = firstSitting()
const withSitter = (change: object): unknown => ({ ...first, sitters: [{ ...first.sitters[0], ...change }] })
const gazes: readonly SitterGaze[] = ['ahead', 'camera', { acrossDeg: -35, upDeg: 25 }]

describe('S17 gaze', () => {
  test.each(gazes)('%j is written and read as it was', (gaze) => {
    const looking = setGaze(first, 'sitter', gaze)
    expect(looking.sitters[0].gaze).toEqual(gaze)
    expect(readSitting(writeSitting(looking))).toEqual({ sitting: looking })
    expect(checkSitting(looking)).toEqual([])
  })
  test('left out, nothing is written', () => {
    expect(writeSitting(first)).not.toMatch(/gaze|lean/)
  })
  test('a direction that eyes do not turn to is refused, and nothing is pulled in', () => {
    expect(refusal(() => setGaze(first, 'sitter', { acrossDeg: 40, upDeg: 0 }))).toEqual({
      rule: 'S17',
      path: 'sitters[0].gaze.acrossDeg',
      expected: '-35 to 35°',
      got: '40',
      advice: 'Turn the head for the rest of the way.',
    })
    expect(refusal(() => setGaze(first, 'sitter', { acrossDeg: 0, upDeg: -25.1 })).path).toBe('sitters[0].gaze.upDeg')
    expect(refusal(() => setGaze(first, 'sitter', { acrossDeg: Number.NaN, upDeg: 0 })).got).toBe('NaN')
  })
  test('a lens out of reach is refused with how far it is; a head turned towards it brings it back', () => {
    const away = setSitter(first, 'sitter', { headTurnDeg: 80 })
    const problem = refusal(() => setGaze(away, 'sitter', 'camera'))
    expect(problem).toMatchObject({ rule: 'S17', path: 'sitters[0].gaze' })
    // Nose 80° to camera right of a lens straight ahead, the eyes carried 74 mm the same way: some 3° more.
    expect(Number(/^(\d+)° across/.exec(problem.got)?.[1])).toBeGreaterThanOrEqual(80)
    expect(Number(/^(\d+)° across/.exec(problem.got)?.[1])).toBeLessThanOrEqual(84)
    expect(setGaze(setSitter(away, 'sitter', { headTurnDeg: 25 }), 'sitter', 'camera').sitters[0].gaze).toBe('camera')
    const high = setCamera(first, { positionM: [0, 3.5, 1.5] })
    expect(refusal(() => setGaze(high, 'sitter', 'camera')).got).toMatch(/up$/)
  })
  test('in a file, ranges and words are told', () => {
    const problemsOf = (gaze: unknown) => {
      const result = readSitting(withSitter({ gaze }))
      return 'problems' in result ? result.problems : []
    }
    for (const gaze of ['lens', 7, { acrossDeg: 3 }]) {
      const [problem, ...more] = problemsOf(gaze)
      expect(more).toEqual([])
      expect(problem).toMatchObject({ rule: 'S2', path: 'sitters[0].gaze' })
      expect(problem.expected).toBe(
        'a gaze "ahead", "camera", or {acrossDeg, upDeg} within 35° across and 25° up or down',
      )
    }
    expect(problemsOf({ acrossDeg: 36, upDeg: 0 })).toMatchObject([
      { path: 'sitters[0].gaze.acrossDeg', expected: 'a number from -35 to 35 °', got: '36' },
    ])
  })
})

describe('S17 lean', () => {
  test('one way at a time; the other stays', () => {
    const forward = setLean(first, 'sitter', { forwardM: 0.1 })
    expect(forward.sitters[0].lean).toEqual({ forwardM: 0.1, asideM: 0 })
    const both = setLean(forward, 'sitter', { asideM: -0.05 })
    expect(both.sitters[0].lean).toEqual({ forwardM: 0.1, asideM: -0.05 })
    expect(readSitting(writeSitting(both))).toEqual({ sitting: both })
    expect(both.sources).toBe(first.sources)
    expect(first.sitters[0]).not.toHaveProperty('lean')
  })
  test('too far is refused, in an edit and in a file', () => {
    expect(refusal(() => setLean(first, 'sitter', { forwardM: 0.3 }))).toEqual({
      rule: 'S17',
      path: 'sitters[0].lean.forwardM',
      expected: '-0.15 to 0.15 m',
      got: '0.3',
      advice: 'Lean less, or move the sitter or the set.',
    })
    const result = readSitting(withSitter({ lean: { forwardM: 0.3, asideM: 0 } }))
    expect(result).toMatchObject({ problems: [{ rule: 'S2', path: 'sitters[0].lean.forwardM', got: '0.3' }] })
  })
})

test('S3 fields that nobody knows survive in both', () => {
  const strange = { gaze: { acrossDeg: 1, upDeg: 2, 'x-a': 1 }, lean: { forwardM: 0, asideM: 0, 'x-b': [2] } }
  const read = readSitting(withSitter(strange))
  if ('problems' in read) throw new Error('not read')
  const edited = mirrorSet(mirrorSet(setLean(read.sitting, 'sitter', { forwardM: 0.02 })))
  const { gaze, lean } = JSON.parse(writeSitting(edited)).sitters[0]
  expect(gaze).toEqual(strange.gaze)
  expect(lean).toEqual({ ...strange.lean, forwardM: 0.02 })
})

test('S15 a mirror turns the eyes and the lean aside the other way', () => {
  const posed: Sitting = setLean(setGaze(first, 'sitter', { acrossDeg: 12, upDeg: 3 }), 'sitter', { asideM: 0.1 })
  expect(mirrorSet(posed).sitters[0]).toMatchObject({
    gaze: { acrossDeg: -12, upDeg: 3 },
    lean: { forwardM: 0, asideM: -0.1 },
  })
  expect(mirrorSet(first).sitters[0]).not.toHaveProperty('gaze')
})

test('the JSON Schema requires neither', () => {
  const { $defs } = sittingJsonSchema() as { $defs: Record<string, { required: string[] }> }
  expect($defs.Sitter.required).not.toContain('gaze')
  expect($defs.Sitter.required).not.toContain('lean')
})
