import type { Vec3 } from '../space'

/** One query under way, reused from ray to ray: allocating none of it is worth a factor of two. */
export interface RayState {
  ox: number
  oy: number
  oz: number
  dx: number
  dy: number
  dz: number
  /** Reciprocals of the direction; ±Infinity along an axis that the ray does not move on. */
  ix: number
  iy: number
  iz: number
  /** 3 where the ray enters a box by its upper bound, else 0; by the sign of the reciprocal, which tells −0 from 0. */
  sideX: number
  sideY: number
  sideZ: number
  /** Hits count strictly between the two, metres. */
  nearest: number
  farthest: number
  body: number
  triangle: number
  /** Weights of the second and third corner at the hit. */
  w1: number
  w2: number
}

export const newRay = (): RayState => ({
  ox: 0,
  oy: 0,
  oz: 0,
  dx: 0,
  dy: 0,
  dz: 1,
  ix: 0,
  iy: 0,
  iz: 0,
  sideX: 0,
  sideY: 0,
  sideZ: 0,
  nearest: 0,
  farthest: 0,
  body: -1,
  triangle: -1,
  w1: 0,
  w2: 0,
})

export function aim(ray: RayState, o: Vec3, dx: number, dy: number, dz: number, near: number, far: number): void {
  ray.ox = o[0]
  ray.oy = o[1]
  ray.oz = o[2]
  ray.dx = dx
  ray.dy = dy
  ray.dz = dz
  ray.ix = 1 / dx
  ray.iy = 1 / dy
  ray.iz = 1 / dz
  ray.sideX = ray.ix < 0 ? 3 : 0
  ray.sideY = ray.iy < 0 ? 3 : 0
  ray.sideZ = ray.iz < 0 ? 3 : 0
  ray.nearest = near
  ray.farthest = far
  ray.body = -1
  ray.triangle = -1
}
