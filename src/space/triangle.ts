import type { Vec3 } from './types'

/** Triangles of a mesh by the numbers of their corners; positions three numbers a vertex. In plain numbers: asked once a ray. */
type Three = [number, number, number]

/** Cross product of two edges: along the normal of the winding a, b, c, and twice the area long. */
export function triangleCross(p: ArrayLike<number>, a: number, b: number, c: number): Three {
  const ux = p[3 * b] - p[3 * a]
  const uy = p[3 * b + 1] - p[3 * a + 1]
  const uz = p[3 * b + 2] - p[3 * a + 2]
  const vx = p[3 * c] - p[3 * a]
  const vy = p[3 * c + 1] - p[3 * a + 1]
  const vz = p[3 * c + 2] - p[3 * a + 2]
  return [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx]
}

/** Unit normal; zero where the triangle has no area. */
export function triangleNormal(p: ArrayLike<number>, a: number, b: number, c: number): Vec3 {
  const n = triangleCross(p, a, b, c)
  const k = 1 / (Math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]) || 1)
  n[0] *= k
  n[1] *= k
  n[2] *= k
  return n
}
