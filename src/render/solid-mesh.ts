import type { RigSource } from '../rig'
import { capMesh, cylinderMesh, discMesh, type Mesh, rectangleMesh } from '../space'
import type { Coat, Vertices } from './vertices'

export type GearSolid = RigSource['gear'][number]

const FINE = { sides: 48, rings: 12 }

/** Triangles of a gear solid; thin ones get both sides. */
export function addSolid(vertices: Vertices, solid: GearSolid, object: number): void {
  const coat: Coat = [...solid.albedo, 0]
  const mesh = meshOf(solid)
  vertices.mesh(mesh, coat, object, 1)
  if (solid.kind !== 'cylinder') vertices.mesh(mesh, coat, object, -1)
}

function meshOf(solid: GearSolid): Mesh {
  switch (solid.kind) {
    case 'rectangle':
      return rectangleMesh(solid.rect.centre, solid.rect.halfU, solid.rect.halfV)
    case 'disc':
      return discMesh(solid.centre, solid.normal, solid.radiusM, FINE)
    case 'cylinder':
      return cylinderMesh(solid.from, solid.to, solid.radiusM, FINE)
    case 'cap':
      return capMesh(solid.rimCentre, solid.axis, solid.diameterM, solid.depthM, FINE)
  }
}
