import { coarseVertices, type FigurePart, type PosedPart } from '../../src/figure'
import type { Mesh } from '../../src/space'

/** A part of a figure that no pose moves, its mesh as it is in the room. */
export function resting(part: FigurePart, mesh: Mesh): PosedPart {
  const vertices = coarseVertices(part)
  const coarsely = (values: Float32Array) =>
    Float32Array.from({ length: 3 * vertices.length }, (_, i) => values[3 * vertices[Math.floor(i / 3)] + (i % 3)])
  const coarse = { positions: coarsely(mesh.positions), normals: coarsely(mesh.normals) }
  return { name: part.name, mesh, rest: mesh, part, coarse }
}
