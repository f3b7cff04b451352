import { coarseVertices, type FigurePart, type PosedPart } from '../../src/figure'
import { dot, type Mesh, type Vec3 } from '../../src/space'

/** A part of a figure that no pose moves, its mesh as it is in the room. */
export function resting(part: FigurePart, mesh: Mesh): PosedPart {
  const vertices = coarseVertices(part)
  const coarsely = (values: Float32Array) =>
    Float32Array.from({ length: 3 * vertices.length }, (_, i) => values[3 * vertices[Math.floor(i / 3)] + (i % 3)])
  const coarse = { positions: coarsely(mesh.positions), normals: coarsely(mesh.normals) }
  const pointAt = (vertex: number): Vec3 => [0, 1, 2].map((k) => mesh.positions[3 * vertex + k]) as unknown as Vec3
  return {
    name: part.name,
    mesh,
    rest: mesh,
    part,
    coarse,
    heightsAlong: (direction) => Float64Array.from(part.headWeight, (_, vertex) => dot(pointAt(vertex), direction)),
    pointAt,
  }
}
