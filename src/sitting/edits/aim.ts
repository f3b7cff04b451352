import { distance, type Vec3 } from '../../space'
import type { PlaceLandmarks } from '../place'
import type { Sitting, Source } from '../types'

/** What a source is turned to by name. 'ceiling' and the walls: to be bounced off. */
export const AIMS = ['chin', 'nose', 'backdrop', 'ceiling', 'wall at camera left', 'wall at camera right'] as const
export type AimName = (typeof AIMS)[number]

/** Share of the way from the source to the sitter at which light to be bounced meets ceiling or wall: common practice, no source. */
const BOUNCE_AT = 0.4
const SAME_M = 0.01

/** Where that is for a source, world metres; null: there is none in this set. */
export function aimPoint(sitting: Sitting, { centreM }: Source, name: AimName, marks: PlaceLandmarks): Vec3 | null {
  const { backdrop, room, camera } = sitting
  const [x, y, z] = centreM
  const { eyePoint } = marks
  const along = (from: number, to: number) => from + BOUNCE_AT * (to - from)
  const toRight = camera.positionM[2] >= camera.aimM[2] ? 1 : -1
  const wall = (side: 1 | -1): Vec3 => [room.xM + (side * toRight * room.widthM) / 2, y, along(z, eyePoint[2])]
  switch (name) {
    case 'chin':
      return marks.chin ?? null
    case 'nose':
      return marks.noseTip ?? null
    case 'backdrop':
      return backdrop && [eyePoint[0], eyePoint[1], -backdrop.distanceM]
    case 'ceiling':
      return room.outdoors ? null : [along(x, eyePoint[0]), room.heightM, along(z, eyePoint[2])]
    case 'wall at camera left':
      return room.outdoors ? null : wall(-1)
    case 'wall at camera right':
      return room.outdoors ? null : wall(1)
  }
}

/** What it is aimed at by name; null: at none of these. */
export const aimName = (sitting: Sitting, source: Source, marks: PlaceLandmarks): AimName | null =>
  AIMS.find((name) => {
    const point = aimPoint(sitting, source, name, marks)
    return point !== null && distance(point, source.aimM) < SAME_M
  }) ?? null

/** On the face: farther off, a lamp was never meant for it. A head turned by 90° takes its nose some 0.15 m along. */
const BESIDE_FACE_M = 0.15

/**
 * Chin or nose, whichever is nearer to the aim, and how far off it is, metres: a lamp on its stand does not follow a head that turns.
 * null: it is aimed at something by name, or nowhere near the face.
 */
export function aimBeside(
  sitting: Sitting,
  source: Source,
  marks: PlaceLandmarks,
): { readonly name: AimName; readonly offM: number } | null {
  if (aimName(sitting, source, marks)) return null
  const [nearest] = (['nose', 'chin'] as const)
    .flatMap((name) => {
      const point = aimPoint(sitting, source, name, marks)
      return point ? [{ name, offM: distance(point, source.aimM) }] : []
    })
    .sort((a, b) => a.offM - b.offM)
  return nearest && nearest.offM < BESIDE_FACE_M ? nearest : null
}
