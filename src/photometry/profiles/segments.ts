import type { Rect, Vec3 } from '../../space'
import { addScaled, cross, dot, subtract } from '../../space'
import type { Cylinder, LocalCap } from '../emission'

/** Does the open segment a → b meet a solid? Both ends are pulled in by this share, so that a point may lie on the solid. */
const END = 1e-5

/**
 * Capped solid cylinder: the segment's stretch inside the infinite cylinder and its stretch between the end planes overlap.
 * Asked thousands of times a reading: no vectors made.
 */
export function segmentHitsCylinder(
  [ax, ay, az]: Vec3,
  [bx, by, bz]: Vec3,
  { from: [fx, fy, fz], to: [tx, ty, tz], radiusM }: Cylinder,
): boolean {
  const [ux, uy, uz] = [tx - fx, ty - fy, tz - fz]
  const [dx, dy, dz] = [bx - ax, by - ay, bz - az]
  const [sx, sy, sz] = [ax - fx, ay - fy, az - fz]
  const axisSq = ux * ux + uy * uy + uz * uz
  const slope = (dx * ux + dy * uy + dz * uz) / axisSq
  const level = (sx * ux + sy * uy + sz * uz) / axisSq
  // Across the axis: of the way, and of where it starts.
  const [cx, cy, cz] = [dx - slope * ux, dy - slope * uy, dz - slope * uz]
  const [ox, oy, oz] = [sx - level * ux, sy - level * uy, sz - level * uz]
  const inside = interval(
    cx * cx + cy * cy + cz * cz,
    cx * ox + cy * oy + cz * oz,
    ox * ox + oy * oy + oz * oz - radiusM * radiusM,
  )
  if (!inside) return false
  let [enter, leave] = inside
  if (Math.abs(slope) > 1e-9) {
    const t0 = -level / slope
    const t1 = (1 - level) / slope
    enter = Math.max(enter, Math.min(t0, t1))
    leave = Math.min(leave, Math.max(t0, t1))
  } else if (level < 0 || level > 1) return false
  return Math.max(enter, END) <= Math.min(leave, 1 - END)
}

/** Where a·t² + 2·b·t + c ≤ 0; null: nowhere. */
function interval(a: number, b: number, c: number): readonly [number, number] | null {
  if (a < 1e-12) return c <= 0 ? [-Infinity, Infinity] : null
  const root = b * b - a * c
  if (root < 0) return null
  const width = Math.sqrt(root)
  return [(-b - width) / a, (-b + width) / a]
}

/** Thin spherical cap. */
export function segmentHitsCap(a: Vec3, b: Vec3, cap: LocalCap): boolean {
  const { rimCentre, axis, diameterM, depthM } = cap
  const radius = capRadius(diameterM, depthM)
  const centre = addScaled(rimCentre, axis, depthM - radius)
  const along = subtract(b, a)
  const start = subtract(a, centre)
  const both = interval(dot(along, along), dot(along, start), dot(start, start) - radius * radius)
  if (!both) return false
  const level = dot(subtract(a, rimCentre), axis)
  const slope = dot(along, axis)
  return both.some((t) => t > END && t < 1 - END && level + t * slope >= 0)
}

/** Thin disc. */
export function segmentHitsDisc(a: Vec3, b: Vec3, centre: Vec3, normal: Vec3, radiusM: number): boolean {
  const p = crossing(a, b, centre, normal)
  return p !== null && dot(p, p) <= radiusM * radiusM
}

/** Thin rectangle, both sides. */
export function segmentHitsRectangle(a: Vec3, b: Vec3, { centre, halfU, halfV }: Rect): boolean {
  const p = crossing(a, b, centre, cross(halfU, halfV))
  return p !== null && Math.abs(dot(p, halfU)) <= dot(halfU, halfU) && Math.abs(dot(p, halfV)) <= dot(halfV, halfV)
}

/** Where the segment crosses a plane, from the plane's own point; null: it doesn't. */
function crossing(a: Vec3, b: Vec3, centre: Vec3, normal: Vec3): Vec3 | null {
  const slope = dot(subtract(b, a), normal)
  const t = dot(subtract(centre, a), normal) / slope
  return t > END && t < 1 - END ? subtract(addScaled(a, subtract(b, a), t), centre) : null
}

/** Does any of a source's own blockers stand between two local points? */
export function blockedByCylinder(a: Vec3, b: Vec3, blockers: readonly Cylinder[]): boolean {
  return blockers.some((blocker) => segmentHitsCylinder(a, b, blocker))
}

/** Sphere through a rim of diameter D with depth h: R = (D²/4 + h²)/2h. */
export const capRadius = (diameterM: number, depthM: number): number =>
  (diameterM * diameterM * 0.25 + depthM * depthM) / (2 * depthM)
