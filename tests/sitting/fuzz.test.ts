import fc from 'fast-check'
import { expect, test } from 'vitest'
import { assembleRig } from '../../src/rig'
import { checkSitting, firstSitting, keepTake, readSitting, writeSitting } from '../../src/sitting'
import { STAND_IN } from '../rig/stand-in'

const whole = JSON.parse(writeSitting(keepTake(firstSitting(), 'before'))) as unknown

type Path = readonly (string | number)[]
const pathsOf = (value: unknown, at: Path = []): Path[] =>
  value === null || typeof value !== 'object'
    ? [at]
    : [
        at,
        ...Object.entries(value).flatMap(([key, entry]) =>
          pathsOf(entry, [...at, Array.isArray(value) ? Number(key) : key]),
        ),
      ]

/** A copy of the document with another value at a path. */
function spoilt(root: unknown, [key, ...rest]: Path, value: unknown): unknown {
  if (key === undefined) return value
  const copy = (Array.isArray(root) ? [...root] : { ...(root as object) }) as Record<string | number, unknown>
  copy[key] = spoilt(copy[key], rest, value)
  return copy
}

const anything = fc.oneof(
  fc.jsonValue(),
  fc.double(),
  fc.constantFrom<unknown>(
    undefined,
    '',
    '__proto__',
    'constructor',
    [],
    {},
    null,
    -1,
    0,
    1e308,
    'key',
    'A',
    'white-umbrella',
  ),
)

test('S1 to S14: whatever stands in a file, the answer is a sitting that holds or problems that say where', () => {
  fc.assert(
    fc.property(fc.constantFrom(...pathsOf(whole)), anything, (path, value) => {
      const result = readSitting(spoilt(whole, path, value))
      if ('problems' in result) {
        expect(result.problems.length).toBeGreaterThan(0)
        for (const { rule, expected, got, advice } of result.problems) {
          expect(rule).toMatch(/^S\d+$/)
          expect(expected && got && advice).toBeTruthy()
        }
      } else {
        expect(checkSitting(result.sitting)).toEqual([])
        // JSON has no −0, and no field that holds nothing.
        const asJson = JSON.parse(JSON.stringify(result.sitting))
        expect(readSitting(writeSitting(result.sitting))).toEqual({ sitting: asJson })
        expect(() => assembleRig(result.sitting, { figure: STAND_IN })).not.toThrow()
      }
    }),
    { numRuns: 1500, seed: 20260102 },
  )
})

test('S14 any text is answered', () => {
  fc.assert(fc.property(fc.string(), (text) => 'problems' in readSitting(text)))
})

test('S3 a key called __proto__ in a file harms nothing', () => {
  const text = JSON.stringify(whole).replace('{', '{"__proto__": {"polluted": true}, ')
  readSitting(text)
  expect(({} as { polluted?: boolean }).polluted).toBeUndefined()
})
