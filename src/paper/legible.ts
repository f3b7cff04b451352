import type { Box } from './covered'
import type { Placement } from './placement'
import { isWords, meet, type Plate, plateOf, type Words } from './plates'
import { slideClear } from './slide'
import type { Shape } from './types'

/** Height of a line, as a share of the size of the text. */
const LINE = 1.1

/**
 * The shapes as the pane can carry them: labels that may slide stand clear, those in one column a line apart, and of two that
 * would run into one another the lesser says less, or is left out. room: where labels may slide to, left out: where something is drawn. Letters go before the pencil's labels, those before ink, that before the rest.
 */
export function legible(shapes: readonly Shape[], at: Placement, textPx: number, room?: Box): readonly Shape[] {
  const apart = inColumns(slideClear(shapes, at, textPx, room), at, textPx)
  const kept: Plate[] = []
  const said = new Map<Shape, Words | null>()
  for (const words of apart.filter(isWords).sort((a, b) => rank(a) - rank(b))) {
    const clear = [words.text, ...(words.short === null ? [] : [words.short])]
      .map((text) => ({ ...words, text }))
      .find((tried) => !kept.some((other) => meet(plateOf(tried, at, textPx), other)))
    if (clear) kept.push(plateOf(clear, at, textPx))
    if (clear?.text !== words.text) said.set(words, clear ?? null)
  }
  return said.size === 0
    ? apart
    : apart.flatMap((shape) => {
        const words = said.get(shape)
        return words === undefined ? [shape] : words === null ? [] : [words]
      })
}

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
