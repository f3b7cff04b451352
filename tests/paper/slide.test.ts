/** A figure that may slide leaves what it would cover; what is covered is counted in another way, by samples along the lines. */
import { describe, expect, test } from 'vitest'
import { legible, type Point2, type Shape, slideClear } from '../../src/paper'

const AT = { scale: 100, x: 0, y: 0 }
const TEXT = 15
const line = (weight: 'object' | 'thin', ...points: Point2[]): Shape => ({
  ...{ kind: 'line', points, closed: false, weight, dash: 'solid', pencil: false, fill: 'none' },
})
/** Where nothing else is drawn no figure goes: a frame far round. */
const frame = (reach: number) =>
  line('thin', [-reach, -reach], [reach, -reach], [reach, reach], [-reach, reach], [-reach, -reach])
const figure = (from: Point2, to: Point2, angleDeg: number): Shape => ({
  ...{ kind: 'text', text: 'tape 1.00', anchor: 'middle', angleDeg, size: 'label', tone: 'pencil' },
  ...{ at: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2], stands: 'over', short: null, along: [from, to] },
})
type Words = Extract<Shape, { kind: 'text' }>
const slid = (shapes: readonly Shape[]): Words =>
  slideClear(shapes, AT, TEXT).find((shape): shape is Words => shape.kind === 'text' && shape.text === 'tape 1.00')!

/** Pixels of a line under the words: nine letters of 0.48 by 0.76 of the text's size, their middle 0.64 over or 0.71 under their point. */
function coveredPx(words: Words, [a, b]: readonly [Point2, Point2]): number {
  const turn = (words.angleDeg * Math.PI) / 180
  const lift = (words.stands === 'over' ? 0.64 : -0.71) * TEXT
  const count = 4000
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]) * AT.scale
  const under = Array.from({ length: count }, (_, i) => {
    const t = (i + 0.5) / count
    const [dx, dy] = [0, 1].map((k) => (a[k]! + (b[k]! - a[k]!) * t - words.at[k]!) * AT.scale) as [number, number]
    const along = dx * Math.cos(turn) + dy * Math.sin(turn)
    const up = dx * Math.sin(turn) - dy * Math.cos(turn) - lift
    return Math.abs(along) < (9 * 0.48 * TEXT) / 2 && Math.abs(up) < 0.38 * TEXT
  })
  return (under.filter(Boolean).length / count) * long
}

describe.each([0, 40, -65])('along a line at %i°', (angleDeg) => {
  const turn = (angleDeg * Math.PI) / 180
  const on = (u: number, v: number): Point2 => [
    u * Math.cos(turn) + v * Math.sin(turn),
    u * Math.sin(turn) - v * Math.cos(turn),
  ]
  const ends = [on(-1, 0), on(1, 0)] as const
  const words = figure(...ends, angleDeg)

  test('with nothing near it keeps the middle, over the line', () => {
    expect(slid([words, frame(4)])).toMatchObject({ at: [expect.closeTo(0, 9), expect.closeTo(0, 9)], stands: 'over' })
  })

  test('it leaves a lamp that lies over its middle, wherever there is room', () => {
    const lamp = [on(-0.2, 0.1), on(0.2, 0.1)] as const
    expect(coveredPx(words as Words, lamp)).toBeGreaterThan(30)
    const shapes = [words, line('object', ...lamp), frame(4)]
    expect(coveredPx(slid(shapes), lamp)).toBe(0)
    // A second one over and under the whole line is not to be met either.
    const all = [on(-1, 0.1), on(1, 0.1), on(1, -0.1), on(-1, -0.1)] as const
    const boxed = slid([words, line('object', ...all), frame(4)])
    expect(coveredPx(boxed, [all[0], all[1]]) + coveredPx(boxed, [all[2], all[3]])).toBe(0)
  })

  test('it does not go under the circle of a detail', () => {
    const detail: Shape = {
      ...{ kind: 'window', from: [0, 0], centre: on(0, 0.5), radiusM: 0.45, spanM: 0.1, about: [0, 0], shapes: [] },
    }
    expect(slid([words, frame(4)]).stands).toBe('over')
    expect(slid([words, detail, frame(4)]).stands).toBe('under')
  })

  test('a dimension in ink keeps within a height of its line, whatever it covers', () => {
    const wall = [-1, 0, 1].map((k) => line('object', on(-3, k * 0.12), on(3, k * 0.12)))
    const ink = { ...words, tone: 'ink' } as Shape
    const off = ({ at: [x, y] }: Words) => Math.abs(x * Math.sin(turn) - y * Math.cos(turn)) * AT.scale
    expect(off(slid([ink, ...wall, frame(4)]))).toBeLessThan(TEXT)
    expect(off(slid([words, ...wall, frame(4)]))).toBeGreaterThan(TEXT)
    // Nor does one of the thing in hand go out of sight of its line, whatever that would clear.
    const thick = Array.from({ length: 25 }, (_, k) => line('object', on(-3, (k - 12) * 0.12), on(3, (k - 12) * 0.12)))
    expect(off(slid([words, ...thick, frame(4)]))).toBeLessThan(2 * TEXT)
  })

  test('of two sides full of lines it takes that of the thin ones', () => {
    const over = [on(-3, 0.1), on(3, 0.1)] as const
    const wall = Array.from({ length: 24 }, (_, i) => [on(-3, 0.1 + i * 0.03), on(3, 0.1 + i * 0.03)] as const)
    const floor = Array.from({ length: 24 }, (_, i) => [on(-3, -0.1 - i * 0.03), on(3, -0.1 - i * 0.03)] as const)
    const found = slid([
      words,
      ...wall.map((w) => line('object', ...w)),
      ...floor.map((w) => line('thin', ...w)),
      frame(4),
    ])
    expect(found.stands).toBe('under')
    expect(coveredPx(found, over)).toBe(0)
  })
})

test('words that would run into others say less before they are left out', () => {
  const label = (x: number, text: string, short: string | null, tone: 'ink' | 'ink2'): Shape => ({
    ...{ kind: 'text', at: [x, 1], text, anchor: 'start', angleDeg: 0, size: 'label', tone, stands: 'over', short },
  })
  const said = (shapes: readonly Shape[]) =>
    legible(shapes, AT, TEXT).flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []))
  const black = label(0, 'black 0.60 × 0.90', 'black', 'ink2')
  expect(said([black, label(0.6, 'white', null, 'ink')])).toEqual(['black', 'white'])
  expect(said([black, label(2, 'white', null, 'ink')])).toEqual(['black 0.60 × 0.90', 'white'])
  expect(said([black, label(0.2, 'white', null, 'ink')])).toEqual(['white'])
})
