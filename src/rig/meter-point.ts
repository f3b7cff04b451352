import type { LandmarkName } from '../figure'
import type { MeterPlace } from '../sitting'
import { addScaled, cross, normalize, subtract, type Vec3 } from '../space'
import type { Rig, RigSource } from './types'

export interface MeterPoint {
  /** World metres. */
  readonly point: Vec3
  /** Of the skin or the paper; null in free air. */
  readonly normal: Vec3 | null
}

/** Where a meter is held. Throws where the rig has no such sitter or backdrop: the document's rule S8 forbids it. */
export function meterPoint(place: Pick<MeterPlace, 'at'>, rig: Pick<Rig, 'figures' | 'surfaces'>): MeterPoint {
  if ('pointM' in place.at) return { point: place.at.pointM, normal: null }
  if ('acrossShare' in place.at) return onBackdrop(place.at, rig)
  const { sitterId, landmark } = place.at
  const figure = rig.figures.find(({ id }) => id === sitterId)
  const found = figure?.posed.landmarks[landmark as LandmarkName]
  if (!found) throw new Error(`rig.meterPoint: no landmark ${landmark} of a sitter ${sitterId} in this rig`)
  return { point: found.position, normal: found.normal }
}

function onBackdrop(
  at: { readonly acrossShare: number; readonly upShare: number },
  { surfaces }: Pick<Rig, 'surfaces'>,
) {
  const rect = surfaces.find(({ kind }) => kind === 'backdrop')?.rect
  if (!rect) throw new Error('rig.meterPoint: a meter is held on the backdrop, and this rig has none')
  const { centre, halfU, halfV } = rect
  const right = halfU[0] < 0 ? -at.acrossShare : at.acrossShare
  const front = normalize(cross(halfU, halfV))
  return {
    point: addScaled(addScaled(centre, halfU, right), halfV, halfV[1] < 0 ? -at.upShare : at.upShare),
    normal: front[2] < 0 ? ([-front[0], -front[1], -front[2]] as Vec3) : front,
  }
}

/** Unit vector in which a meter is pointed; at the key, where it is asked for and none fires, at the lens. */
export function meterDirection({ at, facing }: Pick<MeterPlace, 'at' | 'facing'>, rig: Rig): Vec3 {
  const { point, normal } = meterPoint({ at }, rig)
  if (facing === 'square' && normal) return normal
  return normalize(subtract(targetOf(facing, point, rig), point))
}

function targetOf(facing: MeterPlace['facing'], point: Vec3, rig: Rig): Vec3 {
  const lens = rig.view.frame.origin
  if (typeof facing === 'string') {
    const key = facing === 'light' ? keyOf(rig) : null
    return key ? middleOf(key, point) : lens
  }
  if ('aimM' in facing) return facing.aimM
  const source = rig.sources.find(({ id }) => id === facing.sourceId)
  if (!source) throw new Error(`rig.meterDirection: no source ${facing.sourceId} in this rig`)
  return middleOf(source, point)
}

/** A sky is as far from everywhere: its zenith is straight above. */
const middleOf = ({ remote, frame }: RigSource, point: Vec3): Vec3 =>
  remote?.kind === 'around' ? subtract(point, frame.z) : frame.origin

/** The source that gives the near side its name: the first key that fires, else the first source that fires, a sky last; null: none does. */
export function keyOf(rig: Pick<Rig, 'sources'>): RigSource | null {
  const firing = rig.sources.filter(({ on }) => on)
  const placed = firing.filter(({ remote }) => remote?.kind !== 'around')
  return placed.find(({ role }) => role === 'key') ?? placed[0] ?? firing[0] ?? null
}
