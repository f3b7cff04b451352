import { expect, test } from 'vitest'
import { counted, dialFraction, figure, lengthText, roundTo, signed, softness } from '../../src/readings/words'

test('numbers carry a true minus sign, and none where they round to nothing', () => {
  expect([figure(-3.04, 1), figure(-0.04, 1), figure(2.5, 0), signed(0.6), signed(-0.04), signed(-2)]).toEqual([
    '−3.0',
    '0.0',
    '3',
    '+0.6',
    '0.0',
    '−2.0',
  ])
})

test('lengths as a tape shows them: 1 ft = 0.3048 m, to the half inch', () => {
  expect(lengthText(1.786, 'metres')).toBe('1.79')
  expect(lengthText(0.3048 * 5 + 0.0254 * 10.5, 'feet')).toBe('5′ 10½″')
  expect(lengthText(0.3048 * 6 - 0.001, 'feet')).toBe('6′ 0″')
  expect(lengthText(0.0127, 'feet')).toBe('0′ ½″')
})

// Common practice, no source: a hand turns to the nearest click of a full step and then by tenths.
test('a dial names the nearest full step and the tenths from it', () => {
  expect([0, -1, -3.1, -4.8, -5, 1.2, -0.04, -1.5].map(dialFraction)).toEqual([
    'full',
    '1/2',
    '1/8 − 0.1',
    '1/32 + 0.2',
    '1/32',
    'full + 1.2',
    'full',
    '1/2 − 0.5',
  ])
})

test('softness by apparent size: under 6° hard, to 15° crisp, to 30° medium, to 50° soft (trade table)', () => {
  expect([3, 7, 24, 33, 62].map(softness)).toEqual(['hard', 'crisp', 'medium', 'soft', 'very soft'])
})

test('a side is named only where there is one', () => {
  expect([roundTo(0.2), roundTo(-30), roundTo(45)]).toEqual(['straight on', 'to camera left', 'to camera right'])
})

test('equal things are counted, not listed twice', () => {
  expect(counted(['white panel'])).toEqual(['the white panel'])
  expect(counted(['white panel', 'silver panel', 'white panel'])).toEqual(['two white panels', 'the silver panel'])
})
