/** Where a point lies on a field: gradient, normals, Newton steps onto the surface. Millimetres. */
import type { Field } from './solids'

export function gradient(field: Field, x: number, y: number, z: number, step: number, out: Float64Array): void {
  out[0] = (field(x + step, y, z) - field(x - step, y, z)) / (2 * step)
  out[1] = (field(x, y + step, z) - field(x, y - step, z)) / (2 * step)
  out[2] = (field(x, y, z + step) - field(x, y, z - step)) / (2 * step)
}

/** Two Newton steps of at most maxStep each. In a half mesh, points on the plane x = 0 stay on it. */
export function projectPoint(field: Field, p: Float64Array, at: number, maxStep: number, half: boolean): void {
  const g = new Float64Array(3)
  const onPlane = half && p[at] === 0
  for (let pass = 0; pass < 2; pass++) {
    const value = field(p[at], p[at + 1], p[at + 2])
    gradient(field, p[at], p[at + 1], p[at + 2], 0.12, g)
    const squared = g[0] * g[0] + g[1] * g[1] + g[2] * g[2]
    if (squared < 0.05) return
    const limit = maxStep / Math.sqrt(squared)
    const step = Math.max(-limit, Math.min(limit, -value / squared))
    if (!onPlane) p[at] = half ? Math.max(0, p[at] + g[0] * step) : p[at] + g[0] * step
    p[at + 1] += g[1] * step
    p[at + 2] += g[2] * step
  }
}

export function projectAll(field: Field, positions: Float64Array, maxStep: number, half: boolean): void {
  for (let at = 0; at < positions.length; at += 3) projectPoint(field, positions, at, maxStep, half)
}

/** Unit outward normals from the field's gradient, not from faces: shading then does not depend on the triangles. */
export function fieldNormals(field: Field, positions: Float64Array, step: number, half: boolean): Float32Array {
  const normals = new Float32Array(positions.length)
  const g = new Float64Array(3)
  for (let at = 0; at < positions.length; at += 3) {
    gradient(field, positions[at], positions[at + 1], positions[at + 2], step, g)
    if (half && positions[at] === 0) g[0] = 0
    const size = Math.hypot(g[0], g[1], g[2]) || 1
    for (let k = 0; k < 3; k++) normals[at + k] = g[k] / size
  }
  return normals
}
