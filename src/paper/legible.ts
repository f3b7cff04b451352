import { type Placement, toPane } from './placement'
import type { Shape } from './types'

export type Words = Extract<Shape, { kind: 'text' }>

/** Mean width of a letter and height of a line, as shares of the size of the text. */
const LETTER = 0.48
const LINE = 1.1
/** A source's letter against the text. */
export const LETTER_SIZE = 1.27

/** From the point to the middle of the words, upwards, as a share of the size of the text: as it is drawn. */
const LIFT = { on: 0.34, over: 0.64, under: -0.71 }

/** A label's rectangle on the pane: its middle, the unit along its words, and half its sizes, pixels. */
export interface Plate {
  readonly middle: readonly [number, number]
  readonly along: readonly [number, number]
  readonly half: readonly [number, number]
}

/**
 * The shapes as the pane can carry them: labels in one column stand a line apart, and of two labels that would run into
 * one another the lesser is left out. Letters go before the pencil's labels, those before ink, that before the rest.
 */
export function legible(shapes: readonly Shape[], at: Placement, textPx: number): readonly Shape[] {
  const apart = inColumns(shapes, at, textPx)
  const kept: Plate[] = []
  const dropped = new Set<Shape>()
  for (const words of apart.filter(isWords).sort((a, b) => rank(a) - rank(b))) {
    const plate = plateOf(words, at, textPx)
    if (kept.some((other) => meet(plate, other))) dropped.add(words)
    else kept.push(plate)
  }
  return dropped.size === 0 ? apart : apart.filter((shape) => !dropped.has(shape))
}

export const isWords = (shape: Shape): shape is Words => shape.kind === 'text'

const rank = ({ size, tone }: Words): number => (size === 'letter' ? 0 : tone === 'pencil' ? 1 : tone === 'ink' ? 2 : 3)

/** Level labels that begin at one x are moved up and down from their middle until each has its line. */
export function inColumns(shapes: readonly Shape[], at: Placement, textPx: number): readonly Shape[] {
  const columns = new Map<number, Words[]>()
  for (const words of shapes.filter(isWords)) {
    if (words.angleDeg !== 0 || words.anchor !== 'start' || words.size === 'letter' || words.stands !== 'on') continue
    columns.set(words.at[0], [...(columns.get(words.at[0]) ?? []), words])
  }
  const moved = new Map<Shape, Words>()
  for (const column of columns.values()) {
    const stepM = (textPx * LINE) / at.scale
    const sorted = [...column].sort((a, b) => a.at[1] - b.at[1])
    const ys = spread(
      sorted.map((words) => words.at[1]),
      stepM,
    )
    sorted.forEach((words, i) => {
      if (ys[i] !== words.at[1]) moved.set(words, { ...words, at: [words.at[0], ys[i]!] })
    })
  }
  return moved.size === 0 ? shapes : shapes.map((shape) => moved.get(shape) ?? shape)
}

/** Rising numbers, moved as little as keeps each at least a step from the next: crowded runs open about their mean. */
export function spread(values: readonly number[], step: number): number[] {
  const runs: { sum: number; count: number }[] = []
  const startOf = ({ sum, count }: { sum: number; count: number }) => sum / count - ((count - 1) * step) / 2
  for (const value of values) {
    runs.push({ sum: value, count: 1 })
    while (runs.length > 1) {
      const [before, last] = runs.slice(-2) as [(typeof runs)[0], (typeof runs)[0]]
      if (startOf(last) - startOf(before) >= before.count * step - 1e-9) break
      runs.splice(-2, 2, { sum: before.sum + last.sum, count: before.count + last.count })
    }
  }
  return runs.flatMap((run) => Array.from({ length: run.count }, (_, i) => startOf(run) + i * step))
}

/** Corners and middles of the labels' rectangles, pixels of the pane. */
export const platesOf = (shapes: readonly Shape[], at: Placement, textPx: number): (readonly [number, number])[] =>
  shapes.filter(isWords).flatMap((words) => {
    const { middle, along, half } = plateOf(words, at, textPx)
    return [-1, -0.5, 0, 0.5, 1].flatMap((u) =>
      [-1, 1].map(
        (v) =>
          [
            middle[0] + along[0] * u * half[0] - along[1] * v * half[1],
            middle[1] + along[1] * u * half[0] + along[0] * v * half[1],
          ] as const,
      ),
    )
  })

export function plateOf(
  { at: point, text, anchor, angleDeg, size, stands }: Words,
  at: Placement,
  textPx: number,
): Plate {
  const px = size === 'letter' ? textPx * LETTER_SIZE : textPx
  const width = text.length * LETTER * px
  const angle = (angleDeg * Math.PI) / 180
  const along = [Math.cos(angle), Math.sin(angle)] as const
  const [x, y] = toPane(at, point)
  // From the anchor on the base line to the middle of the words.
  const shift = anchor === 'start' ? width / 2 : anchor === 'end' ? -width / 2 : 0
  const lift = LIFT[stands] * px
  return {
    middle: [x + along[0] * shift + along[1] * lift, y + along[1] * shift - along[0] * lift],
    along,
    half: [width / 2, 0.38 * px],
  }
}

/** Whether two turned rectangles overlap: no axis of either parts them. */
export function meet(a: Plate, b: Plate): boolean {
  const between = [b.middle[0] - a.middle[0], b.middle[1] - a.middle[1]] as const
  const axes = [a.along, [-a.along[1], a.along[0]], b.along, [-b.along[1], b.along[0]]] as const
  return axes.every(([x, y]) => Math.abs(between[0] * x + between[1] * y) < reach(a, x, y) + reach(b, x, y))
}

const reach = ({ along, half }: Plate, x: number, y: number): number =>
  half[0] * Math.abs(along[0] * x + along[1] * y) + half[1] * Math.abs(along[0] * y - along[1] * x)
