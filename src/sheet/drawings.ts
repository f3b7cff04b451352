import { type Drawing, drawElevation, drawPlan, lengthLabel } from '../paper'
import {
  type Block,
  columnWidth,
  leadRoom,
  type PaperSize,
  SCALE_ROW,
  SCALES,
  type Section,
  sizeOnPaper,
} from '../print'
import { figure } from '../readings'
import type { RigSource } from '../rig'
import { stands } from './tape'
import type { SheetInput } from './types'
import { toHand } from './words'

/** Of a wide backdrop, so that the plan has room for what stands before it, m. */
const BACKDROP_SHOWN_M = 1.6
/** Lines of the foot, at most. */
const FOOT_LINES = 3

/**
 * Plan and one elevation beside the tables: square to the only source, else from camera left, and then an elevation square to
 * each, as many as have room there and the others after the tables. look: the line over them.
 */
export function drawingsOf(
  input: SheetInput,
  paper: PaperSize,
  look: string,
): { readonly lead: readonly Block[]; readonly more: readonly Section[] } {
  const { rig, exposure } = input
  // Meters have a table of their own; on the face they would be blots.
  const sitting = { ...input.sitting, meterPlaces: [] }
  const standing = rig.sources.filter((source) => stands(sitting, source))
  const key = standing.find(({ role, on }) => on && role === 'key') ?? standing[0] ?? null
  const draw = (selected: string | null) => ({
    sitting,
    rig,
    selected,
    units: 'both' as const,
    backdropShownM: BACKDROP_SHOWN_M,
    fNumber: exposure.fNumber,
  })
  const plan = forPaper(drawPlan(draw(key?.id ?? null)), false)
  const square = ({ id }: RigSource) => forPaper(drawElevation(draw(id)), true)
  const only = standing.length === 1 && key ? key : null
  const elevation = only ? square(only) : forPaper(drawElevation(draw(null)), true)
  const room = leadRoom(paper, FOOT_LINES, look)
  const [planScale, scale] = scalesFor(plan, elevation, room)
  const isOne = planScale === scale
  const seen = only ? `square to ${only.letter}` : 'from camera left'
  const blocks: Drawn[] = [
    drawn(plan, planScale, isOne ? `Plan, and ${seen}` : 'Plan'),
    { ...drawn(elevation, scale, `Elevation ${seen}`), bar: !isOne },
  ]
  const more: Section[] = []
  for (const source of only ? [] : standing) {
    const drawing = square(source)
    const caption = `Elevation square to ${source.letter}`
    const here = drawn(drawing, scale, caption)
    if (heightOf([...blocks, here]) <= room.height && sizeAt(drawing, scale).width <= room.width) blocks.push(here)
    else {
      const at = scaleFor(drawing, { width: columnWidth(paper), height: MOST_HEIGHT_MM })
      more.push({ title: `${source.letter}, ${source.role}`, blocks: [drawn(drawing, at, caption)] })
    }
  }
  return { lead: blocks, more }
}

type Drawn = Extract<Block, { kind: 'drawing' }>
type TextShape = Extract<Drawing['shapes'][number], { kind: 'text' }>

/** Of a drawing after the tables, mm: it leaves room on its page. */
const MOST_HEIGHT_MM = 200

const drawn = (drawing: Drawing, scale: number, caption: string): Drawn => ({
  kind: 'drawing',
  drawing: atScale(drawing, scale),
  scale,
  caption,
  bar: true,
})

const heightOf = (blocks: readonly Drawn[]): number =>
  blocks.reduce((sum, { drawing, scale, bar }) => sum + sizeAt(drawing, scale).height + 1 + (bar ? SCALE_ROW : 0), 0)

type Room = { readonly width: number; readonly height: number }

/** The largest scale at which a drawing has room; the smallest there is where none has. */
function scaleFor(drawing: Drawing, { width, height }: Room): number {
  const fits = (scale: number) => {
    const size = sizeAt(drawing, scale)
    return size.width <= width && size.height + 1 <= height
  }
  return SCALES.find(fits) ?? SCALES[SCALES.length - 1]
}

/** Plans of the trade are drawn to 1 : 50 or larger (trade.md §5): smaller than this, words are larger than what they tell of. */
const SMALLEST_USUAL = 50

