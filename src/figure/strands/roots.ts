/** Where on a part of hair what is loose on it may root. Metres. */
import { cross, dot, type Mesh, subtract, type Vec3 } from '../../space'
import { spread } from './binding'
import type { SkinPoint, SkinWalk } from './skin-walk'

const MM = 1e-3
/** Middle of the head: what faces it is the inside of the mass. */
const MIDDLE: Vec3 = [0, 15 * MM, -80 * MM]
/** Below it hair hangs free. */
const HANGS_Y = -60 * MM

export function outerTriangles({ positions: p, normals: n, indices }: Mesh): readonly number[] {
  const found: number[] = []
  for (let t = 0; t < indices.length; t += 3) {
    const v = indices[t] * 3
    const out = [0, 1, 2].reduce((sum, k) => sum + n[v + k] * (p[v + k] - MIDDLE[k]), 0)
    if (p[v + 1] < HANGS_Y || out > 0.005) found.push(t)
  }
  return found
}

/** So many a mm² on a triangle, evenly by chance, each with a number of its own. */
export function rootsOn(walk: SkinWalk, triangle: number, density: number, stream: number) {
  const { corners, normal } = walk.plane(triangle)
  const [a, b, c] = corners
  const area = (0.5 * dot(normal, cross(subtract(b, a), subtract(c, a)))) / MM ** 2
  const count = Math.floor(area * density + spread(stream, triangle, 0, 1))
  return Array.from({ length: count }, (_, i) => {
    const number = triangle * 8 + i
    const [u, v] = [spread(stream + 1, number, 0, 1), spread(stream + 2, number, 0, 1)]
    const [s, t] = u + v > 1 ? [1 - u, 1 - v] : [u, v]
    const at = [0, 1, 2].map((k) => a[k] + s * (b[k] - a[k]) + t * (c[k] - a[k])) as unknown as Vec3
    return { root: { triangle, at } satisfies SkinPoint, number }
  })
}

/** Of a triangle's corners. */
export const cornerSum = (values: Float32Array, { indices }: Mesh, triangle: number): Vec3 =>
  [0, 1, 2].map((k) => [0, 1, 2].reduce((all, j) => all + values[indices[triangle + j] * 3 + k], 0)) as unknown as Vec3
