import { describe, expect, test } from 'vitest'
import { lookShift, thresholdAt } from '../../src/render/coverage'

/** What a mean over thresholds must be for dithering to keep tone: the share itself (common knowledge, no source). */
const SHARES = [0.03, 0.11, 0.5, 0.83, 1]
const THREADS = [0, 0.137, 0.618, 0.99]

describe.each(SHARES)('a strand of share %f', (share) => {
  const isSeen = (x: number, y: number, shift: number) => thresholdAt(x, y, shift) < share

  test.each(THREADS)('is seen by its share of any 64 looks at a pixel, number %f', (thread) => {
    for (const [x, y] of [
      [0, 0],
      [3, 1],
      [517, 262],
    ]) {
      const seen = Array.from({ length: 64 }, (_, j) => isSeen(x, y, thread + lookShift(j))).filter(Boolean)
      expect(Math.abs(seen.length / 64 - share)).toBeLessThanOrEqual(1 / 64)
    }
  })

  test.each(THREADS)('is seen by its share of 4 × 4 pixels in any look, number %f', (thread) => {
    for (const j of [0, 1, 5, 12]) {
      const pixels = Array.from({ length: 16 }, (_, i) => [100 + (i % 4), 50 + Math.floor(i / 4)])
      const seen = pixels.filter(([x, y]) => isSeen(x, y, thread + lookShift(j)))
      expect(Math.abs(seen.length / 16 - share)).toBeLessThanOrEqual(1 / 16)
    }
  })
})

/** Bayer 1973 (from memory): the first two thresholds lie as far apart as 4 × 4 pixels allow, two columns and two lines. */
test('the lowest thresholds lie far apart', () => {
  const byRank = Array.from({ length: 16 }, (_, i) => [i % 4, Math.floor(i / 4)] as const).sort(
    (a, b) => thresholdAt(...a, 0) - thresholdAt(...b, 0),
  )
  const [[x0, y0], [x1, y1]] = byRank
  expect([Math.abs(x0 - x1), Math.abs(y0 - y1)]).toEqual([2, 2])
})
