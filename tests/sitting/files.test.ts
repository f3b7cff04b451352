import { describe, expect, test } from 'vitest'
import { firstSitting, keepTake, type Migration, readSitting, writeSitting } from '../../src/sitting'
import { MIGRATIONS, migrate } from '../../src/sitting/migrate'

const document = { format: 'halfshade.sitting', version: 1, name: 'a' }
/** Steps of a format that might have been, to try the mechanism: the first version has no step of its own yet. */
const STEPS: readonly Migration[] = [
  { to: 2, name: 'name becomes title', up: ({ name, ...rest }) => ({ ...rest, title: name }) },
  { to: 3, name: 'title in capitals', up: (old) => ({ ...old, title: String(old.title).toUpperCase() }) },
]

describe('S12 raising older documents', () => {
  test('each step in turn', () => {
    expect(migrate(document, STEPS.slice(0, 1))).toEqual({
      document: { format: 'halfshade.sitting', version: 2, title: 'a' },
    })
    expect(migrate(document, STEPS)).toEqual({ document: { format: 'halfshade.sitting', version: 3, title: 'A' } })
    expect(migrate({ ...document, version: 2, title: 'b' }, STEPS)).toMatchObject({
      document: { version: 3, title: 'B', name: 'a' },
    })
  })
  test('the current version is left alone, unknown fields and all', () => {
    const current = { ...document, version: 3, extra: 1 }
    expect(migrate(current, STEPS)).toEqual({ document: current })
  })
  test('the sittings in takes are raised with it', () => {
    const kept = { ...document, takes: [{ name: 'take 1', sitting: document }] }
    expect(migrate(kept, STEPS)).toMatchObject({
      document: { takes: [{ name: 'take 1', sitting: { version: 3, title: 'A' } }] },
    })
  })
  test('the document given is not changed', () => {
    const frozen = Object.freeze({ ...document })
    migrate(frozen, STEPS)
    expect(frozen).toEqual(document)
  })
  test('a newer version is refused, with what to do', () => {
    const result = readSitting({ ...firstSitting(), version: 2 })
    expect(result).toMatchObject({ problems: [{ rule: 'S12', path: 'version', got: '2' }] })
    expect('problems' in result && result.problems[0].advice).toMatch(/newer Halfshade/)
  })
  test('a list with a gap is a bug and says so', () => {
    expect(() => migrate(document, STEPS.slice(1))).toThrow(/title in capitals.*version 3.*asks for 2/)
  })
  test('every released step is run by a test here', () => {
    // The list is empty at version 1: a first entry must bring a before and after of its own.
    expect(MIGRATIONS.map(({ name }) => name)).toEqual([])
  })
})

test.each([
  ['a list', []],
  ['nothing', null],
  ['another format', { ...firstSitting(), format: 'other' }],
  ['no version', { ...firstSitting(), version: undefined }],
  ['version one and a half', { ...firstSitting(), version: 1.5 }],
  ['version nought', { ...firstSitting(), version: 0 }],
])('S1 %s is no sitting', (_, value) => {
  expect(readSitting(value)).toMatchObject({ problems: [{ rule: 'S1' }] })
})

test('S14 text that is not JSON is told with its beginning', () => {
  expect(readSitting('{ "format": halfshade')).toMatchObject({
    problems: [{ rule: 'S14', expected: 'a text in JSON' }],
  })
  expect(readSitting('')).toMatchObject({ problems: [{ rule: 'S14' }] })
})

describe('S13 writing', () => {
  const sitting = keepTake(firstSitting(), 'before')
  test('what was written is read as the same sitting', () => {
    expect(readSitting(writeSitting(sitting))).toEqual({ sitting })
    expect(readSitting(`\uFEFF${writeSitting(sitting)}`)).toEqual({ sitting })
  })
  test('the order in which fields came about does not show', () => {
    const backwards = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(backwards)
      if (value === null || typeof value !== 'object') return value
      return Object.fromEntries(
        Object.entries(value)
          .reverse()
          .map(([k, v]) => [k, backwards(v)]),
      )
    }
    // Fields of a modifier are not the schema's own: their order is kept, so it is left as it is here.
    const shuffled = backwards(sitting) as typeof sitting
    const modifier = sitting.sources[0].modifier
    const back = (s: typeof sitting) => ({ ...s, sources: s.sources.map((source) => ({ ...source, modifier })) })
    const take = { name: 'before', sitting: back(shuffled.takes[0].sitting as typeof sitting) }
    expect(writeSitting({ ...back(shuffled), takes: [take] })).toBe(writeSitting(sitting))
  })
  test('points on one line, two spaces a level, a newline at the end', () => {
    const text = writeSitting(sitting)
    expect(text).toMatch(/\n {6}"centreM": \[0\.\d+, 1\.\d+, 0\.\d+\],\n/)
    expect(text.endsWith('}\n')).toBe(true)
    expect(text.endsWith('\n\n')).toBe(false)
  })
  test('a sitting that could not be read back is not written', () => {
    expect(() => writeSitting({ ...sitting, sitters: [] })).toThrow(/sitters\[0\]: expected a first sitter/)
  })
})
