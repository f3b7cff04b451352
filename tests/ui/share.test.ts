import fc from 'fast-check'
import { expect, test } from 'vitest'
import { firstSitting, moveSource } from '../../src/sitting'
import { shareWith } from '../../src/ui/desks/share'

test('the result equals what came, and is the old object wherever nothing changed', () => {
  fc.assert(
    fc.property(fc.jsonValue(), fc.jsonValue(), (before, now) => {
      const copy = structuredClone(now)
      expect(shareWith(before, copy)).toEqual(now)
      expect(shareWith(now, structuredClone(now))).toBe(now)
    }),
  )
})

test('after a move only the moved source and the lists that hold it are new', () => {
  const before = firstSitting()
  const now = shareWith(before, structuredClone(moveSource(before, 'key', [1, 2, 1])))
  expect(now.sources[0]).not.toBe(before.sources[0])
  expect(now.sources[0].centreM).toEqual([1, 2, 1])
  expect(now.sources[0].modifier).toBe(before.sources[0].modifier)
  for (const key of ['sitters', 'panels', 'camera', 'room', 'backdrop'] as const) expect(now[key]).toBe(before[key])
})
