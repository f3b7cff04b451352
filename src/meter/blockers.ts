import type { Cylinder } from '../photometry'
import { addScaled, dot, subtract, type Vec3 } from '../space'

/** True when the segment from a to b meets a capped cylinder: both ends of the cylinder are closed. */
export function segmentMeetsCylinder(a: Vec3, b: Vec3, { from, to, radiusM }: Cylinder): boolean {
  const axis = subtract(to, from)
  const axisSquared = dot(axis, axis)
  const ray = subtract(b, a)
  const start = subtract(a, from)
  // The slab between the two end planes leaves a stretch [enter, leave] of the segment.
  const h0 = dot(start, axis) / axisSquared
  const dh = dot(ray, axis) / axisSquared
  let enter = 0
  let leave = 1
  if (Math.abs(dh) < 1e-12) {
    if (h0 < 0 || h0 > 1) return false
  } else {
    const t0 = -h0 / dh
    const t1 = (1 - h0) / dh
    enter = Math.max(0, Math.min(t0, t1))
    leave = Math.min(1, Math.max(t0, t1))
    if (enter > leave) return false
  }
  // Across the axis: |p + t·q|² ≤ r² somewhere in that stretch; the nearest approach is at −p·q/q².
  const p = addScaled(start, axis, -h0)
  const q = addScaled(ray, axis, -dh)
  const qq = dot(q, q)
  const t = qq === 0 ? enter : Math.min(leave, Math.max(enter, -dot(p, q) / qq))
  const nearest = addScaled(p, q, t)
  return dot(nearest, nearest) <= radiusM * radiusM
}

export const blocked = (blockers: readonly Cylinder[], a: Vec3, b: Vec3): boolean =>
  blockers.some((cylinder) => segmentMeetsCylinder(a, b, cylinder))
