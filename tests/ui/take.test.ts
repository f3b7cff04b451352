import { expect, test } from 'vitest'
import { firstSitting, keepTake, openTake, readSitting, setPower, writeSitting } from '../../src/sitting'
import { pictureKey, shows, takeShown } from '../../src/ui/takes/take'

const first = firstSitting()
const one = keepTake(first)
const two = keepTake(setPower(one, 'key', -2))

test('the set shows the take that it is, and no other', () => {
  const [a, b] = two.takes
  expect([shows(two, a), shows(two, b)]).toEqual([false, true])
  expect(takeShown(openTake(two, 'take 1'))?.name).toBe('take 1')
  expect(takeShown(setPower(two, 'key', -3))).toBeNull()
})

test('a take keeps its picture’s key through a file, and different sets have different ones', () => {
  const read = readSitting(writeSitting(two))
  if (!('sitting' in read)) throw new Error('expected the sitting to be read')
  const keys = two.takes.map(pictureKey)
  expect(read.sitting.takes.map(pictureKey)).toEqual(keys)
  expect(keys[0]).not.toBe(keys[1])
  expect(keys[0]).toMatch(/^[0-9a-f]{16}$/)
})

test('the key is that of the set alone: the same set kept twice has one picture', () => {
  const again = keepTake(one)
  expect(pictureKey(again.takes[0])).toBe(pictureKey(again.takes[1]))
})
