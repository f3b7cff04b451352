import { type RigSource, solidMesh } from '../rig'
import type { Coat, Vertices } from './vertices'

export type GearSolid = RigSource['gear'][number]

const FINE = { sides: 48, rings: 12 }

/** Triangles of a gear solid; thin ones get both sides. */
export function addSolid(vertices: Vertices, solid: GearSolid, object: number): void {
  const coat: Coat = [...solid.albedo, 0]
  const mesh = solidMesh(solid, FINE)
  vertices.mesh(mesh, coat, object, 1)
  if (solid.kind !== 'cylinder') vertices.mesh(mesh, coat, object, -1)
}
