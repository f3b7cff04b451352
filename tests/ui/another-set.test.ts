/** When the picture waits for the light of another set, and how long. Common practice, no source: a step on screen is one step. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { firstSitting, moveSource, type Sitting, setBackdrop, setSitter, setTitle } from '../../src/sitting'
import { isAnotherSet } from '../../src/ui/desks/another-set'
import { SetInSight } from '../../src/ui/picture/set-in-sight'

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

/** As the desk that draws asks it. */
const desk = () => {
  const inSight = new SetInSight(late)
  inSight.waits(1)
  inSight.take(1)
  inSight.takesLight(1, true)
  inSight.takesExposure(1)
  return inSight
}

test('another set waits until bounced light and exposure are both its own; what is told of it is not of the picture in sight', () => {
  const inSight = desk()
  expect([inSight.waits(1), inSight.isWaiting]).toEqual([false, false])
  expect([inSight.waits(2), inSight.isWaiting]).toEqual([true, true])
  expect([inSight.takesExposure(2), inSight.waits(2)]).toEqual([false, true])
  expect([inSight.takesLight(2, true), inSight.waits(2)]).toEqual([false, false])
  expect([inSight.take(2), inSight.isWaiting]).toEqual(['known', false])
  vi.runAllTimers()
  expect(late).not.toHaveBeenCalled()
  expect([inSight.takesLight(2, true), inSight.takesLight(2, false), inSight.takesExposure(2)]).toEqual([
    true,
    false,
    true,
  ])
})

test('a third set, or the first one again, waits for its own light and not for that of the second', () => {
  const inSight = desk()
  inSight.waits(2)
  inSight.takesLight(2, true)
  inSight.takesExposure(2)
  expect(inSight.waits(3)).toBe(true)
  inSight.takesLight(3, false)
  inSight.takesExposure(3)
  expect([inSight.waits(3), inSight.take(3)]).toEqual([false, 'known'])
})

test('a machine that takes too long shows what falls straight; its light is taken when it comes, new or not, and no earlier set’s', () => {
  const inSight = desk()
  inSight.waits(2)
  vi.advanceTimersByTime(2999)
  expect(late).not.toHaveBeenCalled()
  vi.advanceTimersByTime(2)
  expect(late).toHaveBeenCalledOnce()
  expect(inSight.take(2)).toBe('unknown')
  expect(inSight.takesExposure(1), 'until its own is read').toBe(true)
  expect(inSight.takesLight(1, true)).toBe(false)
  expect([inSight.takesLight(2, false), inSight.takesLight(2, false)]).toEqual([true, false])
})
