import { modifierKind } from '../../gear'
import { radians, type Vec3 } from '../../space'
import type { PlaceLandmarks } from '../place'
import type { Sitting } from '../types'
import { sourcePlace } from './source'
import { thingById } from './things'

/** Height at which a point over a place of the floor is seen from the eyes at an angle up, world metres. */
export function heightAtAngle([x, , z]: Vec3, elevationDeg: number, { eyePoint }: PlaceLandmarks): number {
  const level = Math.hypot(x - eyePoint[0], z - eyePoint[2])
  return eyePoint[1] + Math.tan(radians(elevationDeg)) * level
}

/** From so much on another angle up is another light, degrees: common practice, no source. */
const LEAST_DEG = 5
/** Of a height, metres: a hand on a stand does not work finer. */
const SAME_M = 0.005

/**
 * How far the angle up of a source went, degrees, as its stand was slid over the floor at the same height: up where positive. null: it is
 * less than anybody would mind, or the stand was raised or lowered, or has no place.
 */
export function steeperBy(before: Sitting, after: Sitting, id: string, marks: PlaceLandmarks): number | null {
  const [was, is] = [before, after].map((sitting) => {
    const source = thingById(sitting, 'sources', id)
    return { heightM: source.centreM[1], up: sourcePlace(source, sitting.camera, marks).elevationDeg }
  }) as [{ heightM: number; up: number }, { heightM: number; up: number }]
  if (modifierKind(thingById(after, 'sources', id).modifier.kind).remote) return null
  const by = is.up - was.up
  return Math.abs(is.heightM - was.heightM) < SAME_M && Math.abs(by) >= LEAST_DEG ? by : null
}
