import { type Placement, toPane } from './placement'
import type { Shape } from './types'

export type Words = Extract<Shape, { kind: 'text' }>

/** Mean width of a letter, as a share of the size of the text. */
const LETTER = 0.48
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

export const isWords = (shape: Shape): shape is Words => shape.kind === 'text'

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
