import { describe, expect, test } from 'vitest'
import { hash32, sobol } from '../../src/space'

/** S. Joe and F. Y. Kuo, "Notes on generating Sobol sequences" (2008), example of ten points in three dimensions (from memory). */
const PUBLISHED = [
  [0, 0, 0],
  [0.5, 0.5, 0.5],
  [0.75, 0.25, 0.25],
  [0.25, 0.75, 0.75],
  [0.375, 0.375, 0.625],
  [0.875, 0.875, 0.125],
  [0.625, 0.125, 0.875],
  [0.125, 0.625, 0.375],
  [0.1875, 0.3125, 0.9375],
  [0.6875, 0.8125, 0.4375],
]
const grayCode = (n: number): number => n ^ (n >>> 1)

describe('sobol', () => {
  test('is the published sequence, which is listed in Gray-code order', () => {
    const ours = PUBLISHED.map((_, n) => [0, 1, 2].map((dimension) => sobol(grayCode(n), dimension)))
    expect(ours).toEqual(PUBLISHED)
  })

  test.each([16, 64, 256])(
    'any aligned %i points put one in every elementary interval of the first two dimensions',
    (count) => {
      const scramble: [number, number] = [hash32(1, 7), hash32(2, 7)]
      for (let wide = 1; wide <= count; wide *= 2) {
        const cells = new Set<number>()
        for (let i = 0; i < count; i++) {
          const column = Math.floor(sobol(i + 3 * count, 0, scramble[0]) * wide)
          const row = Math.floor(sobol(i + 3 * count, 1, scramble[1]) * (count / wide))
          cells.add(row * wide + column)
        }
        expect(cells.size).toBe(count)
      }
    },
  )

  test('every dimension is even on its own: mean of 1,024 points within the first cell of ½', () => {
    for (const dimension of [0, 1, 2, 3, 4, 5]) {
      let sum = 0
      for (let i = 0; i < 1024; i++) sum += sobol(i, dimension, hash32(dimension, 3))
      expect(Math.abs(sum / 1024 - 0.5)).toBeLessThan(1 / 1024)
    }
  })
})
