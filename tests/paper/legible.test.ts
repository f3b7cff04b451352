import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Shape } from '../../src/paper'
import { legible, spread } from '../../src/paper'

const label = (at: readonly [number, number], text: string, tone: 'ink' | 'ink2' | 'pencil' = 'ink'): Shape => ({
  kind: 'text',
  at,
  text,
  anchor: 'middle',
  angleDeg: 0,
  size: 'label',
  tone,
  stands: 'on',
  short: null,
})
const wordsOf = (shapes: readonly Shape[]) => shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []))
const at = { scale: 100, x: 0, y: 0 }

test('of two labels that meet, the lesser is left out; apart, or turned away, both stay', () => {
  const crowded = [label([1, 1], 'paper 2.72', 'ink2'), label([1.05, 1.02], 'tape 1.00', 'pencil')]
  expect(wordsOf(legible(crowded, at, 15))).toEqual(['tape 1.00'])
  expect(wordsOf(legible([crowded[0]!, label([1, 1.3], 'tape 1.00')], at, 15))).toHaveLength(2)
  // An upright label beside a level one: their upright boxes would meet, the turned ones do not.
  const upright = { ...label([1.5, 1], 'white 1.00'), angleDeg: -90 } as Shape
  expect(wordsOf(legible([label([1, 1], 'A label'), upright], at, 15))).toHaveLength(2)
})

test('crowded heights open about their mean, the rest stay', () => {
  const opened = spread([1, 1.05, 1.1, 3], 0.2)
  for (const [i, height] of [0.85, 1.05, 1.25, 3].entries()) expect(opened[i]).toBeCloseTo(height, 12)
})

test('spread keeps the order, the step and the mean', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { maxLength: 12 }), (values) => {
      const sorted = [...values].sort((a, b) => a - b)
      const apart = spread(sorted, 0.3)
      const sum = (all: readonly number[]) => all.reduce((a, b) => a + b, 0)
      expect(apart).toHaveLength(sorted.length)
      expect(sum(apart)).toBeCloseTo(sum(sorted), 9)
      for (let i = 1; i < apart.length; i++) expect(apart[i]! - apart[i - 1]!).toBeGreaterThanOrEqual(0.3 - 1e-9)
    }),
  )
})
