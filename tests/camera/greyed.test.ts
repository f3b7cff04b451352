import { expect, test } from 'vitest'
import { greyed } from '../../src/camera'

test('a pixel becomes its luma in all three codes; greys stay (ITU-R BT.709-6, item 3.2: 0.2126, 0.7152, 0.0722)', () => {
  const pixels = [255, 0, 0, 0, 255, 0, 0, 0, 255, 255, 255, 255, 0, 0, 0, 77, 77, 77]
  expect([...greyed(pixels)]).toEqual([54, 182, 18, 255, 0, 77].flatMap((code) => [code, code, code]))
})
