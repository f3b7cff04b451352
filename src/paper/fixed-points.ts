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
