/** Numbers in the words of a lesson: which of them are told as not settled yet. */
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import type { Reading } from '../../src/readings'
import { isJudgeable, Prose } from '../../src/ui/lesson/prose'

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
