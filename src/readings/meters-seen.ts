import type { MeterScene } from '../meter'
import { lookFrom, meterPoint } from '../rig'
import type { MeterPlace } from '../sitting'
import { addScaled, distance, normalize, subtract, type Vec3 } from '../space'
import { HELD_OFF_M } from './stage'

/** Ids of the meters that something stands before, as seen by the lens and from the profile's side. */
export interface HiddenMeters {
  readonly lens: readonly string[]
  readonly profile: readonly string[]
}

/** Nearer than this to the meter, what is met counts as the thing it is held at, m. */
const AT_IT_M = 0.002

/** One ray a meter and side. A meter is taken as the point that it stands for. */
export function hiddenMeters(scene: MeterScene, places: readonly MeterPlace[]): HiddenMeters {
  if (places.length === 0) return { lens: [], profile: [] }
  const from = (look: 'camera' | 'profile') => {
    const eye = lookFrom(scene.rig, look).frame.origin
    return places.filter((place) => isHidden(scene, heldAt(place, scene), eye)).map(({ id }) => id)
  }
  return { lens: from('camera'), profile: from('profile') }
}

function heldAt(place: MeterPlace, { rig }: MeterScene): Vec3 {
  const { point, normal } = meterPoint(place, rig)
  return normal ? addScaled(point, normal, HELD_OFF_M) : point
}

function isHidden({ caster }: MeterScene, at: Vec3, eye: Vec3): boolean {
  const hit = caster.nearest(eye, normalize(subtract(at, eye)))
  return hit !== null && hit.distance < distance(eye, at) - AT_IT_M
}
