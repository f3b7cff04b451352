/** Straight ways along the skin, from triangle to triangle. Metres. */
import { addScaled, cross, dot, length, type Mesh, scale, subtract, type Vec3 } from '../../space'
import type { SkinPlace } from './skin-front'

export interface SkinPoint {
  /** First index of the triangle. */
  readonly triangle: number
  readonly at: Vec3
}

interface Plane {
  readonly corners: readonly Vec3[]
  readonly gradients: readonly Vec3[]
  readonly normal: Vec3
}

/** Crossings after which a way is given up. */
const MOST = 24
/** Slopes of a share, 1/m, that count as none. */
const LEVEL = 1e-4

export class SkinWalk {
  /** Triangle on the other side of each directed edge. */
  private readonly beyond = new Map<number, number>()
  private readonly planes = new Map<number, Plane>()

  /** Over these triangles, by their first index. */
  constructor(
    private readonly mesh: Mesh,
    triangles: readonly number[],
  ) {
    const { indices } = mesh
    for (const t of triangles)
      for (let k = 0; k < 3; k++) this.beyond.set(this.edge(indices[t + ((k + 1) % 3)], indices[t + k]), t)
  }

  private edge(a: number, b: number): number {
    return a * (this.mesh.positions.length / 3) + b
  }

  /** Straight on from a point in a direction, which is bent onto the skin; null: the way leaves these triangles. */
  on(from: SkinPoint, direction: Vec3, lengthM: number): SkinPoint | null {
    let { triangle, at } = from
    let left = lengthM
    for (let n = 0; n < MOST; n++) {
      const { corners, gradients, normal } = this.plane(triangle)
      const flat = dot(direction, normal)
      const along = addScaled(direction, normal, -flat)
      const size = length(along)
      if (size < 1e-6) return null
      const d = scale(along, 1 / size)
      const [side, way] = exit(corners, gradients, at, d)
      if (way >= left) return { triangle, at: addScaled(at, d, left) }
      const { indices } = this.mesh
      const next = this.beyond.get(
        this.edge(indices[triangle + ((side + 1) % 3)], indices[triangle + ((side + 2) % 3)]),
      )
      if (next === undefined) return null
      at = addScaled(at, d, way)
      left -= way
      triangle = next
    }
    return null
  }

  /** So many points from a root on, stepM apart, the way turned by bend (radians) at each; null: it leads off these triangles. */
  along(root: SkinPoint, way: Vec3, bend: number, stepM: number, points: number): readonly SkinPoint[] | null {
    const path = [root]
    let direction = way
    for (let k = 1; k < points; k++) {
      const next = this.on(path[k - 1], direction, stepM)
      if (!next) return null
      path.push(next)
      direction = turned(direction, this.plane(next.triangle).normal, bend)
    }
    return path
  }

  place({ triangle, at }: SkinPoint): SkinPlace {
    const { corners, gradients } = this.plane(triangle)
    const raw = shares(corners, gradients, at).map((w) => Math.max(0, w))
    const sum = raw[0] + raw[1] + raw[2]
    const { indices } = this.mesh
    return {
      corners: [indices[triangle], indices[triangle + 1], indices[triangle + 2]],
      weights: [raw[0] / sum, raw[1] / sum, raw[2] / sum],
    }
  }

  /** Corners, how the share of each grows, and the normal of a triangle. */
  plane(triangle: number): Plane {
    const known = this.planes.get(triangle)
    if (known) return known
    const plane = this.planeOf(triangle)
    this.planes.set(triangle, plane)
    return plane
  }

  private planeOf(triangle: number): Plane {
    const { positions: p, indices } = this.mesh
    const corners = [0, 1, 2].map((k): Vec3 => {
      const v = indices[triangle + k] * 3
      return [p[v], p[v + 1], p[v + 2]]
    })
    const [a, b, c] = corners
    const n = cross(subtract(b, a), subtract(c, a))
    const squared = dot(n, n)
    const gradients = [subtract(c, b), subtract(a, c), subtract(b, a)].map((edge) => scale(cross(n, edge), 1 / squared))
    return { corners, gradients, normal: scale(n, 1 / Math.sqrt(squared)) }
  }
}

/** Of each corner at a point: 1 there, 0 on the side across. */
const shares = (corners: readonly Vec3[], gradients: readonly Vec3[], at: Vec3): number[] =>
  gradients.map((gradient, k) => dot(gradient, subtract(at, corners[(k + 1) % 3])))

/** The side, by the corner across from it, through which a way leaves, and after how far. */
function exit(corners: readonly Vec3[], gradients: readonly Vec3[], at: Vec3, d: Vec3): readonly [number, number] {
  let [side, way] = [-1, Number.POSITIVE_INFINITY]
  shares(corners, gradients, at).forEach((share, k) => {
    const slope = dot(gradients[k], d)
    if (slope > -LEVEL) return
    const after = Math.max(0, share) / -slope
    if (after < way) [side, way] = [k, after]
  })
  return [side, way]
}

/** A way along the skin turned about its normal, radians. */
export function turned(d: Vec3, n: Vec3, angle: number): Vec3 {
  return addScaled(scale(d, Math.cos(angle)), cross(n, d), Math.sin(angle))
}
