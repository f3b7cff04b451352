import type { Rgb } from '../photometry'
import { type DisplayMode, SHOULDER_KNEE } from './displayTransform'
import { SENSOR_CLIP_VALUE } from './sensor'

/**
 * What is lost at the bright end, and where. display: the sensor holds it, the screen shows plain white; darker
 * processing brings it back. sensor: it is gone.
 */
export type Clip = 'none' | 'display' | 'sensor'

/** Largest display-linear value that still rounds to code 254: half a code under white through the sRGB curve. */
const LAST_TONE = ((254.5 / 255 + 0.055) / 1.055) ** 2.4

/**
 * Picture value from which a pixel shows code 255: plain 0.9955; shoulder, the curve solved for it,
 * k − (1 − k)·ln((1 − y)/(1 − k)) = 2.87.
 */
export const displayClipValue = (mode: DisplayMode): number =>
  mode === 'plain' ? LAST_TONE : SHOULDER_KNEE - (1 - SHOULDER_KNEE) * Math.log((1 - LAST_TONE) / (1 - SHOULDER_KNEE))

/** A pixel clips when its brightest channel does; the sensor is named where both do. Linear picture values. */
export function clipOf(linear: Rgb, mode: DisplayMode): Clip {
  const brightest = Math.max(linear[0], linear[1], linear[2])
  if (brightest >= SENSOR_CLIP_VALUE) return 'sensor'
  return brightest >= displayClipValue(mode) ? 'display' : 'none'
}
