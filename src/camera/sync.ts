import type { Seconds } from '../photometry'
import { addScaled, type Frame, scale, type Vec3 } from '../space'
import { type LensOnSensor, viewTangent } from './fieldOfView'

/** Where the document names none: many focal-plane shutters open wholly down to here. Common practice, no source. */
export const USUAL_SYNC_S = 1 / 200

/**
 * Share of the frame that a focal-plane shutter keeps dark to a flash. Its slit takes the sync time to cross the frame, so at a
 * shorter exposure t it is t/sync of the frame wide: 1 − t/sync stays dark, and none at t ≥ sync. Both > 0.
 */
export const darkShare = (shutter: Seconds, sync: Seconds): number => Math.max(0, 1 - shutter / sync)

/**
 * Where that dark share lies, at worst: a vector such that the light of directions d with d·v > 0 does not reach the sensor; null:
 * nothing is dark. The curtains run across the shorter side, from the sensor's upper edge, where the picture, upside down there, has
 * its lower one; the flash fires when the first has arrived, and what the second has covered by then is where both began. A camera
 * held upright is taken to have its grip uppermost, so that its lower edge is at camera right. Common practice, no source.
 */
export function darkSide(frame: Frame, lens: LensOnSensor, dark: number): Vec3 | null {
  if (!(dark > 0)) return null
  const border = 1 - 2 * Math.min(1, dark)
  const upright = lens.sensorHeightMm > lens.sensorWidthMm
  const side = upright ? lens.sensorWidthMm : lens.sensorHeightMm
  // The frame's x is camera left; down is against its y.
  return addScaled(scale(upright ? frame.x : frame.y, -1), frame.z, -border * viewTangent(side, lens.focalLengthMm))
}
