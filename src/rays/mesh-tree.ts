import { BufferAttribute, BufferGeometry } from 'three'
import { MeshBVH, SAH } from 'three-mesh-bvh'
import type { Mesh } from '../space'
import type { RayState } from './ray'

/** Words (32 bit) a node: six bounds, then offset or right child, then split axis or count with the leaf mark. */
const NODE = 8
const LEAF = 0xffff
const LEAF_SIZE = 4
/** The slab test rounds three times; this keeps a ray that grazes a flat box from slipping past it (pbrt 4, §6.1.4). */
const SLACK = 1 + 6e-16
const OUTSIDE = Number.POSITIVE_INFINITY
const stack = new Int32Array(64)
const enters = new Float64Array(64)

/** A tree before any pose: which triangles stand together, in leaf order. */
interface TreeShape {
  readonly nodes: ArrayBufferLike
  readonly order: Uint32Array
}

/** Of the same triangles elsewhere the shape serves as well: a sitter in another pose. */
const shapes = new WeakMap<Uint32Array, TreeShape>()

function shapeOf(mesh: Mesh): TreeShape {
  const geometry = new BufferGeometry()
  geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3))
  geometry.setIndex(new BufferAttribute(mesh.indices, 1))
  const built = new MeshBVH(geometry, { strategy: SAH, targetLeafSize: LEAF_SIZE, indirect: true, verbose: false })
  const { roots, indirectBuffer } = MeshBVH.serialize(built, { cloneBuffers: false })
  if (roots.length !== 1 || !indirectBuffer)
    throw new Error(`rays.MeshTree: expected one root and an indirect order, got ${roots.length} roots`)
  return { nodes: roots[0] as ArrayBufferLike, order: Uint32Array.from(indirectBuffer) }
}

/**
 * The triangles of one mesh behind a bounding volume hierarchy. three-mesh-bvh builds it (surface area heuristic); the
 * walk is ours over its serialised nodes (format version 1), because its own queries allocate several objects a ray:
 * 0.2 to 0.9 million rays a second against 1 to 3 million here. Corners lie in leaf order, so a leaf is one run of memory.
 */
export class MeshTree {
  private readonly bounds: Float32Array
  private readonly words: Uint32Array
  private readonly halves: Uint16Array
  /** Leaf order → triangle of the mesh. */
  private readonly order: Uint32Array
  private readonly corners: Float32Array
  /** The triangle that was met last: of rays that only ask whether something is in the way, the next one mostly meets it too. */
  private recent = 0
  private current: Mesh

  constructor(mesh: Mesh) {
    this.current = mesh
    const known = shapes.get(mesh.indices)
    const { nodes, order } = known ?? shapeOf(mesh)
    shapes.set(mesh.indices, { nodes, order })
    const own = nodes.slice(0)
    this.bounds = new Float32Array(own)
    this.words = new Uint32Array(own)
    this.halves = new Uint16Array(own)
    this.order = order
    this.corners = new Float32Array(9 * this.order.length)
    if (known) this.refit(mesh)
    else this.gatherCorners()
  }

  get mesh(): Mesh {
    return this.current
  }

  /** The same triangles elsewhere: bounds are redrawn, the shape of the tree stays. */
  refit(mesh: Mesh): void {
    if (mesh.indices !== this.current.indices)
      throw new Error('rays.MeshTree.refit: the triangles changed; build a new tree')
    this.current = mesh
    this.gatherCorners()
    // Children follow their parent in memory, so walking backwards meets every child before its parent.
    for (let n = this.bounds.length - NODE; n >= 0; n -= NODE) {
      if (this.halves[2 * n + 15] === LEAF) this.boundLeaf(n)
      else this.boundPair(n, n + NODE, n + this.words[n + 6] * NODE)
    }
  }

  private gatherCorners(): void {
    const { positions, indices } = this.current
    for (let i = 0; i < this.order.length; i++)
      for (let corner = 0; corner < 3; corner++) {
        const from = 3 * indices[3 * this.order[i] + corner]
        const to = 9 * i + 3 * corner
        for (let k = 0; k < 3; k++) this.corners[to + k] = positions[from + k]
      }
  }

  private boundLeaf(n: number): void {
    const first = 9 * this.words[n + 6]
    const end = first + 9 * this.halves[2 * n + 14]
    for (let k = 0; k < 3; k++) {
      let low = Number.POSITIVE_INFINITY
      let high = Number.NEGATIVE_INFINITY
      for (let i = first + k; i < end; i += 3) {
        low = Math.min(low, this.corners[i])
        high = Math.max(high, this.corners[i])
      }
      this.bounds[n + k] = low
      this.bounds[n + 3 + k] = high
    }
  }

