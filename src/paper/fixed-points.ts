import type { Sitting } from '../sitting'

/** Places on the floor, world [x, z] in metres, from which the tape is laid; and what Z is. */
export interface FixedPoints {
  readonly x: readonly [number, number]
  readonly z: readonly [number, number]
  readonly zIs: 'foot of the backdrop' | 'under the lens'
}

/** X lies under the eyes of the first sitter at rest; Z at the foot of the backdrop straight behind, or plumb under the lens. */
export function fixedPointsOf({ backdrop, camera }: Pick<Sitting, 'backdrop' | 'camera'>): FixedPoints {
  return backdrop
    ? { x: [0, 0], z: [0, -backdrop.distanceM], zIs: 'foot of the backdrop' }
    : { x: [0, 0], z: [camera.positionM[0], camera.positionM[2]], zIs: 'under the lens' }
}

type Spot = readonly [number, number]

/** A place on the floor by tape, metres; off: from the line through X and Z, positive to camera right. */
export interface Tapes {
  readonly fromXM: number
  readonly fromZM: number
  readonly offM: number
}

/** Unit along the floor from the backdrop's side to the camera's, through X and Z; and the signed distance X to Z along it. */
export function lineOf({ x, z, zIs }: FixedPoints): { readonly along: Spot; readonly toZM: number } {
  const [dx, dz] = [z[0] - x[0], z[1] - x[1]]
  const size = Math.hypot(dx, dz)
  if (!(size > 0)) throw new Error(`paper.lineOf: X and Z are one place, ${x}`)
  const sign = zIs === 'under the lens' ? 1 : -1
  return { along: [(sign * dx) / size, (sign * dz) / size], toZM: sign * size }
}

/** The tapes of a spot. off: from the line through X and Z, positive to camera right. */
export function tapesTo(fixed: FixedPoints, at: Spot): Tapes {
  const { along } = lineOf(fixed)
  const [dx, dz] = [at[0] - fixed.x[0], at[1] - fixed.x[1]]
  return {
    fromXM: Math.hypot(dx, dz),
    fromZM: Math.hypot(at[0] - fixed.z[0], at[1] - fixed.z[1]),
    offM: dx * along[1] - dz * along[0],
  }
}
