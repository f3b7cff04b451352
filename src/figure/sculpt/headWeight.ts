import { clamp01 } from './solids'

/**
 * How far a point follows the head (1) or the body (0): a ramp down the neck, across planes that run from the nape down to the
 * throat, so that chin, jaw and ears are rigid and the neckline stands still. Millimetres. All parts use the same ramp (the
 * garment lies under it), so hair and skin never part at the nape.
 */
export function headWeight(y: number, z: number): number {
  const t = clamp01((y + SLANT * (z + NECK_Z) - BODY_BELOW) / (HEAD_ABOVE - BODY_BELOW))
  return t < 0.5 ? halfRamp(t) : 1 - halfRamp(1 - t)
}

const SLANT = 0.58
const NECK_Z = 85
const BODY_BELOW = -165
const HEAD_ABOVE = -88
/** Rounded at the ends, straight between: a smoothstep would be half as steep again in the middle, and shear more. */
const ROUNDED = 0.2

const halfRamp = (t: number): number =>
  t < ROUNDED ? (t * t) / (2 * ROUNDED * (1 - ROUNDED)) : (t - ROUNDED / 2) / (1 - ROUNDED)
