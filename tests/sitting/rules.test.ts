import { expect, test } from 'vitest'
import { firstSitting, keepTake, type Problem, readSitting, type Sitting } from '../../src/sitting'
import { problemSentence } from '../../src/sitting/problems'

const first = firstSitting()
const key = first.sources[0]
const panel = first.panels[0]
const problemsOf = (value: unknown): readonly Problem[] => {
  const result = readSitting(value)
  return 'problems' in result ? result.problems : []
}

const broken: readonly (readonly [string, string, Partial<Sitting>, string])[] = [
  ['S4', 'two things with one id', { panels: [{ ...panel, id: 'key' }] }, 'panels[0].id'],
  ['S5', 'two sources with one letter', { sources: [key, { ...key, id: 'b' }] }, 'sources[1].letter'],
  [
    'S6',
    'a modifier of no known kind',
    { sources: [{ ...key, modifier: { kind: 'lantern' } }] },
    'sources[0].modifier.kind',
  ],
  ['S7', 'a source aimed at itself', { sources: [{ ...key, aimM: key.centreM }] }, 'sources[0].aimM'],
  ['S7', 'a camera aimed at itself', { camera: { ...first.camera, aimM: first.camera.positionM } }, 'camera.aimM'],
  [
    'S7',
    'a camera that looks straight down',
    { camera: { ...first.camera, positionM: [0, 2.4, 0], aimM: [0, 1, 0] } },
    'camera.aimM',
  ],
  [
    'S8',
    'a place on a sitter who is not there',
    { meterPlaces: [{ ...first.meterPlaces[0], at: { sitterId: 'nobody', landmark: 'chin' } }] },
    'meterPlaces[0].at.sitterId',
  ],
  [
    'S8',
    'a landmark that is not there',
    { meterPlaces: [{ ...first.meterPlaces[0], at: { sitterId: 'sitter', landmark: 'elbow' } }] },
    'meterPlaces[0].at.landmark',
  ],
  ['S9', 'no sitter', { sitters: [], meterPlaces: [] }, 'sitters[0]'],
  ['S9', 'a first sitter beside the origin', { sitters: [{ ...first.sitters[0], xM: 0.2 }] }, 'sitters[0]'],
  [
    'S10',
    'a power below what the dial reaches',
    { sources: [{ ...key, head: { ...key.head, powerStops: -8, lowestStops: -7 } }] },
    'sources[0].head.powerStops',
  ],
  [
    'S20',
    'two mirrors',
    {
      panels: [
        { ...panel, kind: 'mirror' },
        { ...panel, id: 'other', kind: 'white', back: 'gold mirror' },
      ],
    },
    'panels[1].back',
  ],
  ['S20', 'a folded mirror', { panels: [{ ...panel, kind: 'mirror', foldDeg: 30 }] }, 'panels[0].foldDeg'],
]

test.each(broken)('%s %s', (rule, _, change, path) => {
  const problems = problemsOf({ ...first, ...change })
  expect(problems.map((problem) => [problem.rule, problem.path])).toEqual([[rule, path]])
  expect(problemSentence(problems[0])).toMatch(
    new RegExp(`^${path.replace(/[[\].]/g, '\\$&')}: expected .+, got .+\\. .+\\.$`),
  )
})

test.each(broken)('S11 in a take, %s: %s', (rule, _, change, path) => {
  const { takes: _takes, ...body } = { ...first, ...change }
  const problems = problemsOf({ ...first, takes: [{ name: 'take 1', sitting: body }] })
  expect(problems.map((problem) => [problem.rule, problem.path])).toEqual([[rule, `takes[0].sitting.${path}`]])
})

test('S11 two takes with one name, and takes inside a take', () => {
  const kept = keepTake(first, 'before').takes[0]
  const nested = { name: 'after', sitting: { ...kept.sitting, takes: [] } }
  expect(problemsOf({ ...first, takes: [kept, kept] }).map(({ rule, path }) => [rule, path])).toEqual([
    ['S11', 'takes[1].name'],
  ])
  expect(problemsOf({ ...first, takes: [nested] }).map(({ rule, path }) => [rule, path])).toEqual([
    ['S11', 'takes[0].sitting.takes'],
  ])
})

test('S6 a modifier field out of its range is told with the unit', () => {
  const [problem] = problemsOf({ ...first, sources: [{ ...key, modifier: { ...key.modifier, diameterM: 40 } }] })
  expect(problem).toMatchObject({ rule: 'S6', path: 'sources[0].modifier.diameterM', got: '40 m' })
  expect(problem.expected).toMatch(/ m$/)
})
