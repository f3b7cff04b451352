import { expect, test } from 'vitest'
import { BATCH } from '../../src/render/layouts'
import { pointsInTurn } from '../../src/render/points-in-turn'

const numbers = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => i)

test.each([1, 15, 16, 17, 64, 200, 256])(
  '%i points: no batch draws more than fit, and a round draws each once',
  (count) => {
    const turns = 2 ** Math.ceil(Math.log2(Math.max(1, count / BATCH)))
    const round = numbers(turns).map((batch) => pointsInTurn(numbers(count), batch))
    for (const points of round) {
      expect(points.length).toBeGreaterThan(0)
      expect(points.length).toBeLessThanOrEqual(BATCH)
    }
    expect(round.flat().sort((a, b) => a - b)).toEqual(numbers(count))
  },
)

test('256 points: two batches from an even one on leave no gap wider than half the stride, four none wider than a quarter', () => {
  const widest = (batches: readonly number[]): number => {
    const drawn = batches.flatMap((batch) => pointsInTurn(numbers(256), batch)).sort((a, b) => a - b)
    return Math.max(...drawn.slice(1).map((point, i) => point - drawn[i]))
  }
  expect(widest([0])).toBe(16)
  expect(widest([2, 3])).toBe(8)
  expect(widest([4, 5, 6, 7])).toBe(4)
})
