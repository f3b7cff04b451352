import type { RigFigure } from '../rig'
import { hash32, type Mesh, type RayCaster, sobol } from '../space'
import { cosineDirection } from './clusters'
import { pointOfTriangle } from './elements'
import type { RayStart } from './lists'
import type { BodyOwner, BounceScene } from './scene'
import { vertexStart } from './vertices'

type Posed = RigFigure['posed']

/** Looks from a place that agree: so many meet the inside of a mesh, or so many do not. */
const AGREED = 2

/** By the record of the pose, which is all that it depends on: sitters' own parts hide each other, nothing else does. */
const known = new WeakMap<Posed, readonly Uint8Array[]>()

/** Of each part of each sitter, 1: a triangle inside a closed body, which gives no light: a neck under its collar. */
export function buriedTriangles({ owners, rig }: BounceScene, caster: RayCaster): ReadonlyMap<BodyOwner, Uint8Array> {
  return new Map(
    rig.figures.flatMap((figure) => {
      const parts = owners.filter((owner) => owner.kind === 'part').filter((owner) => owner.figure === figure)
      const others = new Set([...owners.keys()].filter((body) => !parts.some((part) => part === owners[body])))
      const buried = known.get(figure.posed) ?? parts.map(({ mesh }) => buriedIn(mesh, others, caster))
      known.set(figure.posed, buried)
      return parts.map((part, i) => [part, buried[i]] as const)
    }),
  )
}

/** A triangle goes by its corners, and where they disagree by its middle. */
function buriedIn(mesh: Mesh, others: ReadonlySet<number>, caster: RayCaster): Uint8Array {
  const { indices } = mesh
  const hidden = new Uint8Array(mesh.positions.length / 3)
  for (const vertex of new Set(indices))
    hidden[vertex] = isHidden(vertexStart(mesh, vertex), vertex, others, caster) ? 1 : 0
  return Uint8Array.from({ length: indices.length / 3 }, (_, t) => {
    const corners = hidden[indices[3 * t]] + hidden[indices[3 * t + 1]] + hidden[indices[3 * t + 2]]
    if (corners === 0 || corners === 3) return corners / 3
    return isHidden(pointOfTriangle(mesh, t, 1 / 3, 1 / 3, 1 / 3, 1), t, others, caster) ? 1 : 0
  })
}

function isHidden({ point, normal }: RayStart, seed: number, others: ReadonlySet<number>, caster: RayCaster): boolean {
  let [inside, open] = [0, 0]
  for (let look = 0; inside < AGREED && open < AGREED; look++) {
    const direction = cosineDirection(normal, sobol(look, 0, hash32(seed, 0)), sobol(look, 1, hash32(seed, 1)))
    if (caster.nearest(point, direction, others)?.fromBehind) inside++
    else open++
  }
  return inside === AGREED
}
