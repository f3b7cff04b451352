import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { BatchClock } from '../../src/ui/picture/batch-clock'

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['performance'] })
})
afterEach(() => {
  vi.useRealTimers()
})

test('what the first samples took, programs and all, is not counted', () => {
  const clock = new BatchClock()
  clock.start()
  vi.advanceTimersByTime(2000)
  expect(clock.batchMs(0)).toBe(null)
  expect(clock.batchMs(16)).toBe(null)
  vi.advanceTimersByTime(30)
  expect(clock.batchMs(64)).toBeCloseTo(10)
})

test('after a change all is', () => {
  const clock = new BatchClock()
  clock.batchMs(16)
  clock.start()
  vi.advanceTimersByTime(40)
  expect(clock.batchMs(32)).toBeCloseTo(20)
  clock.startCold()
  clock.start()
  vi.advanceTimersByTime(900)
  expect(clock.batchMs(16)).toBe(null)
})

test('a wait between two batches is not counted', () => {
  const clock = new BatchClock()
  clock.batchMs(16)
  clock.start()
  vi.advanceTimersByTime(500)
  clock.pause(16)
  vi.advanceTimersByTime(10)
  expect(clock.batchMs(32)).toBeCloseTo(10)
})
