import type { RigFigure } from '../rig'
import {
  type Body,
  type CasterOver,
  cross,
  directionToWorld,
  type Frame,
  type Hit,
  hash32,
  type Mesh,
  type RayCaster,
  scale,
  sobol,
  triangleNormal,
  type Vec3,
} from '../space'
import { cosineDirections } from './clusters'
import { type HeadHit, KEPT_RAYS, type KnownHead, knownHead, splitOf } from './heads'
import type { BounceScene } from './scene'

export interface RayStart {
  readonly point: Vec3
  readonly normal: Vec3
}

/** A ray and what it meets. */
export interface Shot {
  readonly start: RayStart
  readonly direction: Vec3
  readonly hit: Hit | null
}

/** The ray-th cosine-weighted ray from a place. */
export type Shots = (ray: number) => Shot

/** From a vertex of a sitter's part, by the part's body number. */
export interface VertexShots {
  from(body: number, vertex: number): Shots
  /** Whether a vertex lies inside the head that it goes with, by its rays; null: it goes with none. */
  insideHead(body: number, vertex: number, byRays: (isInside: (ray: number) => boolean) => boolean): boolean | null
}

/** So many rays of a vertex are asked for twice: by burial, then by the lists. */
const FIRST_RAYS = 3
/** Metres by which a ray starts off the vertex it leaves. */
const LIFT = 2e-4

export function vertexStart(
  { positions: p, normals: n }: Pick<Mesh, 'positions' | 'normals'>,
  vertex: number,
): RayStart {
  const i = 3 * vertex
  const [x, y, z] = [n[i], n[i + 1], n[i + 2]]
  return { point: [p[i] + LIFT * x, p[i + 1] + LIFT * y, p[i + 2] + LIFT * z], normal: [x, y, z] }
}

/** One sitter's head as it is held now, and all that does not go with it. */
interface HeldHead {
  readonly known: KnownHead
  readonly frame: Frame
  readonly around: RayCaster
  /** Bodies that go with the head whole: around has them and must look past them. */
  readonly whole: ReadonlySet<number>
  /** Body number of the sitter's first part. */
  readonly first: number
}

/**
 * Most of a sitter goes with the head as one piece, and so do the rays from it: what they meet of the head is asked once,
 * and of a pose only what else comes before that.
 */
export function vertexShots(scene: BounceScene, caster: CasterOver): VertexShots {
  const heads = new Map(scene.rig.figures.map((figure) => [figure, heldHead(scene, figure, caster)]))
  const first: Shot[][][] = scene.owners.map(() => [])
  const placeOf = (body: number, vertex: number) => {
    const owner = scene.owners[body]
    if (owner.kind !== 'part') throw new Error(`bounce.vertexShots: body ${body} is no part of a sitter`)
    const head = heads.get(owner.figure)
    const part = owner.part.part
    return { mesh: owner.mesh, head: head && splitOf(part).numberOf[vertex] >= 0 ? head : null, part }
  }
  return {
    from(body, vertex) {
      const { mesh, head, part } = placeOf(body, vertex)
      const start = vertexStart(mesh, vertex)
      if (!head) {
        const aim = aims(start.normal, vertex)
        const shoot = (ray: number): Shot => {
          const direction = aim(ray)
          return { start, direction, hit: caster.nearest(start.point, direction) }
        }
        const known = first[body][vertex] ?? []
        first[body][vertex] = known
        return (ray) => {
          if (ray >= FIRST_RAYS) return shoot(ray)
          known[ray] ??= shoot(ray)
          return known[ray]
        }
      }
      const rest = vertexStart(part.mesh, vertex)
      const aim = aims(rest.normal, vertex)
      return (ray) => {
        const way = aim(ray)
        const direction = directionToWorld(head.frame, way)
        if (ray >= KEPT_RAYS) return { start, direction, hit: caster.nearest(start.point, direction) }
        const other = head.around.nearest(start.point, direction, head.whole)
        const own = head.known.meets(body - head.first, vertex, ray, rest.point, way)
        const isOwn = own && !(other && other.distance < own.distance)
        return { start, direction, hit: isOwn ? hitOfHead(scene, head, own) : hitOfOther(head, other) }
      }
    },
    insideHead(body, vertex, byRays) {
      const { head, part } = placeOf(body, vertex)
      if (!head) return null
      const number = body - head.first
      return head.known.isHidden(number, vertex, () => {
        const { point, normal } = vertexStart(part.mesh, vertex)
        const aim = aims(normal, vertex)
        return byRays((ray) => head.known.meets(number, vertex, ray, point, aim(ray))?.fromBehind === true)
      })
    },
  }
}

/** Neighbours' rays are scrambled apart, by numbers that stay whatever else is in the set. */
function aims(normal: Vec3, vertex: number): (ray: number) => Vec3 {
  const [u, v] = [hash32(vertex, 0), hash32(vertex, 1)]
  const direction = cosineDirections(normal)
  return (ray) => direction(sobol(ray, 0, u), sobol(ray, 1, v))
}

function heldHead(scene: BounceScene, figure: RigFigure, caster: CasterOver): HeldHead | null {
  const { eyeMidpoint, headUp, noseDirection, gaze, parts } = figure.posed
  // Eyeballs turn within the head, and the lids with them.
  if (gaze.upDeg !== 0 || gaze.acrossDeg !== 0) return null
  const first = scene.owners.findIndex((owner) => owner.kind === 'part' && owner.figure === figure)
  const whole = new Set<number>()
  const bodies = scene.bodies.slice()
  for (const [number, { part }] of parts.entries()) {
    const { indices } = splitOf(part).others
    const body = bodies[first + number]
    if (indices.length === 0) whole.add(first + number)
    else if (body.kind === 'mesh')
      bodies[first + number] = { kind: 'mesh', mesh: { ...body.mesh, indices } } satisfies Body
  }
  const frame = { origin: eyeMidpoint, x: cross(headUp, noseDirection), y: headUp, z: noseDirection }
  return { known: knownHead(figure, caster), frame, around: caster.over(bodies), whole, first }
}

function hitOfHead(
  { bodies }: BounceScene,
  { first }: HeldHead,
  { part, triangle, distance, fromBehind }: HeadHit,
): Hit {
  const bodyIndex = first + part
  const body = bodies[bodyIndex]
  if (body.kind !== 'mesh') throw new Error(`bounce.vertexShots: part ${part} of a head is no mesh`)
  const { positions, indices: i } = body.mesh
  const out = triangleNormal(positions, i[3 * triangle], i[3 * triangle + 1], i[3 * triangle + 2])
  return {
    distance,
    bodyIndex,
    triangle,
    barycentric: [0, 0, 0],
    normal: fromBehind ? scale(out, -1) : out,
    fromBehind,
  }
}

/** Triangles of the sitter's own parts under the numbers that they have there. */
function hitOfOther({ known, first }: HeldHead, hit: Hit | null): Hit | null {
  const part = hit && known.parts[hit.bodyIndex - first]
  return part ? { ...hit, triangle: splitOf(part).others.triangleOf[hit.triangle] } : hit
}
