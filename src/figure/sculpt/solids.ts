/** Signed distances (millimetres, negative inside) and soft set operations that the sculpture is built from. */

/** A scalar field over the head-local frame in millimetres; negative inside. */
export type Field = (x: number, y: number, z: number) => number

/**
 * How much a fillet of width k fills where two distances are so far apart: k/4 where they are alike. Its curvature has no jump at
 * the fillet's border, which would show as a ring in the skin's shine.
 */
function fillet(apart: number, k: number): number {
  const width = 1.5 * k
  const h = Math.max(width - Math.abs(apart), 0) / width
  return (h * h * h * width) / 6
}

/** Union with a fillet of width k. */
export const smoothMin = (a: number, b: number, k: number): number => Math.min(a, b) - fillet(a - b, k)

/** Intersection with a fillet of width k. */
export const smoothMax = (a: number, b: number, k: number): number => Math.max(a, b) + fillet(a - b, k)

/** 0 at from, 1 at to, smooth between; from may be greater than to. */
export function smoothStep(from: number, to: number, x: number): number {
  const t = Math.min(1, Math.max(0, (x - from) / (to - from)))
  return t * t * (3 - 2 * t)
}

/** As smoothStep, without a jump of curvature at the ends: that would show as a line in the shine of hair. */
export function ease(from: number, to: number, x: number): number {
  const t = clamp01((x - from) / (to - from))
  return t * t * t * (10 - 15 * t + 6 * t * t)
}

export const clamp01 = (t: number): number => Math.min(1, Math.max(0, t))
export const mix = (a: number, b: number, t: number): number => a + (b - a) * t

/** Ellipsoid about the origin: exact at the surface, a bound elsewhere. */
export function ellipsoid(x: number, y: number, z: number, rx: number, ry: number, rz: number): number {
  const a = x / rx
  const b = y / ry
  const c = z / rz
  const k0 = Math.sqrt(a * a + b * b + c * c)
  const d = a / rx
  const e = b / ry
  const f = c / rz
  const k1 = Math.sqrt(d * d + e * e + f * f)
  return k1 < 1e-9 ? -Math.min(rx, ry, rz) : (k0 * (k0 - 1)) / k1
}

/** x, y, z, radius. */
export type Ball = readonly [number, number, number, number]

/** Capsule between two balls of unlike radius (radius blended along the axis). */
export function capsule(x: number, y: number, z: number, a: Ball, b: Ball): number {
  const px = x - a[0]
  const py = y - a[1]
  const pz = z - a[2]
  const dx = b[0] - a[0]
  const dy = b[1] - a[1]
  const dz = b[2] - a[2]
  const t = clamp01((px * dx + py * dy + pz * dz) / (dx * dx + dy * dy + dz * dz))
  const ex = px - t * dx
  const ey = py - t * dy
  const ez = pz - t * dz
  return Math.sqrt(ex * ex + ey * ey + ez * ez) - (a[3] + (b[3] - a[3]) * t)
}
