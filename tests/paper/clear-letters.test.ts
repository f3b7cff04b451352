/** Letters on paper stand where they cover the least, by plain geometry: every place of a fine grid is counted out in another way, by samples along the lines. */
import { expect, test } from 'vitest'
import { clearLetters, type Point2, type Shape } from '../../src/paper'

const letter = (at: Point2): Shape => ({
  ...{ kind: 'text', at, text: 'A', anchor: 'middle', angleDeg: 0, size: 'letter', tone: 'ink' },
  ...{ stands: 'on', short: null },
})
const line = (...points: Point2[]): Shape => ({
  ...{ kind: 'line', points, closed: false, weight: 'thin', dash: 'solid', pencil: false, fill: 'none' },
})
const AT = { scale: 40, x: 0, y: 0 }
const PANE = { x: 0, y: 0, width: 80, height: 80 }
const SIZE = 5.6
const cleared = (shapes: readonly Shape[], pane = PANE) =>
  clearLetters(shapes, AT, 3.9, SIZE, pane).flatMap((shape) => (shape.kind === 'text' ? [shape.at] : []))

/** Millimetres of the lines under a letter there, by samples a tenth of a millimetre apart. */
function coveredMm([x, y]: Point2, lines: readonly (readonly [Point2, Point2])[]): number {
  const middle = [x * AT.scale, y * AT.scale - 0.34 * SIZE]
  return lines.reduce((sum, [a, b]) => {
    const mm = AT.scale * Math.hypot(b[0] - a[0], b[1] - a[1])
    const count = Math.ceil(mm / 0.1)
    const under = Array.from({ length: count }, (_, i) =>
      [0, 1].map((k) => AT.scale * (a[k]! + ((b[k]! - a[k]!) * (i + 0.5)) / count)),
    )
    return (
      sum +
      (mm / count) *
        under.filter((p) => Math.abs(p[0]! - middle[0]!) < 0.38 * SIZE && Math.abs(p[1]! - middle[1]!) < 0.42 * SIZE)
          .length
    )
  }, 0)
}

test('a letter that covers nothing stays; one on a line leaves it, and no farther than it must', () => {
  expect(cleared([letter([1, 1]), line([0, 0], [0, 2])])).toEqual([[1, 1]])
  const on = [[0.2, 0.95] as const, [1.8, 0.95] as const] as const
  expect(coveredMm([1, 1], [on])).toBeGreaterThan(3)
  const [at] = cleared([letter([1, 1]), line(...on)])
  expect(coveredMm(at!, [on])).toBe(0)
  expect(AT.scale * Math.hypot(at![0] - 1, at![1] - 1)).toBeLessThan(1.3 * SIZE)
})

test('it stays within the pane, and off labels and other letters', () => {
  const on = [[0, 0.05] as const, [2, 0.05] as const] as const
  const [at] = cleared([letter([1, 0.1]), line(...on)])
  expect(AT.scale * at![1] - 0.34 * SIZE - 0.42 * SIZE).toBeGreaterThanOrEqual(0)
  expect(coveredMm(at!, [on])).toBe(0)
  const [one, two] = cleared([letter([1, 1]), letter([1.01, 1])])
  expect(AT.scale * Math.hypot(one![0] - two![0], one![1] - two![1])).toBeGreaterThan(0.7 * SIZE)
})

test('where all places cover something, it is the one that covers least', () => {
  // Uprights as close as the letter is wide, one gap wider than it.
  const uprights = [0.7, 0.78, 0.86, 0.94, 1.06, 1.14, 1.22, 1.3].map(
    (x) => [[x, 0] as const, [x, 2] as const] as const,
  )
  const [at] = cleared([letter([1.06, 1]), ...uprights.map((points) => line(...points))])
  const least = Math.min(...Array.from({ length: 61 }, (_, i) => coveredMm([0.7 + 0.01 * i, 1], uprights)))
  expect(coveredMm(at!, uprights)).toBeLessThanOrEqual(least + 0.2)
})
