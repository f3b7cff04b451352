import type { GearSolid } from '../gear'
import { capMesh, cylinderMesh, discMesh, type Fineness, type Mesh, rectangleMesh } from '../space'

/** A gear solid as triangles, in the frame in which it is given: for who casts rays at it, lights it or draws it. */
export function solidMesh(solid: GearSolid, fineness?: Fineness): Mesh {
  switch (solid.kind) {
    case 'cylinder':
      return cylinderMesh(solid.from, solid.to, solid.radiusM, fineness)
    case 'disc':
      return discMesh(solid.centre, solid.normal, solid.radiusM, fineness)
    case 'cap':
      return capMesh(solid.rimCentre, solid.axis, solid.diameterM, solid.depthM, fineness)
    case 'rectangle':
      return rectangleMesh(solid.rect.centre, solid.rect.halfU, solid.rect.halfV)
  }
}
