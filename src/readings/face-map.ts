import type { MeterScene } from '../meter'
import type { RigFigure } from '../rig'
import { add, addScaled, cross, dot, normalize, scale, subtract, type Vec3 } from '../space'

/**
 * Skin of the face in front, on a grid square to the nose; millimetres in the head's own axes: x to the sitter's left, y up.
 * They are the average face's: on another the grid is as much broader as its cheeks lie apart and as much longer as its nose
 * reaches down, so that a child's mouth is looked for where a child has it.
 */
export const STEP_MM = 3
const HALF_WIDTH_MM = 60
const TOP_MM = -12
const BOTTOM_MM = -80
/** The nose itself, whose own shade would part the cheeks whatever the light. */
const NOSE_HALF_MM = 17
const NOSE_BASE_MM = -45
const LIFT_M = 5e-4
/** Of the average sitter: from cheek to cheek, and from the eyes down to the base of the nose, metres. */
const AVERAGE_FACE = { breadthM: 0.088, noseM: 0.0495 }

export interface FaceCell {
  readonly xMm: number
  readonly yMm: number
  readonly point: Vec3
  readonly normal: Vec3
}

export interface FaceMap {
  readonly columns: number
  /** Row by row from the top; null: nose, or no skin there. */
  readonly cells: readonly (FaceCell | null)[]
  /** Unit, world. */
  readonly left: Vec3
}

/** Where the skin lies: one ray a cell from before the face. Holds until the head turns. */
export function faceMap({ caster, bodies }: MeterScene, figure: RigFigure): FaceMap {
  const { noseDirection: out, headUp, eyeMidpoint } = figure.posed
  const left = normalize(cross(headUp, out))
  const up = normalize(cross(out, left))
  const { cheekLeft, cheekRight, subnasale } = figure.posed.landmarks
  const broad = dot(subtract(cheekLeft.position, cheekRight.position), left) / AVERAGE_FACE.breadthM
  const long = dot(subtract(eyeMidpoint, subnasale.position), up) / AVERAGE_FACE.noseM
  const columns = (2 * HALF_WIDTH_MM) / STEP_MM + 1
  const rows = Math.floor((TOP_MM - BOTTOM_MM) / STEP_MM) + 1
  const cells = Array.from({ length: columns * rows }, (_, i) => {
    const xMm = (i % columns) * STEP_MM - HALF_WIDTH_MM
    const yMm = TOP_MM - Math.floor(i / columns) * STEP_MM
    if (Math.abs(xMm) < NOSE_HALF_MM && yMm > NOSE_BASE_MM) return null
    const aside = add(scale(left, (broad * xMm) / 1000), scale(up, (long * yMm) / 1000))
    const before = addScaled(add(eyeMidpoint, aside), out, 0.15)
    const hit = caster.nearest(before, scale(out, -1))
    const meaning = hit && bodies.meanings[hit.bodyIndex]
    if (!hit || meaning?.kind !== 'figure' || meaning.figure !== figure || meaning.part.name !== 'skin') return null
    return { xMm, yMm, point: addScaled(addScaled(before, out, -hit.distance), hit.normal, LIFT_M), normal: hit.normal }
  })
  return { columns, cells, left }
}

/** How a cell stands to a small light: lit, in something's shadow, or turned away. */
export type CellLight = 'lit' | 'shadow' | 'turned'

export const litCells = (
  { cells }: FaceMap,
  { caster }: MeterScene,
  light: Vec3,
  ignore: ReadonlySet<number>,
): readonly (CellLight | null)[] =>
  cells.map((cell) => {
    if (!cell) return null
    if (dot(cell.normal, subtract(light, cell.point)) <= 0) return 'turned'
    return caster.visible(cell.point, light, ignore) ? 'lit' : 'shadow'
  })

/** All lit cells that hang together with the given ones, side by side or one above the other. */
export function spreadFrom(
  { columns }: FaceMap,
  lights: readonly (CellLight | null)[],
  from: readonly number[],
): ReadonlySet<number> {
  const reached = new Set(from)
  const open = [...from]
  while (open.length > 0) {
    const at = open.pop()!
    const aside = [...(at % columns > 0 ? [at - 1] : []), ...(at % columns < columns - 1 ? [at + 1] : [])]
    for (const next of [...aside, at - columns, at + columns])
      if (lights[next] === 'lit' && !reached.has(next)) {
        reached.add(next)
        open.push(next)
      }
  }
  return reached
}
