import { expect, test } from 'vitest'
import { typedNumber } from '../../src/ui/lesson/typed-number'

const COURSE = Array.from({ length: 15 }, (_, i) => i + 1)

test('figures typed together are one number as long as there is such a lesson, else the last of them alone', () => {
  expect(typedNumber('', '1', COURSE)).toBe('1')
  expect(typedNumber('1', '1', COURSE)).toBe('11')
  expect(typedNumber('1', '0', COURSE)).toBe('10')
  expect(typedNumber('1', '6', COURSE)).toBe('6')
  expect(typedNumber('15', '2', COURSE)).toBe('2')
  expect(typedNumber('', '0', COURSE)).toBeNull()
  expect(typedNumber('2', '0', COURSE)).toBeNull()
})
