import type { WebGLRenderer, WebGLRenderTarget } from 'three'
import { BATCH } from './layouts'

/** What a piece of work drew: so many rows of the picture, or so many shadow maps. Null: one look of the camera. */
export type Piece = { readonly kind: 'rows' | 'maps'; readonly count: number } | null

/** A piece of work aims at this share of the budget, so that a step overruns by little. */
const SHARE = 0.3
const LIMITS = { rows: { first: 32, fewest: 8, most: 1e5 }, maps: { first: 2, fewest: 1, most: BATCH } } as const

/**
 * Cuts shading into bands of rows, and shadow maps into groups, that take a share of the time a step may have, as
 * measured: whole pictures on a graphics card, a few dozen rows where the processor draws. Waits for each piece by
 * reading one pixel back, since the clock would otherwise only see commands being queued.
 */
export class Pace {
  private readonly counts = { rows: LIMITS.rows.first as number, maps: LIMITS.maps.first as number }
  private readonly pixel = new Float32Array(4)

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
    for (;;) {
      const before = performance.now()
      const piece = pieces.next()
      if (piece.done) return true
      this.renderer.readRenderTargetPixels(latest(), 0, 0, 1, 1, this.pixel)
      const after = performance.now()
      if (piece.value) this.adapt(piece.value, after - before, budgetMs)
      if (after >= deadline) return false
    }
  }

  private adapt({ kind, count }: NonNullable<Piece>, ms: number, budgetMs: number): void {
    const { fewest, most } = LIMITS[kind]
    const wanted = (count * SHARE * budgetMs) / Math.max(ms, 0.01)
    this.counts[kind] = Math.max(fewest, Math.min(wanted, this.counts[kind] * 4, most))
  }
}
