import { litFaceOutline, type RigSource, standingOf } from '../rig'
import { addScaled, distance, type Vec3 } from '../space'
import type { Projection } from './outline'
import { between, circle, lengthOf, line, text } from './shapes'
import { solidPoints } from './solids'
import type { Bounds, DrawingInput, Point2, Shape } from './types'

/** A source that is no thing of the set is drawn by its mark: where it is taken in hand, not where it shines from. */

/** A sky has none. */
export const hasPlace = ({ remote }: RigSource): boolean => remote?.kind !== 'around'

export const markOf = (source: RigSource): Vec3 => source.remote?.markM ?? source.frame.origin

/** What of a source must find room on a drawing. */
export function extentOf({ sitting, rig }: DrawingInput, source: RigSource): readonly Vec3[] {
  if (source.remote) return [source.remote.markM]
  const { load, pivot } = standingOf(sitting, rig.view, source)
  return [...litFaceOutline(source), ...source.gear.flatMap(solidPoints), load, ...(pivot ? [pivot] : [])]
}

const DISC_M = 0.06
const RAYS = 8
/** Of the sign, from its middle. */
export const SIGN_M = 2.1 * DISC_M
const ARROW_M = 0.4

/** The sun's sign, and an arrow along its light. */
export function drawFar(source: RigSource, project: Projection, pencil: boolean): Shape[] {
  const mark = markOf(source)
  const at = project(mark)
  const style = { pencil, dash: source.on ? ('solid' as const) : ('hidden' as const), weight: 'object' as const }
  const rays = Array.from({ length: RAYS }, (_, i) => {
    const angle = (2 * Math.PI * i) / RAYS
    const out = (r: number): Point2 => [at[0] + r * Math.cos(angle), at[1] + r * Math.sin(angle)]
    return line([out(1.4 * DISC_M), out(SIGN_M)], style)
  })
  const reach = Math.min(ARROW_M, distance(mark, source.aim))
  const along = line([at, project(addScaled(mark, source.frame.z, reach))], { ...style, weight: 'thin' })
  return [along, circle(at, DISC_M, { ...style, fill: 'sheet' }), ...rays]
}

/** Where light from far off comes past a place of the drawing, no farther away than its mark is from its aim. */
export function short(source: RigSource, near: Point2, far: Point2): Point2 {
  if (!source.remote) return far
  const size = lengthOf(near, far)
  return size > 0 ? between(near, far, distance(source.remote.markM, source.aim) / size) : far
}

const LINE_M = 0.16

/** A sky is told in words over those of the lower left: it stands in no place of the drawing. */
export const allRound = (sources: readonly RigSource[], { minX, maxY }: Bounds, selected: string | null): Shape[] =>
  sources
    .filter((source) => !hasPlace(source))
    .map(({ letter, id, on }, i) =>
      text([minX + 0.02, maxY - 0.02 - (i + 1) * LINE_M], `${letter} ${on ? '' : '(off) '}all round`, {
        tone: id === selected ? 'pencil' : 'ink2',
      }),
    )
