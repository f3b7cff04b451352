import { expect, test } from 'vitest'
import type { Drawing, Shape } from '../../src/paper'
import { largestScale, place, toPane } from '../../src/ui/drawing/fit'
import { freeSpot } from '../../src/ui/drawing/window'

const words = (text: string, at: readonly [number, number], anchor: 'start' | 'end'): Shape => ({
  kind: 'text',
  at,
  text,
  anchor,
  angleDeg: 0,
  size: 'label',
  tone: 'ink',
  stands: 'on',
  short: null,
})
const bounds = { minX: 0, minY: -1, maxX: 2, maxY: 0 }
const drawing: Drawing = {
  bounds,
  shapes: [words('1.78 centre', [2, -0.5], 'start'), words('eye line 1.20', [0, -0.5], 'end')],
  handles: [],
  caption: '',
  description: '',
}
const pane = { width: 500, height: 400, textPx: 15, titlePx: 30 }

test('a drawing is as large as leaves its words on both sides within the pane', () => {
  const scale = largestScale(drawing, pane)
  const at = place(drawing, pane, scale, false)
  const [left] = toPane(at, [0, 0])
  const [right] = toPane(at, [2, 0])
  // Half an em a letter is what the page's text takes on average; its own measure is a little less.
  const wide = (text: string) => text.length * 0.49 * pane.textPx
  expect(left - wide('eye line 1.20')).toBeGreaterThanOrEqual(12 - 1e-6)
  expect(right + wide('1.78 centre')).toBeLessThanOrEqual(500 - 12 + 1e-6)
  // It is the words that limit it here: without them it could be a third larger at least.
  expect(largestScale({ ...drawing, shapes: [] }, pane)).toBeGreaterThan(1.33 * scale)
})

const line = (points: readonly (readonly [number, number])[]): Shape => ({
  kind: 'line',
  points,
  closed: false,
  weight: 'object',
  dash: 'solid',
  pencil: false,
  fill: 'none',
})
const at = { scale: 100, x: 0, y: 0 }

test('the window stands off every line, at full size where there is room, near to its place', () => {
  const upright = line([
    [2, 0],
    [2, 4],
  ])
  const spot = freeSpot({ shapes: [upright], at, pane }, [2.2, 2], null)!
  expect(spot.radius).toBeCloseTo(5.4 * 15, 6)
  expect(Math.abs(spot.centre[0] - 200)).toBeGreaterThan(spot.radius)
  expect(spot.centre[0]).toBeGreaterThan(200)
  const left = freeSpot({ shapes: [upright], at, pane }, [1.8, 2], null)!
  expect(left.centre[0]).toBeLessThan(200)
})

test('it stays where it is while that is free, and goes where nothing is left', () => {
  const before = { centre: [100, 300] as const, radius: 60 }
  expect(freeSpot({ shapes: [], at, pane }, [4, 1], before)).toEqual(before)
  const full = Array.from({ length: 20 }, (_, i) =>
    line([
      [0, i * 0.2],
      [5, i * 0.2],
    ]),
  )
  expect(freeSpot({ shapes: full, at, pane }, [2, 2], before)).toBeNull()
})
