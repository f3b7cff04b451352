import { capSphere, finishOf, type Material, type RigSource, type SolidSide, solidMesh } from '../rig'
import { addScaled, dot, type Mesh, normalize, subtract, type Vec3 } from '../space'
import type { Coat, Vertices } from './vertices'

export type GearSolid = RigSource['gear'][number]

const FINE = { sides: 48, rings: 12 }
/** A cap's facets lie up to this share of its width off the sphere by which it shades: none may lie in its own shadow. */
const CAP_LIFT = 1e-3

/** A mirror is drawn as metal of this roughness: the sources show in it as they would, and of the set its mean. */
const SMOOTHEST = 0.06

export const coatOf = (material: Material): Coat =>
  material.kind === 'matt' ? [...material.albedo, 0] : [...material.f0, -Math.max(SMOOTHEST, material.roughness)]

/** Gear that was not moved is the same record under a hand that moves another. */
const made = new WeakMap<GearSolid, Map<SolidSide, Mesh>>()

function knownSide(solid: GearSolid, side: SolidSide): Mesh {
  const sides = made.get(solid) ?? new Map<SolidSide, Mesh>()
  made.set(solid, sides)
  const mesh = sides.get(side) ?? sideMesh(solid, side)
  sides.set(side, mesh)
  return mesh
}

/** Triangles of one side of a gear solid. */
export function addSolidSide(vertices: Vertices, solid: GearSolid, side: SolidSide, object: number): void {
  vertices.mesh(knownSide(solid, side), coatOf(finishOf(solid, side)), object, side === 'front' ? 1 : -1)
}

/** With the round solid's own normals in place of the facets'. */
function sideMesh(solid: GearSolid, side: SolidSide): Mesh {
  const mesh = solidMesh(solid, FINE)
  if (solid.kind === 'cylinder') {
    const axis = normalize(subtract(solid.to, solid.from))
    const radial = (p: Vec3, own: Vec3): Vec3 => {
      const from = subtract(p, solid.from)
      return Math.abs(dot(own, axis)) > 0.5 ? own : normalize(addScaled(from, axis, -dot(from, axis)))
    }
    return mapped(mesh, radial, 0)
  }
  if (solid.kind !== 'cap') return mesh
  const { centre } = capSphere(solid)
  const liftM = CAP_LIFT * solid.diameterM
  return mapped(mesh, (p) => normalize(subtract(p, centre)), side === 'front' ? liftM : -liftM)
}

/** Other normals, and places moved along them. */
function mapped(mesh: Mesh, normalAt: (p: Vec3, own: Vec3) => Vec3, byM: number): Mesh {
  const [positions, normals] = [mesh.positions.slice(), mesh.normals.slice()]
  for (let i = 0; i < positions.length; i += 3) {
    const at = (values: Float32Array): Vec3 => [values[i], values[i + 1], values[i + 2]]
    const normal = normalAt(at(positions), at(normals))
    positions.set(addScaled(at(positions), normal, byM), i)
    normals.set(normal, i)
  }
  return { ...mesh, positions, normals }
}
