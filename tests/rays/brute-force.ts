import { type Body, cross, dot, hash32, type Mesh, type Rect, subtract, type Vec3 } from '../../src/space'

/** Repeatable numbers in [0, 1). */
export function numbers(seed: number): () => number {
  let i = 0
  return () => hash32(seed, i++) / 2 ** 32
}

export const between = (next: () => number, low: number, high: number): number => low + (high - low) * next()
export const anywhere = (next: () => number, reach: number): Vec3 => [
  between(next, -reach, reach),
  between(next, -reach, reach),
  between(next, -reach, reach),
]

export function direction(next: () => number): Vec3 {
  const y = between(next, -1, 1)
  const phi = 2 * Math.PI * next()
  const r = Math.sqrt(1 - y * y)
  return [r * Math.cos(phi), y, r * Math.sin(phi)]
}

/** Loose triangles of all sizes, corners of neighbours not shared. */
export function soup(next: () => number, triangles: number): Mesh {
  const positions = new Float32Array(9 * triangles)
  for (let t = 0; t < triangles; t++) {
    const centre = anywhere(next, 1)
    const size = 0.02 + 0.5 * next() ** 2
    for (let c = 0; c < 3; c++)
      positions.set(
        centre.map((x) => x + between(next, -size, size)),
        9 * t + 3 * c,
      )
  }
  return {
    positions,
    normals: new Float32Array(9 * triangles),
    indices: Uint32Array.from({ length: 3 * triangles }, (_, i) => i),
  }
}

/** Closed sphere with shared corners, wound outwards. */
export function sphere(rows: number, columns: number, radius: number): Mesh {
  const positions: number[] = []
  const indices: number[] = []
  for (let r = 0; r <= rows; r++)
    for (let c = 0; c < columns; c++) {
      const polar = (Math.PI * r) / rows
      const phi = (2 * Math.PI * c) / columns
      positions.push(
        radius * Math.sin(polar) * Math.cos(phi),
        radius * Math.cos(polar),
        -radius * Math.sin(polar) * Math.sin(phi),
      )
      if (r === rows) continue
      const a = r * columns + c
      const b = r * columns + ((c + 1) % columns)
      if (r > 0) indices.push(a, a + columns, b)
      if (r < rows - 1) indices.push(b, a + columns, b + columns)
    }
  return {
    positions: new Float32Array(positions),
    normals: new Float32Array(positions.map((x) => x / radius)),
    indices: new Uint32Array(indices),
  }
}

export interface PlainHit {
  readonly distance: number
  readonly body: number
  readonly triangle: number
}

/** Every triangle and rectangle tried in turn: plane first, then inside by signed areas (not Möller and Trumbore). */
export function nearestByTryingAll(bodies: readonly Body[], origin: Vec3, d: Vec3): PlainHit | null {
  let best: PlainHit | null = null
  const offer = (distance: number | null, body: number, triangle: number) => {
    if (distance !== null && distance > 1e-7 && (!best || distance < best.distance)) best = { distance, body, triangle }
  }
  bodies.forEach((body, b) => {
    if (body.kind === 'rectangle') {
      const front = dot(cross(body.rect.halfU, body.rect.halfV), d) < 0
      if (front || !body.oneSided) offer(polygonDistance(corners(body.rect), origin, d), b, -1)
    } else
      for (let t = 0; 3 * t < body.mesh.indices.length; t++)
        offer(polygonDistance(triangleCorners(body.mesh, t), origin, d), b, t)
  })
  return best
}

export function triangleCorners({ positions: p, indices }: Mesh, t: number): Vec3[] {
  return [0, 1, 2].map((c) => {
    const i = 3 * indices[3 * t + c]
    return [p[i], p[i + 1], p[i + 2]]
  })
}

const corners = ({ centre, halfU, halfV }: Rect): Vec3[] =>
  [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([a, b]) => [0, 1, 2].map((k) => centre[k] + a * halfU[k] + b * halfV[k]) as unknown as Vec3)

/** Distance along a ray to a convex flat polygon, or null: the crossing must lie on one side of every edge. */
function polygonDistance(polygon: readonly Vec3[], origin: Vec3, d: Vec3): number | null {
  const n = cross(subtract(polygon[1], polygon[0]), subtract(polygon[2], polygon[0]))
  const facing = dot(n, d)
  if (facing === 0) return null
  const t = dot(n, subtract(polygon[0], origin)) / facing
  const at: Vec3 = [origin[0] + t * d[0], origin[1] + t * d[1], origin[2] + t * d[2]]
  const inside = polygon.every((a, i) => {
    const b = polygon[(i + 1) % polygon.length]
    return dot(cross(subtract(b, a), subtract(at, a)), n) >= 0
  })
  return inside ? t : null
}
