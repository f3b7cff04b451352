import { cross, dot, length, type Rect, scale, type Vec3 } from '../space'
import type { RayState } from './ray'

/** A rectangle ready for rays: centre, unit normal, and half edges divided by their squares. */
export interface ReadyRectangle {
  readonly c: Vec3
  readonly n: Vec3
  readonly u: Vec3
  readonly v: Vec3
  readonly oneSided: boolean
}

export function readyRectangle({ centre, halfU, halfV }: Rect, oneSided: boolean): ReadyRectangle {
  const across = cross(halfU, halfV)
  const size = length(across)
  if (!(size > 0)) throw new Error(`rays.readyRectangle: half edges [${halfU}] and [${halfV}] span no area`)
  return {
    c: centre,
    n: scale(across, 1 / size),
    u: scale(halfU, 1 / dot(halfU, halfU)),
    v: scale(halfV, 1 / dot(halfV, halfV)),
    oneSided,
  }
}

/** Shortens ray.farthest to the hit. passBehind: a one-sided rectangle lets through what comes from behind it. */
export function meetRectangle({ c, n, u, v, oneSided }: ReadyRectangle, ray: RayState, passBehind: boolean): boolean {
  const facing = n[0] * ray.dx + n[1] * ray.dy + n[2] * ray.dz
  if (facing === 0 || (passBehind && oneSided && facing > 0)) return false
  const sx = c[0] - ray.ox
  const sy = c[1] - ray.oy
  const sz = c[2] - ray.oz
  const t = (n[0] * sx + n[1] * sy + n[2] * sz) / facing
  if (!(t > ray.nearest && t < ray.farthest)) return false
  const x = t * ray.dx - sx
  const y = t * ray.dy - sy
  const z = t * ray.dz - sz
  if (Math.abs(u[0] * x + u[1] * y + u[2] * z) > 1 || Math.abs(v[0] * x + v[1] * y + v[2] * z) > 1) return false
  ray.farthest = t
  return true
}
