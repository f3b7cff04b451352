import type { WebGLRenderer, WebGLRenderTarget } from 'three'
import { BATCH } from './layouts'

/** What a piece of work drew: so many rows of the picture, or so many shadow maps. Null: one look of the camera. */
export type Piece = { readonly kind: 'rows' | 'maps'; readonly count: number } | null

/** Work between two waits aims at this share of the budget, so that a step overruns by little. */
const SHARE = 0.4
const LIMITS = { rows: { first: 32, fewest: 8, most: 1e5 }, maps: { first: 2, fewest: 1, most: BATCH } } as const

/**
 * Cuts shading into bands of rows, and shadow maps into groups, that take a share of the time a step may have, as
 * measured: whole pictures on a graphics card, a few dozen rows where the processor draws. The clock sees only commands
 * being queued, so every now and then it waits for all drawn so far by reading one pixel back: after pieces that are
 * expected to take that share. A fast card so works through a batch without a stop.
 */
export class Pace {
  private readonly counts = { rows: LIMITS.rows.first as number, maps: LIMITS.maps.first as number }
  /** Of a row, of a map, ms; null: not yet measured. */
  private readonly costs: Record<'rows' | 'maps', number | null> = { rows: null, maps: null }
  private readonly pixel = new Float32Array(4)
  private drawn = { rows: 0, maps: 0 }
  private since = 0

  constructor(private readonly renderer: WebGLRenderer) {}

  get rows(): number {
    return Math.round(this.counts.rows)
  }

  get maps(): number {
    return Math.round(this.counts.maps)
  }

  /**
   * Runs pieces until the deadline (on performance.now) has passed or none is left; at least one. True when none is left.
   * latest: the target that the last piece drew into.
   */
  run(pieces: Iterator<Piece, void>, budgetMs: number, deadline: number, latest: () => WebGLRenderTarget): boolean {
    this.since = performance.now()
    for (;;) {
      const piece = pieces.next()
      // The card begins while the next piece is prepared.
      this.renderer.getContext().flush()
      if (piece.value) this.drawn[piece.value.kind] += piece.value.count
      const expected = this.expectedMs()
      const isLast = piece.done || performance.now() >= deadline || this.since + (expected ?? 0) >= deadline
      if (isLast || expected === null || expected >= SHARE * budgetMs) this.wait(budgetMs, expected, latest)
      if (isLast) return piece.done === true
    }
  }

  private expectedMs(): number | null {
    const { rows, maps } = this.costs
    if ((this.drawn.rows > 0 && rows === null) || (this.drawn.maps > 0 && maps === null)) return null
    return this.drawn.rows * (rows ?? 0) + this.drawn.maps * (maps ?? 0)
  }

  private wait(budgetMs: number, expected: number | null, latest: () => WebGLRenderTarget): void {
    this.renderer.readRenderTargetPixels(latest(), 0, 0, 1, 1, this.pixel)
    const now = performance.now()
    const spent = Math.max(now - this.since, 0.01)
    const known = this.drawn.rows * (this.costs.rows ?? 0) + this.drawn.maps * (this.costs.maps ?? 0)
    for (const kind of ['rows', 'maps'] as const) {
      const count = this.drawn[kind]
      const before = this.costs[kind]
      if (count === 0 || (expected === null && before !== null)) continue
      const cost = before === null ? Math.max(spent - known, 0.01) / count : (before * spent) / known
      this.costs[kind] = cost
      const { fewest, most } = LIMITS[kind]
      this.counts[kind] = Math.max(fewest, Math.min((SHARE * budgetMs) / cost, this.counts[kind] * 4, most))
    }
    this.drawn = { rows: 0, maps: 0 }
    this.since = now
  }
}
