import { capRadius } from '../photometry'
import type { Rig } from '../rig'
import { add, addScaled, basisAround, length, type Mesh, normalize, scale, subtract, type Vec3 } from '../space'

type GearSolid = Rig['sources'][number]['gear'][number]

/** Round things become this many flat sides; the polygon's radius is grown so that its area is the circle's. */
const SIDES = 32
const CAP_RINGS = 8
const BALL_SIDES = 96
const BALL_RINGS = 48

/** Collects a triangle mesh whose corners are not shared, so that every facet keeps its own flat normal. */
class MeshBuilder {
  private readonly positions: number[] = []
  private readonly normals: number[] = []

  triangle(a: Vec3, b: Vec3, c: Vec3): void {
    const u = subtract(b, a)
    const v = subtract(c, a)
    const n: Vec3 = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]]
    if (length(n) < 1e-14) return
    const normal = normalize(n)
    for (const p of [a, b, c]) {
      this.positions.push(...p)
      this.normals.push(...normal)
    }
  }

  quad(a: Vec3, b: Vec3, c: Vec3, d: Vec3): void {
    this.triangle(a, b, c)
    this.triangle(a, c, d)
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
function ring(centre: Vec3, axis: Vec3, radius: number, sides = SIDES): Vec3[] {
  const [x, y] = basisAround(axis)
  const step = (2 * Math.PI) / sides
  const grown = radius * Math.sqrt(step / Math.sin(step))
  return Array.from({ length: sides }, (_, i) =>
    addScaled(addScaled(centre, x, grown * Math.cos(i * step)), y, grown * Math.sin(i * step)),
  )
}

function addFan(builder: MeshBuilder, centre: Vec3, rim: readonly Vec3[]): void {
  rim.forEach((p, i) => {
    builder.triangle(centre, p, rim[(i + 1) % rim.length])
  })
}

function addBand(builder: MeshBuilder, lower: readonly Vec3[], upper: readonly Vec3[]): void {
  lower.forEach((p, i) => {
    const next = (i + 1) % lower.length
    builder.quad(p, lower[next], upper[next], upper[i])
  })
}

function cylinderMesh(from: Vec3, to: Vec3, radius: number): Mesh {
  const axis = normalize(subtract(to, from))
  const builder = new MeshBuilder()
  const lower = ring(from, axis, radius)
  const upper = ring(to, axis, radius)
  addBand(builder, lower, upper)
  addFan(builder, from, [...lower].reverse())
  addFan(builder, to, upper)
  return builder.mesh()
}

function discMesh(centre: Vec3, normal: Vec3, radius: number): Mesh {
  const builder = new MeshBuilder()
  addFan(builder, centre, ring(centre, normalize(normal), radius))
  return builder.mesh()
}

/** A spherical cap from rim to apex. */
function capMesh(rimCentre: Vec3, axis: Vec3, diameter: number, depth: number): Mesh {
  const sphere = capRadius(diameter, depth)
  const apexAngle = Math.atan2(diameter / 2, sphere - depth)
  const rings = Array.from({ length: CAP_RINGS }, (_, i) => {
    const angle = apexAngle * (1 - i / CAP_RINGS)
    const height = sphere * Math.cos(angle) - (sphere - depth)
    return ring(addScaled(rimCentre, axis, height), axis, sphere * Math.sin(angle))
  })
  const builder = new MeshBuilder()
  for (let i = 0; i + 1 < rings.length; i++) addBand(builder, rings[i], rings[i + 1])
  addFan(builder, addScaled(rimCentre, axis, depth), rings[rings.length - 1])
  return builder.mesh()
}

/** A ball, corners on the sphere: at 0.2 m across the facets lie 0.1 mm inside it at most. */
export function ballMesh({ centre, radiusM }: Rig['balls'][number]): Mesh {
  const builder = new MeshBuilder()
  const at = (row: number, column: number): Vec3 => {
    const polar = (Math.PI * row) / BALL_RINGS
    const around = (2 * Math.PI * column) / BALL_SIDES
    const out: Vec3 = [Math.sin(polar) * Math.cos(around), Math.cos(polar), -Math.sin(polar) * Math.sin(around)]
    return add(centre, scale(out, radiusM))
  }
  for (let row = 0; row < BALL_RINGS; row++)
    for (let column = 0; column < BALL_SIDES; column++)
      builder.quad(at(row, column), at(row + 1, column), at(row + 1, column + 1), at(row, column + 1))
  return builder.mesh()
}

/** A gear solid as a mesh, in the frame in which it is given. Rectangles need none: the ray caster knows them. */
export function solidMesh(solid: Exclude<GearSolid, { kind: 'rectangle' }>): Mesh {
  switch (solid.kind) {
    case 'cylinder':
      return cylinderMesh(solid.from, solid.to, solid.radiusM)
    case 'disc':
      return discMesh(solid.centre, solid.normal, solid.radiusM)
    case 'cap':
      return capMesh(solid.rimCentre, normalize(solid.axis), solid.diameterM, solid.depthM)
  }
}
