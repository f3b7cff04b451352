import type { Mesh } from '../../space'

const STRIPE_M = 0.002
const stripeOf = (y: number): number => Math.floor(y / STRIPE_M)

/** Triangles of a mesh that lie within bounds, asked where lines along an axis meet them. Metres. */
export class AxisProbe {
  private readonly corners: Float64Array
  /** Triangles by the level stripes that they reach into. */
  private readonly stripes = new Map<number, number[]>()

  /** axis: 0 or 2, the lines' direction. keep: whether a corner may matter. */
  constructor({ positions: p, indices }: Mesh, axis: 0 | 2, keep: (x: number, y: number, z: number) => boolean) {
    const kept: number[] = []
    for (let i = 0; i < indices.length; i += 3) {
      const at = 3 * indices[i]
      if (!keep(p[at], p[at + 1], p[at + 2])) continue
      for (let k = 0; k < 3; k++) {
        const v = 3 * indices[i + k]
        kept.push(p[v + (2 - axis)], p[v + 1], p[v + axis])
      }
    }
    this.corners = Float64Array.from(kept)
    for (let i = 0; i < kept.length; i += 9) {
      const [low, high] = [Math.min, Math.max].map((end) => stripeOf(end(kept[i + 1], kept[i + 4], kept[i + 7])))
      for (let stripe = low; stripe <= high; stripe++) {
        const list = this.stripes.get(stripe)
        if (list) list.push(i)
        else this.stripes.set(stripe, [i])
      }
    }
  }

  /** Greatest coordinate along the axis at (u, y), u being the other level one; −∞ where nothing is met. */
  most(u: number, y: number): number {
    const c = this.corners
    let most = Number.NEGATIVE_INFINITY
    for (const i of this.stripes.get(stripeOf(y)) ?? []) {
      const [ax, ay] = [c[i] - u, c[i + 1] - y]
      const [bx, by] = [c[i + 3] - u, c[i + 4] - y]
      const [cx, cy] = [c[i + 6] - u, c[i + 7] - y]
      const wa = bx * cy - by * cx
      const wb = cx * ay - cy * ax
      const wc = ax * by - ay * bx
      const isIn = (wa >= 0 && wb >= 0 && wc >= 0) || (wa <= 0 && wb <= 0 && wc <= 0)
      const sum = wa + wb + wc
      if (!isIn || sum === 0) continue
      const along = (wa * c[i + 2] + wb * c[i + 5] + wc * c[i + 8]) / sum
      if (along > most) most = along
    }
    return most
  }
}
