import { meterPoint, sitterAround } from '../../rig'
import { type Inside, type Sitting, thingById } from '../../sitting'
import type { Vec3 } from '../../space'
import { useDerivedNow } from '../derived'

/** What a meter must not be put into, as the set stands now. */
export const insideNow: Inside = (point) => {
  const { rig } = useDerivedNow.getState()
  return rig ? sitterAround(rig, point) : null
}

/** Off skin and paper by so much when a meter is taken off them, metres. */
const OFF_M = 0.02

/** Where a meter is held now, in free air beside what it is held on; null: not known before the sitter has come. */
export function heldAt(sitting: Sitting, id: string): Vec3 | null {
  const place = thingById(sitting, 'meterPlaces', id)
  if ('pointM' in place.at) return place.at.pointM
  const { rig } = useDerivedNow.getState()
  if (!rig) return null
  const { point, normal } = meterPoint(place, rig)
  const off = (axis: 0 | 1 | 2) => Math.round((point[axis] + OFF_M * (normal?.[axis] ?? 0)) * 1000) / 1000
  return [off(0), off(1), off(2)]
}
