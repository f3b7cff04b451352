import { add, addScaled, cross, dot, type Mesh, scale, subtract, triangleCross, type Vec3 } from '../../space'

/** A stretch of a tube's middle line: where it is, the two axes of its section, and half its size along each. */
export interface Station {
  readonly at: Vec3
  readonly u: Vec3
  readonly v: Vec3
  readonly halfU: number
  readonly halfV: number
}

/** Points round a section, even: every second one makes the proxy. */
const ROUND = 8

/** 2: an ellipse; more: a rectangle with ever smaller rounding. */
export type Squareness = 2 | 4

/** Collects closed tubes and balls into one mesh with a coarser proxy over the same vertices. */
export class FrameMesh {
  private readonly positions: number[] = []
  private readonly indices: number[] = []
  private readonly proxy: number[] = []

  private get count(): number {
    return this.positions.length / 3
  }

  /** A ring: the last station is joined to the first. An even number of stations. */
  ring(stations: readonly Station[], squareness: Squareness): void {
    const first = this.stations(stations, squareness)
    for (let i = 0; i < stations.length; i++) this.belt(stations, this.indices, first, i, (i + 1) % stations.length, 1)
    for (let i = 0; i < stations.length; i += 2) this.belt(stations, this.proxy, first, i, (i + 2) % stations.length, 2)
  }

  /** From the first station to the last, both ends closed. */
  rod(stations: readonly Station[], squareness: Squareness): void {
    const first = this.stations(stations, squareness)
    const last = stations.length - 1
    for (let i = 0; i < last; i++) this.belt(stations, this.indices, first, i, i + 1, 1)
    for (let i = 0; i < last; i += 2) this.belt(stations, this.proxy, first, i, Math.min(last, i + 2), 2)
    for (const [end, next] of [
      [0, 1],
      [last, last - 1],
    ] as const) {
      const { at, halfU, halfV } = stations[end]
      const out = subtract(at, stations[next].at)
      const middle = this.vertex(addScaled(at, out, (0.4 * Math.min(halfU, halfV)) / Math.sqrt(dot(out, out))))
      const flip = isLeftHanded(stations[0], stations[1].at) !== (end === 0)
      for (const [list, step] of [
        [this.indices, 1],
        [this.proxy, 2],
      ] as const)
        for (let k = 0; k < ROUND; k += step) {
          const [a, b] = [first + end * ROUND + k, first + end * ROUND + ((k + step) % ROUND)]
          list.push(middle, ...(flip ? [b, a] : [a, b]))
        }
    }
  }

  /** As it stands mirrored in the plane x = 0, added to itself. */
  mirrored(): void {
    const { count } = this
    const [p, full, proxy] = [[...this.positions], [...this.indices], [...this.proxy]]
    for (let i = 0; i < p.length; i += 3) this.positions.push(-p[i], p[i + 1], p[i + 2])
    for (const [list, from] of [
      [this.indices, full],
      [this.proxy, proxy],
    ] as const)
      for (let i = 0; i < from.length; i += 3) list.push(count + from[i], count + from[i + 2], count + from[i + 1])
  }

  mesh(): { readonly mesh: Mesh; readonly proxyIndices: Uint32Array } {
    const positions = Float32Array.from(this.positions)
    const indices = Uint32Array.from(this.indices)
    return {
      mesh: { positions, indices, normals: smooth(positions, indices) },
      proxyIndices: Uint32Array.from(this.proxy),
    }
  }

  private vertex(at: Vec3): number {
    this.positions.push(...at)
    return this.count - 1
  }

  private stations(stations: readonly Station[], squareness: Squareness): number {
    const first = this.count
    for (const { at, u, v, halfU, halfV } of stations)
      for (let k = 0; k < ROUND; k++) {
        const angle = (2 * Math.PI * k) / ROUND
        const [x, y] = [Math.cos(angle), Math.sin(angle)].map((c) => Math.sign(c) * Math.abs(c) ** (2 / squareness))
        this.vertex(add(at, add(scale(u, x * halfU), scale(v, y * halfV))))
      }
    return first
  }

  private belt(stations: readonly Station[], list: number[], first: number, i: number, j: number, step: number): void {
    const flip = isLeftHanded(stations[0], stations[1].at)
    for (let k = 0; k < ROUND; k += step) {
      const next = (k + step) % ROUND
      const [a, b, c, d] = [i * ROUND + k, i * ROUND + next, j * ROUND + k, j * ROUND + next].map((n) => first + n)
      list.push(...(flip ? [a, c, b, b, c, d] : [a, b, c, b, d, c]))
    }
  }
}

/** Do u, v and the way on make a left-handed frame? */
const isLeftHanded = ({ at, u, v }: Station, next: Vec3): boolean => dot(cross(u, v), subtract(next, at)) < 0

function smooth(positions: Float32Array, indices: Uint32Array): Float32Array {
  const normals = new Float32Array(positions.length)
  for (let i = 0; i < indices.length; i += 3) {
    const n = triangleCross(positions, indices[i], indices[i + 1], indices[i + 2])
    for (let corner = 0; corner < 3; corner++) for (let k = 0; k < 3; k++) normals[3 * indices[i + corner] + k] += n[k]
  }
  for (let i = 0; i < normals.length; i += 3) {
    const size = Math.hypot(normals[i], normals[i + 1], normals[i + 2])
    for (let k = 0; k < 3; k++) normals[i + k] /= size
  }
  return normals
}
