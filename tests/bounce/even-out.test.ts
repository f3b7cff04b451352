import { expect, test } from 'vitest'
import { evenedOut } from '../../src/bounce/even-out'
import { hash32 } from '../../src/space'

const [COLUMNS, ROWS] = [40, 30]
const GRIDS = [{ surfaceId: 'wall', side: 'front', columns: COLUMNS, rows: ROWS, first: 0 }] as const
const evened = (at: (column: number, row: number) => number): Float32Array =>
  evenedOut(
    GRIDS,
    Float32Array.from({ length: 3 * COLUMNS * ROWS }, (_, k) => {
      const patch = Math.floor(k / 3)
      return at(patch % COLUMNS, Math.floor(patch / COLUMNS))
    }),
  )
const noisy = (column: number, row: number) => 1 + 0.2 * (hash32(column, row) / 2 ** 32 - 0.5)
const sum = (values: Float32Array) => values.reduce((total, value) => total + value, 0)
const spread = (values: Float32Array) => {
  const mean = sum(values) / values.length
  return Math.sqrt(values.reduce((total, value) => total + (value - mean) ** 2, 0) / values.length)
}

test('noise of neighbours falls to less than half [binomial 1 2 1 both ways: to 3/8], their sum stays', () => {
  const before = Float32Array.from({ length: 3 * COLUMNS * ROWS }, (_, k) => {
    const patch = Math.floor(k / 3)
    return noisy(patch % COLUMNS, Math.floor(patch / COLUMNS))
  })
  const after = evened(noisy)
  expect(sum(after) / sum(before)).toBeCloseTo(1, 6)
  expect(spread(after)).toBeLessThan(0.5 * spread(before))
})

test('a slope stays a slope within, and light across a jump of more than twice is not mixed', () => {
  const slope = evened((column) => 10 + 0.1 * column)
  for (let column = 1; column < COLUMNS - 1; column++)
    expect(slope[3 * (4 * COLUMNS + column)]).toBeCloseTo(10 + 0.1 * column, 5)
  const jump = evened((column) => (column < 20 ? 1 : 2.5))
  for (let column = 0; column < COLUMNS; column++)
    expect(jump[3 * (4 * COLUMNS + column)]).toBeCloseTo(column < 20 ? 1 : 2.5, 6)
})
