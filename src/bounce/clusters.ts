import type { Mesh, Vec3 } from '../space'
import { basisAround, length, triangleCross } from '../space'
import { pointOfTriangle } from './elements'

/** Metres that a turn of the normal by one radian is worth when triangles are grouped: no cluster bends round an edge. */
const TURN_M = 0.05
const FEATURES = 6

/** Which cluster each triangle belongs to, numbered from 0; count is at most the asked number. */
export interface Clustering {
  readonly of: Uint16Array
  readonly count: number
}

export function triangleAreas({ positions: p, indices }: Mesh): Float64Array {
  return Float64Array.from(
    { length: indices.length / 3 },
    (_, t) => length(triangleCross(p, indices[3 * t], indices[3 * t + 1], indices[3 * t + 2])) / 2,
  )
}

interface Group {
  readonly triangles: Uint32Array
  readonly area: number
}

/** Splits at the area's median along the widest of position and normal, the heaviest group first. Same mesh, same answer. */
export function clusterTriangles(mesh: Mesh, wanted: number): Clustering {
  const areas = triangleAreas(mesh)
  const features = featuresOf(mesh)
  const all = Uint32Array.from(areas.keys())
  const groups: Group[] = [{ triangles: all, area: sumOf(all, areas) }]
  while (groups.length < wanted) {
    const heaviest = groups.reduce((best, { area, triangles }, i) => {
      return triangles.length > 1 && area > (groups[best]?.area ?? -1) ? i : best
    }, -1)
    if (heaviest < 0) break
    const halves = halved(groups[heaviest].triangles, features, areas)
    const [a, b] = halves.map((triangles) => ({ triangles, area: sumOf(triangles, areas) }))
    groups.splice(heaviest, 1, a, b)
  }
  const of = new Uint16Array(areas.length)
  groups.forEach(({ triangles }, number) => {
    for (const t of triangles) of[t] = number
  })
  return { of, count: groups.length }
}

const sumOf = (triangles: Uint32Array, areas: Float64Array): number => triangles.reduce((sum, t) => sum + areas[t], 0)

function featuresOf(mesh: Mesh): Float32Array {
  const count = mesh.indices.length / 3
  const features = new Float32Array(FEATURES * count)
  for (let t = 0; t < count; t++) {
    const { point, normal } = pointOfTriangle(mesh, t, 1 / 3, 1 / 3, 1 / 3, 1)
    features.set([...point, normal[0] * TURN_M, normal[1] * TURN_M, normal[2] * TURN_M], FEATURES * t)
  }
  return features
}

function halved(triangles: Uint32Array, features: Float32Array, areas: Float64Array): [Uint32Array, Uint32Array] {
  let axis = 0
  let widest = -1
  for (let f = 0; f < FEATURES; f++) {
    let low = Number.POSITIVE_INFINITY
    let high = Number.NEGATIVE_INFINITY
    for (const t of triangles) {
      const value = features[FEATURES * t + f]
      if (value < low) low = value
      if (value > high) high = value
    }
    if (high - low > widest) {
      widest = high - low
      axis = f
    }
  }
  const sorted = triangles.slice().sort((a, b) => features[FEATURES * a + axis] - features[FEATURES * b + axis])
  const half = sorted.reduce((sum, t) => sum + areas[t], 0) / 2
  let at = 0
  for (let sum = 0; at < sorted.length - 1 && sum < half; at++) sum += areas[sorted[at]]
  at = Math.max(1, at)
  return [sorted.subarray(0, at), sorted.subarray(at)]
}

/** Cosine-weighted about the normal: even points of the unit disc lifted to the sphere (Malley). */
export const cosineDirection = (normal: Vec3, u: number, v: number): Vec3 => cosineDirections(normal)(u, v)

export function cosineDirections(n: Vec3): (u: number, v: number) => Vec3 {
  const [x, y] = basisAround(n)
  return (u, v) => {
    const a = Math.sqrt(u) * Math.cos(2 * Math.PI * v)
    const b = Math.sqrt(u) * Math.sin(2 * Math.PI * v)
    const c = Math.sqrt(1 - u)
    return [a * x[0] + b * y[0] + c * n[0], a * x[1] + b * y[1] + c * n[1], a * x[2] + b * y[2] + c * n[2]]
  }
}
