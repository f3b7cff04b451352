/**
 * After simplification: edge flips that raise the smaller angle, and tangential relaxation of the vertices of thin
 * triangles, put back on the field. Before, one triangle in ten has an angle under 10°; after ten passes, one in 10 000.
 */
import { triangleNormal } from '../../space'
import type { RawMesh } from './nets'
import type { Field } from './solids'
import { projectPoint } from './surface'
import { smallestAngle } from './triangles'

/** Enough for most parts. */
export const REFINE_PASSES = 10
const THIN = (16 * Math.PI) / 180
/** Faces that meet more sharply than this (cosine) carry a feature and are not flipped, unless one is a sliver. */
const SMOOTH_COSINE = 0.94
const SLIVER = 0.05
const GOOD_ENOUGH = 0.5

export function refine(field: Field, mesh: RawMesh, normals: Float32Array, half: boolean, passes: number): RawMesh {
  const positions = mesh.positions.slice()
  const indices = mesh.indices.slice()
  for (let pass = 0; pass < passes; pass++) {
    flipEdges(positions, indices, normals, half)
    relaxThin(field, positions, indices, normals, half)
  }
  return { positions, indices }
}

function directedEdges(indices: Uint32Array, n: number): Map<number, number> {
  const edges = new Map<number, number>()
  for (let t = 0; t < indices.length; t += 3)
    for (let k = 0; k < 3; k++) edges.set(indices[t + k] * n + indices[t + ((k + 1) % 3)], t)
  return edges
}

const opposite = (indices: Uint32Array, t: number, a: number, b: number): number => {
  for (let k = 0; k < 3; k++) if (indices[t + k] !== a && indices[t + k] !== b) return indices[t + k]
  return -1
}

function flipEdges(p: Float64Array, indices: Uint32Array, normals: Float32Array, half: boolean): void {
  const n = p.length / 3
  const edges = directedEdges(indices, n)
  const touched = new Set<number>()
  for (const [key, t] of [...edges]) {
    const a = Math.floor(key / n)
    const b = key % n
    const u = edges.get(b * n + a)
    if (a > b || u === undefined || edges.get(key) !== t || touched.has(t) || touched.has(u)) continue
    const c = opposite(indices, t, a, b)
    const d = opposite(indices, u, a, b)
    // Edges made in this pass count as existing, and no chord may be drawn inside the plane of symmetry.
    if (c < 0 || d < 0 || c === d || edges.has(c * n + d) || edges.has(d * n + c)) continue
    if (half && p[c * 3] === 0 && p[d * 3] === 0) continue
    if (!flipHelps(p, normals, a, b, c, d)) continue
    indices.set([a, d, c], t)
    indices.set([d, b, c], u)
    edges.delete(key)
    edges.delete(b * n + a)
    edges.set(d * n + c, t).set(c * n + d, u)
    touched.add(t).add(u)
  }
}

function flipHelps(p: Float64Array, normals: Float32Array, a: number, b: number, c: number, d: number): boolean {
  const before = Math.min(smallestAngle(p, a, b, c), smallestAngle(p, b, a, d))
  const after = Math.min(smallestAngle(p, a, d, c), smallestAngle(p, d, b, c))
  if (after <= before * 1.05 || before > GOOD_ENOUGH) return false
  const dot = (u: readonly number[], v: readonly number[]) => u[0] * v[0] + u[1] * v[1] + u[2] * v[2]
  if (before >= SLIVER && dot(triangleNormal(p, a, b, c), triangleNormal(p, b, a, d)) < SMOOTH_COSINE) return false
  const facing = [0, 1, 2].map((k) => normals[a * 3 + k] + normals[b * 3 + k] + normals[c * 3 + k] + normals[d * 3 + k])
  const least = 0.3 * Math.hypot(...facing)
  return dot(triangleNormal(p, a, d, c), facing) > least && dot(triangleNormal(p, d, b, c), facing) > least
}

function relaxThin(field: Field, p: Float64Array, indices: Uint32Array, normals: Float32Array, half: boolean): void {
  const thin = new Uint8Array(p.length / 3)
  for (let t = 0; t < indices.length; t += 3)
    if (smallestAngle(p, indices[t], indices[t + 1], indices[t + 2]) < THIN)
      for (let k = 0; k < 3; k++) thin[indices[t + k]] = 1
  const means = neighbourMeans(p, indices, half)
  for (let v = 0; v < thin.length; v++)
    if (thin[v] && means.count[v] > 0) relaxVertex(field, p, normals, means.sum, means.count[v], v, half)
}

/** Sums over neighbours (each edge is met from both of its faces, which cancels in the mean). */
function neighbourMeans(p: Float64Array, indices: Uint32Array, half: boolean) {
  const sum = new Float64Array(p.length)
  const count = new Float64Array(p.length / 3)
  const pull = (v: number, towards: number) => {
    // Vertices on the plane of symmetry move only along it.
    if (half && p[v * 3] === 0 && p[towards * 3] !== 0) return
    for (let k = 0; k < 3; k++) sum[v * 3 + k] += p[towards * 3 + k]
    count[v]++
  }
  for (let t = 0; t < indices.length; t += 3)
    for (let k = 0; k < 3; k++) {
      pull(indices[t + k], indices[t + ((k + 1) % 3)])
      pull(indices[t + ((k + 1) % 3)], indices[t + k])
    }
  return { sum, count }
}

function relaxVertex(
  field: Field,
  p: Float64Array,
  normals: Float32Array,
  sum: Float64Array,
  count: number,
  v: number,
  half: boolean,
): void {
  const o = v * 3
  const step = [0, 1, 2].map((k) => sum[o + k] / count - p[o + k])
  const along = step[0] * normals[o] + step[1] * normals[o + 1] + step[2] * normals[o + 2]
  const size = Math.hypot(...step)
  const share = 0.4 * Math.min(1, 1 / (size + 1e-9))
  const moved = Float64Array.from(step, (s, k) => p[o + k] + share * (s - along * normals[o + k]))
  if (half && p[o] === 0) moved[0] = 0
  else if (half && moved[0] < 0.05) return
  projectPoint(field, moved, 0, 0.4, half)
  p.set(moved, o)
}