  private boundPair(n: number, left: number, right: number): void {
    for (let k = 0; k < 3; k++) {
      this.bounds[n + k] = Math.min(this.bounds[left + k], this.bounds[right + k])
      this.bounds[n + 3 + k] = Math.max(this.bounds[left + 3 + k], this.bounds[right + 3 + k])
    }
  }

  /** Shortens ray.farthest to the first hit; with any, stops at whichever hit comes first. True when there was one. */
  meet(ray: RayState, any: boolean): boolean {
    const { halves, words } = this
    let found = false
    let depth = 0
    let n = 0
    if (this.entered(0, ray) === OUTSIDE) return false
    for (;;) {
      if (halves[2 * n + 15] === LEAF) {
        const first = words[n + 6]
        const end = first + halves[2 * n + 14]
        for (let i = first; i < end; i++) found = this.meetTriangle(i, ray) || found
        if (any && found) return true
      } else {
        const axis = words[n + 7]
        const backwards = axis === 0 ? ray.sideX : axis === 1 ? ray.sideY : ray.sideZ
        const left = n + NODE
        const right = n + words[n + 6] * NODE
        const near = backwards ? right : left
        const far = backwards ? left : right
        const nearAt = this.entered(near, ray)
        const farAt = this.entered(far, ray)
        if (nearAt !== OUTSIDE) {
          if (farAt !== OUTSIDE) {
            stack[depth] = far
            enters[depth++] = farAt
          }
          n = near
          continue
        }
        if (farAt !== OUTSIDE) {
          n = far
          continue
        }
      }
      // What has been met since may lie before a box that was put aside.
      do {
        if (depth === 0) return found
        n = stack[--depth]
      } while (enters[depth] > ray.farthest)
    }
  }

  /** Slab test: how far along the ray its box begins; OUTSIDE: it misses. Written with comparisons, so that 0·∞ (a ray inside a face's plane) drops out instead of failing. */
  private entered(n: number, ray: RayState): number {
    const b = this.bounds
    let enter = ray.nearest
    let leave = ray.farthest
    const enterX = (b[n + ray.sideX] - ray.ox) * ray.ix
    const leaveX = (b[n + 3 - ray.sideX] - ray.ox) * ray.ix * SLACK
    if (enterX > enter) enter = enterX
    if (leaveX < leave) leave = leaveX
    const enterY = (b[n + 1 + ray.sideY] - ray.oy) * ray.iy
    const leaveY = (b[n + 4 - ray.sideY] - ray.oy) * ray.iy * SLACK
    if (enterY > enter) enter = enterY
    if (leaveY < leave) leave = leaveY
    const enterZ = (b[n + 2 + ray.sideZ] - ray.oz) * ray.iz
    const leaveZ = (b[n + 5 - ray.sideZ] - ray.oz) * ray.iz * SLACK
    if (enterZ > enter) enter = enterZ
    if (leaveZ < leave) leave = leaveZ
    return enter <= leave ? enter : OUTSIDE
  }

  /** Whether the triangle that was met last is in the way again. */
  meetRecent(ray: RayState): boolean {
    return this.meetTriangle(this.recent, ray)
  }

  /** Möller and Trumbore (1997), both sides, in double precision: neighbours leave no crack between them. */
  private meetTriangle(i: number, ray: RayState): boolean {
    const c = this.corners
    const k = 9 * i
    const ax = c[k]
    const ay = c[k + 1]
    const az = c[k + 2]
    const ux = c[k + 3] - ax
    const uy = c[k + 4] - ay
    const uz = c[k + 5] - az
    const vx = c[k + 6] - ax
    const vy = c[k + 7] - ay
    const vz = c[k + 8] - az
    const px = ray.dy * vz - ray.dz * vy
    const py = ray.dz * vx - ray.dx * vz
    const pz = ray.dx * vy - ray.dy * vx
    const determinant = ux * px + uy * py + uz * pz
    if (determinant === 0) return false
    const inverse = 1 / determinant
    const sx = ray.ox - ax
    const sy = ray.oy - ay
    const sz = ray.oz - az
    const w1 = (sx * px + sy * py + sz * pz) * inverse
    if (!(w1 >= 0 && w1 <= 1)) return false
    const qx = sy * uz - sz * uy
    const qy = sz * ux - sx * uz
    const qz = sx * uy - sy * ux
    const w2 = (ray.dx * qx + ray.dy * qy + ray.dz * qz) * inverse
    if (!(w2 >= 0 && w1 + w2 <= 1)) return false
    const t = (vx * qx + vy * qy + vz * qz) * inverse
    if (!(t > ray.nearest && t < ray.farthest)) return false
    ray.farthest = t
    ray.triangle = this.order[i]
    this.recent = i
    ray.w1 = w1
    ray.w2 = w2
    return true
  }
}