/**
 * For two drawings one under the other: the largest scale at which both have room; where the first alone could be twice as
 * large, it is, and the second as large as what is left, if that is usual or not under half as large.
 */
function scalesFor(first: Drawing, second: Drawing, { width, height }: Room): readonly [number, number] {
  const leftBy = (scale: number) => height - SCALE_ROW - sizeAt(first, scale).height - 1
  const both = SCALES.find(
    (scale) =>
      Math.max(sizeAt(first, scale).width, sizeAt(second, scale).width) <= width &&
      sizeAt(second, scale).height + 1 <= leftBy(scale),
  )
  const last = SCALES[SCALES.length - 1]
  const alone = SCALES.find((scale) => {
    const room = { width, height: leftBy(scale) - SCALE_ROW }
    return sizeAt(first, scale).width <= width && scaleFor(second, room) <= Math.max(SMALLEST_USUAL, 2 * scale)
  })
  if (alone !== undefined && 2 * alone <= (both ?? last)) {
    return [alone, scaleFor(second, { width, height: leftBy(alone) - SCALE_ROW })]
  }
  return [both ?? last, both ?? last]
}

/** The enlarged edge is left out: it moves with the hand, and its millimetres are a reading. */
const forPaper = <D extends Drawing>(drawing: D, inFewWords: boolean): D => ({
  ...drawing,
  shapes: drawing.shapes
    .filter(({ kind }) => kind !== 'window')
    .map((shape) => (shape.kind !== 'text' ? shape : inFewWords ? byHand(inFew(shape)) : asTaped(shape))),
})

/** Tape and heights stand on the source's card to what a hand sets: the same figure beside the drawing. */
const SET_BY_HAND = /^((?:tape |eye line )?)([\d.]+) m(, \d+′ \d+″)?(.*)$/
const byHand = (shape: TextShape): TextShape => ({
  ...shape,
  text: shape.text.replace(SET_BY_HAND, (_, name, metres, feet, rest) => {
    const hand = toHand(Number(metres))
    return `${name}${figure(hand, 2)} m${feet ? `, ${lengthLabel(hand, 'feet')}` : ''}${rest}`
  }),
})

const METRES_AND_FEET = /^(.*[\d.]+ m), (\d+′ \d+″)(.*)$/

/** Of a plan's words only the tape: what stands on the floor is measured to the centimetre. */
const asTaped = (shape: TextShape): TextShape => (shape.text.startsWith('tape ') ? byHand(shape) : shape)

/** Along a line there is no room for metres and feet: the source's card has them side by side. */
function inFew(shape: TextShape): TextShape {
  const text = shape.short ?? shape.text
  return { ...shape, text: shape.angleDeg === 0 ? text : text.replace(METRES_AND_FEET, '$1$3') }
}

/** Smaller than this, two lines would run into those of the next height: feet then stand behind the metres. */
const TWO_LINES_UP_TO = 25

/** Level words beside a large elevation: metres over the line that they stand at, feet under it, so that the drawing keeps its room. */
function atScale(drawing: Drawing, scale: number): Drawing {
  if (!('alongX' in drawing)) return scale > TWO_LINES_UP_TO ? withShortTape(drawing) : drawing
  if (scale > TWO_LINES_UP_TO) return drawing
  return {
    ...drawing,
    shapes: drawing.shapes.flatMap((shape) => (shape.kind === 'text' ? inTwoLines(shape) : [shape])),
  }
}

/** On a small plan metres and feet would reach over lamp and head. */
const withShortTape = (drawing: Drawing): Drawing => ({
  ...drawing,
  shapes: drawing.shapes.map((shape) =>
    shape.kind === 'text' && shape.text.startsWith('tape ') ? inFew(shape) : shape,
  ),
})

function inTwoLines(shape: TextShape): Drawing['shapes'] {
  const [, metres, feet, rest] = METRES_AND_FEET.exec(shape.text) ?? []
  if (metres === undefined || shape.angleDeg !== 0) return [shape]
  return [
    { ...shape, text: `${metres}${rest}`, stands: 'over' },
    { ...shape, text: feet!, stands: 'under' },
  ]
}

const sizeAt = (drawing: Drawing, scale: number) => sizeOnPaper(atScale(drawing, scale), scale)
