import { expect, test } from 'vitest'
import { fNumberFromThird, formatFNumber, formatNearestThird, nearestThird, THIRD_STOP_MARKS } from '../../src/camera'

/** Readings of meters: whole stop below and tenths. Marks: ISO 517 and common practice. */
test.each([
  [8, 'f/8'],
  [8 * 2 ** 0.3, 'f/8 + 0.6'],
  [8 * 2 ** (0.96 / 2), 'f/11'],
  [8 * 2 ** (0.94 / 2), 'f/8 + 0.9'],
  [5.6, 'f/5.6'],
  [22, 'f/16 + 0.9'],
  [2 ** 4.5, 'f/22'],
  [1, 'f/1'],
  [0.71, 'f/0.7'],
  [0.5, 'f/0.5'],
  [0.4, 'under f/0.5'],
  [128, 'f/128'],
  [200, 'over f/128'],
  [0, 'no light'],
  [Number.NaN, 'no light'],
])('%f reads %s', (fNumber, text) => {
  expect(formatFNumber(fNumber)).toBe(text)
})

test.each([
  [8, 'f/8'],
  [9.8, 'f/10'],
  [8.4, 'f/8'],
  [8.5, 'f/9'],
  [0.8, 'under f/1'],
  [90, 'over f/64'],
  [0, 'no light'],
])('the dial nearest to %f is %s', (fNumber, text) => {
  expect(formatNearestThird(fNumber)).toBe(text)
})

test('every mark is the nearest to the exact number it stands for, and within 0.15 stop of it', () => {
  THIRD_STOP_MARKS.forEach((mark, third) => {
    expect(nearestThird(fNumberFromThird(third))).toBe(mark)
    expect(Math.abs(2 * Math.log2(mark / fNumberFromThird(third)))).toBeLessThan(0.15)
  })
})
