/** Finds where the skin lies in the front view of the first sitter. Metres of the head's frame. */
import type { Mesh } from '../../space'

/** A place of the skin: three vertices and the weights between which it lies. */
export interface SkinPlace {
  readonly corners: readonly [number, number, number]
  readonly weights: readonly [number, number, number]
}

const CELL_M = 0.0015
/** Round both eyes and brows; farther back the skin is not seen from the front. */
const BOX = { left: -0.07, right: 0.07, low: -0.02, high: 0.05, back: -0.045 } as const

export class SkinFront {
  private readonly cells = new Map<number, number[]>()

  constructor(private readonly mesh: Mesh) {
    for (let t = 0; t < mesh.indices.length; t += 3) this.enter(t)
  }

  private enter(t: number): void {
    const { positions: p, indices } = this.mesh
    const [a, b, c] = [indices[t] * 3, indices[t + 1] * 3, indices[t + 2] * 3]
    const [left, right] = [Math.min(p[a], p[b], p[c]), Math.max(p[a], p[b], p[c])]
    const [low, high] = [Math.min(p[a + 1], p[b + 1], p[c + 1]), Math.max(p[a + 1], p[b + 1], p[c + 1])]
    if (right < BOX.left || left > BOX.right || high < BOX.low || low > BOX.high) return
    if (Math.min(p[a + 2], p[b + 2], p[c + 2]) < BOX.back) return
    // Seen from the front, counter-clockwise.
    if ((p[b] - p[a]) * (p[c + 1] - p[a + 1]) - (p[c] - p[a]) * (p[b + 1] - p[a + 1]) <= 0) return
    for (let i = cellOf(left); i <= cellOf(right); i++)
      for (let j = cellOf(low); j <= cellOf(high); j++) {
        const cell = this.cells.get(keyOf(i, j))
        if (cell) cell.push(t)
        else this.cells.set(keyOf(i, j), [t])
      }
  }

  /** The foremost skin at a place of the front view; null: none there. */
  at(x: number, y: number): SkinPlace | null {
    let best: SkinPlace | null = null
    let foremost = Number.NEGATIVE_INFINITY
    for (const t of this.cells.get(keyOf(cellOf(x), cellOf(y))) ?? []) {
      const place = this.within(t, x, y)
      if (!place) continue
      const z = place.corners.reduce((sum, v, k) => sum + place.weights[k] * this.mesh.positions[v * 3 + 2], 0)
      if (z <= foremost) continue
      foremost = z
      best = place
    }
    return best
  }

  private within(t: number, x: number, y: number): SkinPlace | null {
    const { positions: p, indices } = this.mesh
    const corners = [indices[t], indices[t + 1], indices[t + 2]] as const
    const [a, b, c] = corners.map((v) => [p[v * 3] - x, p[v * 3 + 1] - y])
    const cross = (u: readonly number[], v: readonly number[]) => u[0] * v[1] - u[1] * v[0]
    const [wa, wb, wc] = [cross(b, c), cross(c, a), cross(a, b)]
    if (Math.min(wa, wb, wc) < 0) return null
    const sum = wa + wb + wc
    return { corners: [...corners], weights: [wa / sum, wb / sum, wc / sum] }
  }
}

const cellOf = (at: number): number => Math.floor(at / CELL_M)
const keyOf = (i: number, j: number): number => (i + 1000) * 4096 + j + 1000
