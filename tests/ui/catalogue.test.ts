import { expect, test } from 'vitest'
import { COURSE, kinOf, nextAfter } from '../../src/ui/lesson/catalogue'

/** By the course's own titles: size, distance and lining are its three lessons on the edge of a shadow, fill and the room its two on fill. */
test('a lesson names another one on the same thing, which exists and is not the one that follows it', () => {
  const title = (number: number) => COURSE.find((entry) => entry.number === number)!
  expect(kinOf(title(2))).toBeNull()
  expect(nextAfter(title(2))!.number).toBe(3)
  expect(kinOf(title(3))!.entry.title).toBe('Modifiers compared: silver and white')
  expect(kinOf(title(11))!.entry.title).toBe('Soft or hard shadow')
  expect([kinOf(title(10))!.entry.number, kinOf(title(14))!.entry.number]).toEqual([14, 10])
  expect(kinOf(title(5))).toBeNull()
})
