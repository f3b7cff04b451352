import { type Body, type CasterOver, type Hit, type Mesh, triangleNormal, type Vec3 } from '../space'
import { MeshTree } from './mesh-tree'
import { aim, newRay, type RayState } from './ray'
import { meetRectangle, type ReadyRectangle, readyRectangle } from './rectangle'

/** Metres: both ends of a line of sight are pulled in by this. */
const PULL_IN = 1e-4
/** Metres: closer than this a ray counts as leaving the surface, not meeting it. */
const LEAVING = 1e-7
const NONE: ReadonlySet<number> = new Set()

export interface BodyCaster extends CasterOver {
  /**
   * The bodies after a change. A mesh that is the same record costs nothing, one with the same `indices` array (a
   * turned head) is refitted, any other is built; a body keeps its tree only at the same number.
   */
  update(bodies: readonly Body[]): void
}

type Ready = MeshTree | ReadyRectangle

/**
 * A caster over the bodies, in their order. One-sided rectangles (walls, fronts inwards): nearest passes through them
 * from behind, so that a camera outside the room sees in; visible is symmetric and takes them as opaque.
 * A mesh is opaque from both sides; Hit.fromBehind says that its back was met, by the winding of its triangle.
 */
export function createRayCaster(bodies: readonly Body[]): BodyCaster {
  const ray = newRay()
  let ready: readonly Ready[] = bodies.map((body) => prepared(body))
  let order = cheapFirst(ready)
  /** The body that hid the last point that was hidden. */
  let blocker = -1
  /** The order without what the last rays looked past: runs of rays look past the same set. */
  let past: ReadonlySet<number> = NONE
  let orderPast = order

  const meetsBlocker = (ignore: ReadonlySet<number>): boolean => {
    const thing = ready[blocker]
    return thing instanceof MeshTree && !ignore.has(blocker) && thing.meetRecent(ray)
  }

  const orderFor = (ignore: ReadonlySet<number>): readonly number[] => {
    if (ignore !== past) {
      past = ignore
      orderPast = ignore.size > 0 ? order.filter((body) => !ignore.has(body)) : order
    }
    return orderPast
  }

  const meetAll = (ignore: ReadonlySet<number>, any: boolean): boolean => {
    let found = false
    for (const body of orderFor(ignore)) {
      const thing = ready[body]
      const met = thing instanceof MeshTree ? thing.meet(ray, any) : meetRectangle(thing, ray, !any)
      if (!met) continue
      ray.body = body
      found = true
      if (any) return true
    }
    return found
  }

  return {
    visible(from, to, ignore = NONE) {
      const dx = to[0] - from[0]
      const dy = to[1] - from[1]
      const dz = to[2] - from[2]
      const far = Math.sqrt(dx * dx + dy * dy + dz * dz)
      if (far <= 2 * PULL_IN) return true
      aim(ray, from, dx / far, dy / far, dz / far, PULL_IN, far - PULL_IN)
      if (meetsBlocker(ignore)) return false
      const isBlocked = meetAll(ignore, true)
      if (isBlocked) blocker = ray.body
      return !isBlocked
    },
    nearest(origin, direction, ignore = NONE) {
      aim(ray, origin, direction[0], direction[1], direction[2], LEAVING, Number.POSITIVE_INFINITY)
      return meetAll(ignore, false) ? hitOf(ray, ready[ray.body]) : null
    },
    over: createRayCaster,
    update(next) {
      ready = next.map((body, i) => prepared(body, ready[i]))
      order = cheapFirst(ready)
      blocker = -1
      past = NONE
      orderPast = order
    },
  }
}

/** Rectangles before meshes: what they meet spares most of a tree. */
function cheapFirst(ready: readonly Ready[]): readonly number[] {
  const isMesh = (body: number) => ready[body] instanceof MeshTree
  return [...ready.keys()].sort((a, b) => Number(isMesh(a)) - Number(isMesh(b)))
}

function prepared(body: Body, before?: Ready): Ready {
  if (body.kind === 'rectangle') return readyRectangle(body.rect, body.oneSided)
  if (!(before instanceof MeshTree)) return new MeshTree(body.mesh)
  if (before.mesh === body.mesh) return before
  if (before.mesh.indices !== body.mesh.indices) return new MeshTree(body.mesh)
  before.refit(body.mesh)
  return before
}

const normalOf = ({ positions, indices: i }: Mesh, t: number): Vec3 =>
  triangleNormal(positions, i[3 * t], i[3 * t + 1], i[3 * t + 2])

function hitOf(ray: RayState, thing: Ready): Hit {
  const mesh = thing instanceof MeshTree ? thing.mesh : null
  const outwards = thing instanceof MeshTree ? normalOf(thing.mesh, ray.triangle) : thing.n
  const behind = outwards[0] * ray.dx + outwards[1] * ray.dy + outwards[2] * ray.dz > 0
  return {
    distance: ray.farthest,
    bodyIndex: ray.body,
    triangle: mesh ? ray.triangle : -1,
    barycentric: mesh ? [1 - ray.w1 - ray.w2, ray.w1, ray.w2] : [0, 0, 0],
    normal: behind ? [-outwards[0], -outwards[1], -outwards[2]] : outwards,
    fromBehind: mesh !== null && behind,
  }
}
