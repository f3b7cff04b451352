import type { Mesh, Vec3 } from './types'
import { add, addScaled, basisAround, cross, length, normalize, scale, subtract } from './vec3'

/**
 * Round things as flat triangles, for ray casters and for places of light. Wound so that normals point out of closed
 * solids, along the normal of a disc and out of the hollow of a cap. Facets keep their own normal: no corner is shared.
 */
export interface Fineness {
  /** Sides of a circle; the polygon's radius is grown so that its area is the circle's. */
  readonly sides?: number
  /** Steps from pole to pole of a ball, or from rim to apex of a cap. */
  readonly rings?: number
}

const SIDES = 32
const CAP_RINGS = 8
const BALL_RINGS = 48

class Facets {
  private readonly positions: number[] = []
  private readonly normals: number[] = []

  triangle(a: Vec3, b: Vec3, c: Vec3): void {
    const across = cross(subtract(b, a), subtract(c, a))
    if (length(across) < 1e-14) return // the poles of a grid
    const normal = normalize(across)
    for (const p of [a, b, c]) {
      this.positions.push(...p)
      this.normals.push(...normal)
    }
  }

  fan(centre: Vec3, rim: readonly Vec3[]): void {
    for (const [i, p] of rim.entries()) this.triangle(centre, p, rim[(i + 1) % rim.length])
  }

  band(lower: readonly Vec3[], upper: readonly Vec3[]): void {
    for (const [i, p] of lower.entries()) {
      const next = (i + 1) % lower.length
      this.triangle(p, lower[next], upper[next])
      this.triangle(p, upper[next], upper[i])
    }
  }

  mesh(): Mesh {
    return {
      positions: new Float32Array(this.positions),
      normals: new Float32Array(this.normals),
      indices: Uint32Array.from({ length: this.positions.length / 3 }, (_, i) => i),
    }
  }
}

/** A circle as a regular polygon of equal area, counter-clockwise about the axis. */
function ring(centre: Vec3, axis: Vec3, radius: number, sides: number): Vec3[] {
  const [x, y] = basisAround(axis)
  const step = (2 * Math.PI) / sides
  const grown = radius * Math.sqrt(step / Math.sin(step))
  return Array.from({ length: sides }, (_, i) =>
    addScaled(addScaled(centre, x, grown * Math.cos(i * step)), y, grown * Math.sin(i * step)),
  )
}

export function cylinderMesh(from: Vec3, to: Vec3, radiusM: number, { sides = SIDES }: Fineness = {}): Mesh {
  const axis = normalize(subtract(to, from))
  const facets = new Facets()
  const lower = ring(from, axis, radiusM, sides)
  const upper = ring(to, axis, radiusM, sides)
  facets.band(lower, upper)
  facets.fan(from, [...lower].reverse())
  facets.fan(to, upper)
  return facets.mesh()
}

export function discMesh(centre: Vec3, normal: Vec3, radiusM: number, { sides = SIDES }: Fineness = {}): Mesh {
  const facets = new Facets()
  facets.fan(centre, ring(centre, normalize(normal), radiusM, sides))
  return facets.mesh()
}

/** A spherical cap from rim to apex, R = (D²/4 + h²)/2h; axis: from the rim's plane to the apex. */
export function capMesh(
  rimCentre: Vec3,
  axis: Vec3,
  diameterM: number,
  depthM: number,
  { sides = SIDES, rings = CAP_RINGS }: Fineness = {},
): Mesh {
  const sphere = (diameterM ** 2 / 4 + depthM ** 2) / (2 * depthM)
  const opening = Math.atan2(diameterM / 2, sphere - depthM)
  const circles = Array.from({ length: rings }, (_, i) => {
    const angle = opening * (1 - i / rings)
    const height = sphere * Math.cos(angle) - (sphere - depthM)
    return ring(addScaled(rimCentre, axis, height), axis, sphere * Math.sin(angle), sides)
  })
  const facets = new Facets()
  for (let i = 0; i + 1 < circles.length; i++) facets.band(circles[i], circles[i + 1])
  facets.fan(addScaled(rimCentre, axis, depthM), circles[circles.length - 1])
  return facets.mesh()
}

/** Corners lie on the sphere; twice as many sides as rings. At 48 rings and 0.2 m across, facets lie at most 0.1 mm inside. */
export function ballMesh(centre: Vec3, radiusM: number, { rings = BALL_RINGS }: Pick<Fineness, 'rings'> = {}): Mesh {
  const sides = 2 * rings
  const at = (row: number): Vec3[] =>
    Array.from({ length: sides }, (_, column) => {
      const polar = (Math.PI * row) / rings
      const around = (2 * Math.PI * column) / sides
      const out: Vec3 = [Math.sin(polar) * Math.cos(around), Math.cos(polar), -Math.sin(polar) * Math.sin(around)]
      return add(centre, scale(out, radiusM))
    })
  const facets = new Facets()
  for (let row = rings; row > 0; row--) facets.band(at(row), at(row - 1))
  return facets.mesh()
}

/** A flat rectangle as two triangles, wound as its front. */
export function rectangleMesh(centre: Vec3, halfU: Vec3, halfV: Vec3): Mesh {
  const corner = (u: number, v: number) => addScaled(addScaled(centre, halfU, u), halfV, v)
  const facets = new Facets()
  facets.triangle(corner(-1, -1), corner(1, -1), corner(1, 1))
  facets.triangle(corner(-1, -1), corner(1, 1), corner(-1, 1))
  return facets.mesh()
}
