import { distance, subtract, type Vec3 } from '../../space'
import { type PlaceLandmarks, placeOf } from '../place'
import type { Sitting, Source } from '../types'
import { nearestTapeM } from './too-near'

/** What a stand that is moved by hand comes up against. */
export type Stop = 'ceiling' | 'floor' | 'face'

/** So near to a stop counts as at it, metres: a hand on a stand does not work finer. */
const AT_M = 0.005

/**
 * How far a source goes beyond each stop, metres, with the centre of its lit face at a point and turned to its aim: its top edge over the
 * ceiling, its lower edge under the floor, its lamp in the sitter's face. At most 0: it stands free. halfFaceM: half the height of
 * the face when it stands upright; leaning back, it is less high by the cosine. Outdoors there is no ceiling.
 */
export function beyondStops(
  { aimM, modifier }: Pick<Source, 'aimM' | 'modifier'>,
  centre: Vec3,
  halfFaceM: number,
  { room, camera }: Pick<Sitting, 'room' | 'camera'>,
  marks: PlaceLandmarks,
): Readonly<Record<Stop, number>> {
  const [dx, , dz] = subtract(aimM, centre)
  const far = distance(aimM, centre)
  const half = far > 0 ? (halfFaceM * Math.hypot(dx, dz)) / far : halfFaceM
  return {
    ceiling: room.outdoors ? Number.NEGATIVE_INFINITY : centre[1] + half - room.heightM,
    floor: half - centre[1],
    face: nearestTapeM(modifier) - placeOf(centre, camera, marks).tapeM,
  }
}

/** What a source is up against where it stands; null: nothing, or it is through it. */
export function stopAt(
  source: Source,
  halfFaceM: number,
  sitting: Pick<Sitting, 'room' | 'camera'>,
  marks: PlaceLandmarks,
): Stop | null {
  const beyond = beyondStops(source, source.centreM, halfFaceM, sitting, marks)
  return (['ceiling', 'floor', 'face'] as const).find((stop) => Math.abs(beyond[stop]) < AT_M) ?? null
}
