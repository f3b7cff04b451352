import { smoothStep } from './solids'

/**
 * How far a point follows the head (1) or the body (0): a smooth ramp down the neck, across planes that run from the nape
 * down to the throat, so that chin, jaw and ears are rigid and the neckline stands still. Millimetres. All parts use the same
 * ramp (the garment lies under it), so hair and skin never part at the nape.
 */
export function headWeight(y: number, z: number): number {
  return smoothStep(BODY_BELOW, HEAD_ABOVE, y + SLANT * (z + NECK_Z))
}

const SLANT = 0.58
const NECK_Z = 85
const BODY_BELOW = -160
const HEAD_ABOVE = -88
