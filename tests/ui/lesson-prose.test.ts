/** Numbers in the words of a lesson: which of them are told as not settled yet. */
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import type { Reading } from '../../src/readings'
import { isJudgeable, Prose } from '../../src/ui/lesson/prose'
import { goalWords } from '../../src/ui/lesson/step-words'

const reading = (id: string, text: string, unit: string): Reading => ({
  ...{ id, text, unit, value: Number(text), sentence: '', band: null, sourceId: null },
  place: { name: '', at: [0, 0, 0] },
  why: { formula: '', filled: '', source: '' },
})
const READINGS = [reading('edge', '13', 'mm'), reading('depth', '2.5', 'stop')]

const said = (settled: boolean, text: string) =>
  renderToStaticMarkup(
    createElement(Prose, {
      text,
      hidden: [],
      states: { readingsOf: () => READINGS, settledOf: (set) => settled || set === 'done' },
    }),
  ).replace(/<[^>]*>/g, '')

test('what the light decides is marked, for eye and ear, until it is read to the end; a length is not', () => {
  expect(said(false, '{a: edge} and {a: depth}')).toBe('13 mm and ≈ not settled yet: 2.5 stops')
  expect(said(true, '{a: edge} and {a: depth}')).toBe('13 mm and 2.5 stops')
  expect(said(false, '{done: depth}')).toBe('2.5 stops')
  // A difference is as settled as both of its states.
  expect(said(false, '{done - a: depth}')).toContain('not settled yet')
})

test('a length is judged at once, what the light decides or does not show as a number once it is settled', () => {
  const judged = (settled: boolean, id: string, set: string | undefined = 'a') =>
    isJudgeable(
      { kind: 'number', of: { set, reading: id }, within: 1 },
      { settled, readingsOf: (name) => (name === 'unread' ? null : READINGS) },
    )
  expect([judged(false, 'edge'), judged(false, 'depth'), judged(false, 'pattern')]).toEqual([true, false, false])
  expect([judged(false, 'edge', 'unread'), judged(true, 'depth')]).toEqual([false, true])
  const choice = { words: '', holds: [{ set: 'a', reading: 'edge', minus: 'b', from: 1 }] }
  const apart = (reading: string) =>
    isJudgeable(
      { kind: 'choice', choices: [choice, { words: '', holds: [{ set: 'a', reading, to: 1 }] }] },
      { settled: false, readingsOf: () => READINGS },
    )
  expect([apart('edge'), apart('depth')]).toEqual([true, false])
})

test('a goal that asks for what was there at the start says how much that was', () => {
  const id = 'source.A.azimuthFromLens'
  const goal = { reading: id, minus: 'near', says: 'round', from: -5, to: 5 }
  const [now, begun] = [[reading(id, '10', '°')], [reading(id, '-32', '°')]]
  expect(goalWords(goal, now, 'near', begun)).toBe('round: as at the start (32° to camera left), within 5°')
  // Not read yet, and of another state than the one that is begun with.
  expect(goalWords(goal, now, 'near', null)).toBe('round: as at the start, within 5°')
  expect(goalWords(goal, now, 'far', begun)).toBe('round: within 5° of “near”')
})
