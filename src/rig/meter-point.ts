import type { LandmarkName } from '../figure'
import type { MeterPlace } from '../sitting'
import type { Vec3 } from '../space'
import type { Rig, RigSource } from './types'

export interface MeterPoint {
  /** World metres. */
  readonly point: Vec3
  /** Of the skin; null in free air. */
  readonly normal: Vec3 | null
}

/** Where a meter is held. Throws where the rig has no such sitter: the document's rule S8 forbids it. */
export function meterPoint(place: Pick<MeterPlace, 'at'>, rig: Pick<Rig, 'figures'>): MeterPoint {
  if ('pointM' in place.at) return { point: place.at.pointM, normal: null }
  const { sitterId, landmark } = place.at
  const figure = rig.figures.find(({ id }) => id === sitterId)
  const found = figure?.posed.landmarks[landmark as LandmarkName]
  if (!found) throw new Error(`rig.meterPoint: no landmark ${landmark} of a sitter ${sitterId} in this rig`)
  return { point: found.position, normal: found.normal }
}

/** The source that gives the near side its name: the first key that fires, else the first source that fires, a sky last; null: none does. */
export function keyOf(rig: Pick<Rig, 'sources'>): RigSource | null {
  const firing = rig.sources.filter(({ on }) => on)
  const placed = firing.filter(({ remote }) => remote?.kind !== 'around')
  return placed.find(({ role }) => role === 'key') ?? placed[0] ?? firing[0] ?? null
}
