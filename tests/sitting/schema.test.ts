import { expect, test } from 'vitest'
import type { z } from 'zod'
import { checkSitting, firstSitting, readSitting, type Sitting } from '../../src/sitting'
import { sittingSchema } from '../../src/sitting/schema'

/** A type without the open ends (`[key: string]: unknown`) and without `readonly`, at every level. */
type Plain<T> = T extends readonly unknown[]
  ? { -readonly [K in keyof T]: Plain<T[K]> }
  : T extends object
    ? { -readonly [K in keyof T as string extends K ? never : K]: Plain<T[K]> }
    : T
type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false

test('S2 the schema says what types.ts says', () => {
  // A line that compiles only while the two are one type; the check at run time is that the schema takes a sitting.
  const same: Same<Plain<z.infer<typeof sittingSchema>>, Plain<Sitting>> = true
  expect(same && sittingSchema.safeParse(firstSitting()).success).toBe(true)
})

test('S2 the first sitting breaks no rule', () => {
  expect(checkSitting(firstSitting())).toEqual([])
})

type Json = Record<string, unknown>
/** A copy with the value at a path replaced; undefined removes the field. */
function withValue(root: unknown, path: readonly (string | number)[], value: unknown): unknown {
  if (path.length === 0) return value
  const copy = (Array.isArray(root) ? [...root] : { ...(root as Json) }) as Json
  const [key, ...rest] = path
  const next = withValue(copy[key], rest, value)
  if (next === undefined) delete copy[key]
  else copy[key] = next
  return copy
}

const problemsOf = (value: unknown) => {
  const result = readSitting(value)
  return 'problems' in result ? result.problems : []
}

test.each([
  [['sources', 0, 'head', 'energyJ'], -3, 'sources[0].head.energyJ', 'a number from 1 to 6400 J', '-3'],
  [
    ['sources', 0, 'head', 'energyJ'],
    Number.POSITIVE_INFINITY,
    'sources[0].head.energyJ',
    'a number from 1 to 6400 J',
    'null',
  ],
  [['sources', 0, 'head', 'energyJ'], undefined, 'sources[0].head.energyJ', 'a number from 1 to 6400 J', 'nothing'],
  [['sources', 0, 'role'], 'main', 'sources[0].role', 'one of "key", "fill", "hair", "backdrop", "kicker"', '"main"'],
  [['sources', 0, 'centreM', 1], '2', 'sources[0].centreM[1]', 'a number from -30 to 30 m', '"2"'],
  [['sources', 0, 'centreM'], [1, 2], 'sources[0].centreM', 'three numbers [x, y, z] in m', '[1,2]'],
  [['sources', 0, 'letter'], 'AB', 'sources[0].letter', 'one capital letter A to Z', '"AB"'],
  [['camera'], undefined, 'camera', 'a record in braces { }', 'nothing'],
  [['panels'], {}, 'panels', 'a list of panels', '{}'],
  [
    ['objects', 0],
    { id: 'x', kind: 'egg' },
    'objects[0].kind',
    'an object with kind "ball", "card" or "flag-before-card"',
    '"egg"',
  ],
  [
    ['meterPlaces', 0, 'at'],
    {},
    'meterPlaces[0].at',
    'a landmark {sitterId, landmark}, a place on the backdrop {acrossShare, upShare} within -1 to 1, or a free point {pointM} within 30 m',
    '{}',
  ],
  [['title'], 7, 'title', 'text in quotes', '7'],
  [['room', 'wallReflectance'], 1, 'room.wallReflectance', 'a number from 0 to 0.95', '1'],
] as const)('S2 %j = %j is told with path, expectation, finding and advice', (path, value, at, expected, got) => {
  const problems = problemsOf(withValue(firstSitting(), path, value))
  expect(problems).toHaveLength(1)
  expect(problems[0]).toMatchObject({ rule: 'S2', path: at, expected, got })
  expect(problems[0].advice).toMatch(/\.$/)
})

test('S2 all problems are told at once', () => {
  const twice = withValue(withValue(firstSitting(), ['title'], 1), ['camera', 'iso'], 0)
  expect(problemsOf(twice).map(({ path }) => path)).toEqual(['title', 'camera.iso'])
})

/** Every record of a value gets a field that nobody knows. */
function sprinkled(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sprinkled)
  if (value === null || typeof value !== 'object') return value
  return {
    ...Object.fromEntries(Object.entries(value).map(([k, v]) => [k, sprinkled(v)])),
    'x-note': { kept: [1, null] },
  }
}

test('S3 unknown fields survive reading at every level', () => {
  const first = firstSitting()
  const full = { ...first, takes: [{ name: 'take 1', sitting: (({ takes: _, ...body }) => body)(first) }] }
  const strange = sprinkled(full)
  expect(readSitting(strange)).toEqual({ sitting: strange })
})
