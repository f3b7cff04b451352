import { expect, test } from 'vitest'
import {
  firstSitting,
  keepTake,
  openTake,
  readSitting,
  setNote,
  setPower,
  setTitle,
  writeSitting,
} from '../../src/sitting'
import { pictureKey, shows, showTake, takeShown, withTake } from '../../src/ui/takes/take'

const first = firstSitting()
const one = keepTake(first)
const two = keepTake(setPower(one, 'key', -2))

test('the set shows the take that it is, and no other', () => {
  const [a, b] = two.takes
  expect([shows(two, a), shows(two, b)]).toEqual([false, true])
  expect(takeShown(openTake(two, 'take 1'))?.name).toBe('take 1')
  expect(takeShown(setPower(two, 'key', -3))).toBeNull()
})

test('title and note are the sitting’s: a take shown later leaves them, and neither makes it another set', () => {
  const named = setNote(setTitle(two, 'Garden committee'), 'Four sitters.')
  expect(takeShown(named)?.name).toBe('take 2')
  const shown = showTake(named, 'take 1')
  expect([shown.title, shown.note]).toEqual(['Garden committee', 'Four sitters.'])
  expect(shown.sources).toBe(first.sources)
})

test('a set is kept under its name beside the others, the same set once, and another one of that name under the next', () => {
  const dark = setPower(two, 'key', -5)
  const known = withTake(two, setPower(two, 'key', -2), 'silver')
  expect(known).toEqual({ sitting: two, name: 'take 2' })
  const kept = withTake(two, dark, 'silver')
  expect(kept.name).toBe('silver')
  expect(kept.sitting.takes.map(({ name }) => name)).toEqual(['take 1', 'take 2', 'silver'])
  expect(kept.sitting.sources).toBe(two.sources)
  const other = withTake(kept.sitting, setPower(two, 'key', -6), 'silver')
  expect(other.name).toBe('silver, 2')
  expect('sitting' in readSitting(writeSitting(other.sitting))).toBe(true)
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
