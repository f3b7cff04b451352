import { segmentsOf, within } from './covered'
import { inColumns } from './legible'
import type { Placement } from './placement'
import { isWords, LETTER_SIZE, meet, type Plate, plateOf, type Words } from './plates'
import type { Shape } from './types'

/** How far a letter may go from its own place and in how many directions it is tried, as times its height. */
const RINGS = [0.7, 1.2, 1.8, 2.5, 3.2]
const DIRECTIONS = 16
/** What a height of going away costs, and a label that is run into, as times a height of line that is covered. */
const COST = { away: 0.15, label: 4 }
/** Half the width and height of a letter with the white round it, as shares of its size. */
const HALF = [0.38, 0.42] as const

/** Where a drawing may reach: its upper left corner and its size. */
interface Pane {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/**
 * For paper, where nothing moves: letters moved a little, within the pane, to where they cover the least of lines and labels.
 * textPx: of labels, letterPx: of letters; all in the units of the placement.
 */
export function clearLetters(
  shapes: readonly Shape[],
  at: Placement,
  textPx: number,
  letterPx: number,
  pane: Pane,
): readonly Shape[] {
  const letters = shapes.filter(isWords).filter(({ size }) => size === 'letter')
  if (letters.length === 0) return shapes
  const segments = shapes.flatMap((shape) => segmentsOf(shape, at, textPx))
  const labels = inColumns(shapes, at, textPx)
    .filter(isWords)
    .filter(({ size }) => size === 'label')
    .map((words) => plateOf(words, at, textPx))
  const moved = new Map<Shape, Words>()
  const placed: Plate[] = []
  for (const letter of letters) {
    const best = placesFor(letterPx)
      .map(({ dx, dy, away }) => {
        const there: Words = { ...letter, at: [letter.at[0] + dx / at.scale, letter.at[1] + dy / at.scale] }
        const { middle, along } = plateOf(there, at, letterPx / LETTER_SIZE)
        const plate: Plate = { middle, along, half: [HALF[0] * letterPx, HALF[1] * letterPx] }
        const covered = segments.reduce((sum, { ends }) => sum + within(ends, plate), 0)
        const met = [...labels, ...placed].filter((other) => meet(plate, other)).length
        const isOut = away > 0 && !isWithin(plate, pane)
        return {
          there,
          plate,
          cost: isOut ? Number.POSITIVE_INFINITY : covered + letterPx * (COST.away * away + COST.label * met),
        }
      })
      .reduce((a, b) => (b.cost < a.cost - 1e-9 ? b : a))
    moved.set(letter, best.there)
    placed.push(best.plate)
  }
  return shapes.map((shape) => moved.get(shape) ?? shape)
}

const isWithin = ({ middle: [x, y], half: [wide, high] }: Plate, pane: Pane): boolean =>
  x - wide >= pane.x && x + wide <= pane.x + pane.width && y - high >= pane.y && y + high <= pane.y + pane.height

/** Its own place first. */
const placesFor = (letterPx: number): readonly { dx: number; dy: number; away: number }[] => [
  { dx: 0, dy: 0, away: 0 },
  ...RINGS.flatMap((away) =>
    Array.from({ length: DIRECTIONS }, (_, i) => {
      const turn = (2 * Math.PI * i) / DIRECTIONS
      return { dx: away * letterPx * Math.cos(turn), dy: away * letterPx * Math.sin(turn), away }
    }),
  ),
]
