import type { Rect, Vec3 } from '../../space'
import { addScaled, cross, dot, subtract } from '../../space'
import type { Cylinder, LocalCap } from '../emission'

/** Does the open segment a → b meet a solid? Both ends are pulled in by this share, so that a point may lie on the solid. */
const END = 1e-5

/**
 * Capped solid cylinder: the segment's stretch inside the infinite cylinder and its stretch between the end planes overlap.
 * Asked thousands of times a reading: no arrays made.
 */
export function segmentHitsCylinder(a: Vec3, b: Vec3, { from, to, radiusM }: Cylinder): boolean {
  const ux = to[0] - from[0]
  const uy = to[1] - from[1]
  const uz = to[2] - from[2]
  const dx = b[0] - a[0]
  const dy = b[1] - a[1]
  const dz = b[2] - a[2]
  const sx = a[0] - from[0]
  const sy = a[1] - from[1]
  const sz = a[2] - from[2]
  const axisSq = ux * ux + uy * uy + uz * uz
  const slope = (dx * ux + dy * uy + dz * uz) / axisSq
  const level = (sx * ux + sy * uy + sz * uz) / axisSq
  // Across the axis: of the way, and of where it starts.
  const cx = dx - slope * ux
  const cy = dy - slope * uy
  const cz = dz - slope * uz
  const ox = sx - level * ux
  const oy = sy - level * uy
  const oz = sz - level * uz
  const across = cx * cx + cy * cy + cz * cz
  const outside = ox * ox + oy * oy + oz * oz - radiusM * radiusM
  let enter = END
  let leave = 1 - END
  if (across >= 1e-12) {
    const half = cx * ox + cy * oy + cz * oz
    const root = half * half - across * outside
    if (root < 0) return false
    const width = Math.sqrt(root)
    enter = Math.max(enter, (-half - width) / across)
    leave = Math.min(leave, (-half + width) / across)
  } else if (outside > 0) return false
  if (Math.abs(slope) > 1e-9) {
    const t0 = -level / slope
    const t1 = (1 - level) / slope
    enter = Math.max(enter, Math.min(t0, t1))
    leave = Math.min(leave, Math.max(t0, t1))
  } else if (level < 0 || level > 1) return false
  return enter <= leave
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
  for (const blocker of blockers) if (segmentHitsCylinder(a, b, blocker)) return true
  return false
}

/** Sphere through a rim of diameter D with depth h: R = (D²/4 + h²)/2h. */
export const capRadius = (diameterM: number, depthM: number): number =>
  (diameterM * diameterM * 0.25 + depthM * depthM) / (2 * depthM)
