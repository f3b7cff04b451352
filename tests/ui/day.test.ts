import { expect, test } from 'vitest'
import { emptyDay, laidOver } from '../../src/ui/carry/day-store'
import { typedAt } from '../../src/ui/carry/measured'
import { parseLength } from '../../src/ui/values'

const typed = { 'height.key': '1.5', 'tape.A.x': "4' 6", 'distance.key': '120 cm', 'meter.ratio.nearFar': '-1.8' }

test('a length typed for the day keeps its unit when the page counts in the other: metres, and the foot of 0.3048 m', () => {
  const all = { 'height.key': 'metres', 'tape.A.x': 'feet', 'distance.key': 'metres' } as const
  const day = { typed, typedIn: { ...all, 'meter.ratio.nearFar': 'metres' as const } }
  expect(typedAt(day, 'height.key', 'metres')).toBe('1.5')
  expect(typedAt(day, 'height.key', 'feet')).toBe('1.5 m')
  for (const [name, metres] of [
    ['height.key', 1.5],
    ['tape.A.x', 4.5 * 0.3048],
    ['distance.key', 1.2],
  ] as const)
    for (const units of ['metres', 'feet'] as const) {
      const read = parseLength(typedAt(day, name, units), units)
      expect(read.ok && read.value, `${name} in ${units}`).toBeCloseTo(metres, 9)
    }
  // Stops have no other unit.
  expect(typedAt(day, 'meter.ratio.nearFar', 'feet')).toBe('-1.8')
  expect(typedAt({ typed: { 'height.key': '5' }, typedIn: { 'height.key': 'feet' } }, 'height.key', 'metres')).toBe(
    '5 ft',
  )
})

test('what was typed before that was kept counts as the page does, and nothing typed is nothing', () => {
  expect(typedAt({ typed, typedIn: {} }, 'height.key', 'feet')).toBe('1.5')
  expect(typedAt({ typed: {}, typedIn: {} }, 'height.key', 'feet')).toBe('')
})

test('what a page had not written is laid over what another tab wrote meanwhile: neither is lost', () => {
  const heard = {
    ...emptyDay('a day'),
    typed: { 'height.key': '1.5', 'dial.key': '3' },
    ticks: { tripod: true, tape: true } as const,
  }
  const here = {
    ...heard,
    typed: { ...heard.typed, 'height.key': '1.6' },
    ticks: { tripod: true } as const,
    at: '2026-11-27T01:00:00Z',
  }
  const there = {
    ...heard,
    typed: { ...heard.typed, 'dial.key': '4' },
    ticks: { ...heard.ticks, clamp: true } as const,
    note: 'rain',
  }
  expect(laidOver(there, heard, here)).toEqual({
    ...there,
    typed: { 'height.key': '1.6', 'dial.key': '4' },
    ticks: { tripod: true, clamp: true },
    typedIn: {},
    at: here.at,
  })
  expect(laidOver(heard, heard, here)).toMatchObject({ typed: here.typed, ticks: here.ticks, note: '' })
})
