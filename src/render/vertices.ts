import { BufferAttribute, BufferGeometry } from 'three'
import { add, cross, length, type Mesh, normalize, scale, type Vec3 } from '../space'

/** RGB and gloss of a vertex: 0 = matt, > 0 = roughness of a dielectric lobe, < 0 = −roughness of a metal whose F0 is RGB. */
export type Coat = readonly [number, number, number, number]

const CELL_M = 0.25

/** Collects triangles of one vertex format: position, normal, coat, number of the object they belong to. */
export class Vertices {
  private readonly positions: number[] = []
  private readonly normals: number[] = []
  private readonly coats: number[] = []
  private readonly objects: number[] = []
  private readonly indices: number[] = []

  get count(): number {
    return this.objects.length
  }

  vertex(position: Vec3, normal: Vec3, coat: Coat, object: number): number {
    this.positions.push(...position)
    this.normals.push(...normal)
    this.coats.push(...coat)
    this.objects.push(object)
    return this.objects.length - 1
  }

  triangle(a: number, b: number, c: number): void {
    this.indices.push(a, b, c)
  }

  /** A grid of columns × rows cells; point(u, v) with u, v in [0, 1]; counter-clockwise as seen against the normal if u × v is it. */
  grid(
    columns: number,
    rows: number,
    at: (u: number, v: number) => { point: Vec3; normal: Vec3; coat: Coat },
    object: number,
  ): void {
    const first = this.count
    for (let j = 0; j <= rows; j++)
      for (let i = 0; i <= columns; i++) {
        const { point, normal, coat } = at(i / columns, j / rows)
        this.vertex(point, normal, coat, object)
      }
    for (let j = 0; j < rows; j++)
      for (let i = 0; i < columns; i++) {
        const a = first + j * (columns + 1) + i
        const b = a + columns + 1
        this.triangle(a, a + 1, b)
        this.triangle(b, a + 1, b + 1)
      }
  }

  /** Side −1: seen from behind. normalAt replaces the mesh's own normals. */
  mesh(
    { positions, normals, indices }: Mesh,
    coat: Coat,
    object: number,
    side: 1 | -1,
    normalAt?: (p: Vec3) => Vec3,
  ): void {
    const first = this.count
    for (let i = 0; i < positions.length; i += 3) {
      const position: Vec3 = [positions[i], positions[i + 1], positions[i + 2]]
      const own: Vec3 = [side * normals[i], side * normals[i + 1], side * normals[i + 2]]
      this.vertex(position, normalAt?.(position) ?? own, coat, object)
    }
    const [second, third] = side > 0 ? [1, 2] : [2, 1]
    for (let i = 0; i < indices.length; i += 3)
      this.triangle(first + indices[i], first + indices[i + second], first + indices[i + third])
  }

  /** In cells fine enough for what vertices carry. */
  quad(centre: Vec3, halfU: Vec3, halfV: Vec3, coat: Coat, object: number): void {
    const normal = normalize(cross(halfU, halfV))
    this.grid(
      Math.ceil((2 * length(halfU)) / CELL_M),
      Math.ceil((2 * length(halfV)) / CELL_M),
      (u, v) => ({ point: add(centre, add(scale(halfU, 2 * u - 1), scale(halfV, 2 * v - 1))), normal, coat }),
      object,
    )
  }

  geometry(): BufferGeometry {
    const geometry = new BufferGeometry()
    const list = (values: readonly number[], size: number) => new BufferAttribute(new Float32Array(values), size)
    geometry.setAttribute('position', list(this.positions, 3))
    geometry.setAttribute('normal', list(this.normals, 3))
    geometry.setAttribute('coat', list(this.coats, 4))
    geometry.setAttribute('object', list(this.objects, 1))
    geometry.setIndex(new BufferAttribute(new Uint32Array(this.indices), 1))
    return geometry
  }
}
