/** When the picture waits for the light of another set, and how long. Common practice, no source: a step on screen is one step. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { firstSitting, moveSource, type Sitting, setBackdrop, setSitter, setTitle } from '../../src/sitting'
import { isAnotherSet } from '../../src/ui/desks/another-set'
import { Awaited } from '../../src/ui/picture/awaited'

const first = firstSitting()
const withKind = (kind: string): Sitting => ({
  ...first,
  sources: first.sources.map((source) => ({ ...source, modifier: { kind } as Sitting['sources'][number]['modifier'] })),
})

test('a set goes on where it is moved, dressed or renamed; not under another title or in other light alone', () => {
  const moved = moveSource(first, 'key', [1, 2, 1])
  const goesOn = [
    moved,
    setSitter(moved, first.sitters[0]!.id, { headTurnDeg: 20 }),
    setBackdrop(first, { distanceM: 3 }),
    setTitle(first, 'Second hour'),
    { ...first, sources: [...first.sources, { ...first.sources[0]!, id: 'fill' }] },
  ]
  for (const now of goesOn) expect(isAnotherSet(first, now)).toBe(false)
  const another = [setTitle(moved, 'Second hour'), withKind('dish'), { ...first, sources: [] }]
  for (const now of another) expect(isAnotherSet(first, now)).toBe(true)
})

const late = vi.fn()
beforeEach(() => {
  late.mockClear()
  vi.useFakeTimers()
})
afterEach(() => vi.useRealTimers())

test('bounced light and exposure must both be of it or of a later one', () => {
  const awaited = new Awaited(late)
  awaited.bouncedTo(4)
  awaited.weighedTo(4)
  expect(awaited.isOn).toBe(false)
  expect(awaited.end()).toBeNull()
  awaited.begin(5)
  awaited.begin(6)
  expect([awaited.isOn, awaited.concerns(4), awaited.concerns(5), awaited.concerns(6)]).toEqual([
    true,
    false,
    true,
    true,
  ])
  awaited.bouncedTo(6)
  awaited.weighedTo(4)
  expect(awaited.isOn).toBe(true)
  awaited.weighedTo(6)
  expect(awaited.isOn).toBe(false)
  expect(awaited.end()).toBe('known')
  vi.runAllTimers()
  expect(late).not.toHaveBeenCalled()
})

test('a machine that takes too long shows what falls straight', () => {
  const awaited = new Awaited(late)
  awaited.begin(1)
  vi.advanceTimersByTime(2999)
  expect(late).not.toHaveBeenCalled()
  vi.advanceTimersByTime(2)
  expect(late).toHaveBeenCalledOnce()
  expect(awaited.end()).toBe('unknown')
})
