import {
  AVERAGE_SHAPE,
  atAge,
  checkShape,
  eyeHeightOf,
  type FigureShape,
  type Posture,
  SHAPE_PRESETS,
  ShapeError,
  type ShapePresetName,
} from '../../figure'
import { EditRefused, type Problem } from '../problems'
import type { Sitter, Sitting } from '../types'
import type { Added } from './set'
import { changeThing, freeId, thingById } from './things'

/** The sitter's own, or the average where the document names none. */
export const shapeOf = ({ shape }: Pick<Sitter, 'shape'>): FigureShape => shape ?? AVERAGE_SHAPE

/**
 * Some lengths of a sitter, in millimetres, or all of a preset by its name; the others stay. Throws EditRefused outside the
 * ranges of the figure's table.
 */
export const setSitterShape = (sitting: Sitting, id: string, change: ShapePresetName | Partial<FigureShape>): Sitting =>
  withShape(sitting, id, (before) => {
    const shape = { ...before, ...(typeof change === 'string' ? SHAPE_PRESETS[change] : change) }
    checkShape(shape)
    return shape
  })

/** The same person at another age, 7 to 18 years. Throws EditRefused where that takes a length out of its range. */
export const setSitterAge = (sitting: Sitting, id: string, ageYears: number): Sitting =>
  withShape(sitting, id, (before) => atAge(before, ageYears))

/** On a chair, standing, or in a wheelchair: eyes as high as such a person's are; nothing else moves. */
export const setPosture = (sitting: Sitting, id: string, posture: Posture): Sitting =>
  changeThing(sitting, 'sitters', id, {
    eyeHeightM: eyeHeightOf(posture, shapeOf(thingById(sitting, 'sitters', id))),
  })

function withShape(sitting: Sitting, id: string, make: (before: FigureShape) => FigureShape): Sitting {
  const sitter = thingById(sitting, 'sitters', id)
  try {
    return changeThing(sitting, 'sitters', id, { shape: make(shapeOf(sitter)) })
  } catch (error) {
    if (!(error instanceof ShapeError)) throw error
    throw new EditRefused(shapeProblem(error, `sitters[${sitting.sitters.indexOf(sitter)}]`))
  }
}

/** What the figure says against a shape, as a problem of the document; path: of the sitter. */
export const shapeProblem = ({ where, expected, got, remedy }: ShapeError, path: string): Problem => ({
  rule: 'S16',
  path: `${path}.shape.${where}`,
  expected,
  got,
  advice: `${remedy[0]?.toUpperCase()}${remedy.slice(1)}.`,
})

/** From sitter to sitter, and how near one may come to the middle of anything else, metres: shoulders do not touch. */
const BESIDE_M = 0.52
const CLEAR_M = 0.3
/** A little behind, as in a group. */
const BEHIND_M = 0.08

/** A second sitter like the first, beside them on the side that is free, camera right first. */
export function addSitter(sitting: Sitting): Added {
  const [first] = sitting.sitters
  const id = freeId(sitting, 'sitter')
  const taken = [
    ...sitting.sitters.map(({ xM, zM }) => [xM, zM] as const),
    ...[...sitting.sources, ...sitting.panels, ...sitting.objects].map(({ centreM: [x, , z] }) => [x, z] as const),
  ]
  const places = [1, -1, 2, -2, 3, -3].map((step) => step * BESIDE_M)
  const free = places.find((x) => taken.every(([ox, oz]) => Math.hypot(x - ox, -BEHIND_M - oz) >= CLEAR_M))
  const made: Sitter = { ...first, id, xM: free ?? BESIDE_M, zM: -BEHIND_M }
  return { sitting: { ...sitting, sitters: [...sitting.sitters, made] }, id }
}

/** From row to row, and how much higher the eyes of one that stands behind, metres: common practice, no source. */
const ROW_M = 0.7
const HIGHER_M = 0.25

/** A sitter behind the others, between their heads and over them. */
export function addSitterBehind(sitting: Sitting): Added {
  const [first] = sitting.sitters
  const id = freeId(sitting, 'sitter')
  const zM = Math.min(0, ...sitting.sitters.map((sitter) => sitter.zM).filter((z) => z > -ROW_M / 2)) - ROW_M
  const taken = sitting.sitters.map(({ xM, zM: z }) => [xM, z] as const)
  const places = [0.5, -0.5, 1.5, -1.5, 2.5, -2.5].map((step) => step * BESIDE_M)
  const free = places.find((x) => taken.every(([ox, oz]) => Math.hypot(x - ox, zM - oz) >= CLEAR_M))
  const eyeHeightM = Math.min(2.2, first.eyeHeightM + HIGHER_M)
  return { sitting: { ...sitting, sitters: [...sitting.sitters, { ...first, id, xM: free ?? 0, zM, eyeHeightM }] }, id }
}
