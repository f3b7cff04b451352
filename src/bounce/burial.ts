import type { RigFigure } from '../rig'
import { hash32, type Mesh, type RayCaster, sobol } from '../space'
import { cosineDirection } from './clusters'
import { pointOfTriangle } from './elements'
import type { BodyOwner, BounceScene } from './scene'
import type { Shot, VertexShots } from './shots'

type Posed = RigFigure['posed']

/** Looks from a place that agree: so many meet the inside of a mesh, or so many do not. */
const AGREED = 2

/** By the record of the pose, which is all that it depends on: sitters' own parts hide each other, nothing else does. */
const known = new WeakMap<Posed, readonly Uint8Array[]>()

/** Of each part of each sitter, 1: a triangle inside a closed body, which gives no light: a neck under its collar. */
export function buriedTriangles(
  { owners, rig }: BounceScene,
  shots: VertexShots,
  caster: RayCaster,
): ReadonlyMap<BodyOwner, Uint8Array> {
  return new Map(
    rig.figures.flatMap((figure) => {
      const isOwn = (owner: BodyOwner) => owner.kind === 'part' && owner.figure === figure
      const bodies = [...owners.keys()].filter((body) => isOwn(owners[body]))
      const others = new Set([...owners.keys()].filter((body) => !isOwn(owners[body])))
      const parts = owners.filter((owner) => owner.kind === 'part').filter(isOwn)
      const buried =
        known.get(figure.posed) ?? parts.map(({ mesh }, i) => buriedIn(mesh, bodies[i], others, shots, caster))
      known.set(figure.posed, buried)
      return parts.map((part, i) => [part, buried[i]] as const)
    }),
  )
}

/** A triangle goes by its corners, and where they disagree by its middle. */
function buriedIn(
  mesh: Mesh,
  body: number,
  others: ReadonlySet<number>,
  shots: VertexShots,
  caster: RayCaster,
): Uint8Array {
  const { indices } = mesh
  const isInside = ({ hit }: Pick<Shot, 'hit'>): boolean => hit?.fromBehind === true && !others.has(hit.bodyIndex)
  const insideAny = (vertex: number) => {
    const shot = shots.from(body, vertex)
    return (look: number) => isInside(shot(look))
  }
  const hidden = new Uint8Array(mesh.positions.length / 3)
  for (const vertex of new Set(indices))
    hidden[vertex] = (shots.insideHead(body, vertex, isHidden) ?? isHidden(insideAny(vertex))) ? 1 : 0
  return Uint8Array.from({ length: indices.length / 3 }, (_, t) => {
    const corners = hidden[indices[3 * t]] + hidden[indices[3 * t + 1]] + hidden[indices[3 * t + 2]]
    if (corners === 0 || corners === 3) return corners / 3
    const { point, normal } = pointOfTriangle(mesh, t, 1 / 3, 1 / 3, 1 / 3, 1)
    const look = (ray: number) => cosineDirection(normal, sobol(ray, 0, hash32(t, 0)), sobol(ray, 1, hash32(t, 1)))
    return isHidden((ray) => isInside({ hit: caster.nearest(point, look(ray), others) })) ? 1 : 0
  })
}

/** By the first looks that agree. */
function isHidden(meetsInside: (look: number) => boolean): boolean {
  let [inside, open] = [0, 0]
  for (let look = 0; inside < AGREED && open < AGREED; look++) {
    if (meetsInside(look)) inside++
    else open++
  }
  return inside === AGREED
}
