import type { WebGLRenderer, WebGLRenderTarget } from 'three'

const FIRST_ROWS = 32
const FEWEST_ROWS = 8
/** A piece of work aims at this share of the budget, so that a step overruns by little. */
const SHARE = 0.3

/**
 * Cuts shading into bands of rows that take a share of the time a step may have, as measured: whole pictures on a
 * graphics card, a few dozen rows where the processor draws. Waits for each piece by reading one pixel back, since the
 * clock would otherwise only see commands being queued.
 */
export class Pace {
  private rowCount = FIRST_ROWS
  private readonly pixel = new Float32Array(4)

  constructor(private readonly renderer: WebGLRenderer) {}

  get rows(): number {
    return Math.round(this.rowCount)
  }

  /**
   * Runs pieces until the deadline (on performance.now) has passed or none is left; at least one. True when none is left.
   */
  run(pieces: Iterator<number, void>, budgetMs: number, deadline: number, latest: () => WebGLRenderTarget): boolean {
    for (;;) {
      const before = performance.now()
      const piece = pieces.next()
      if (piece.done) return true
      this.renderer.readRenderTargetPixels(latest(), 0, 0, 1, 1, this.pixel)
      const after = performance.now()
      if (piece.value > 0) this.adapt(piece.value, after - before, budgetMs)
      if (after >= deadline) return false
    }
  }

  private adapt(rows: number, ms: number, budgetMs: number): void {
    const wanted = (rows * SHARE * budgetMs) / Math.max(ms, 0.01)
    this.rowCount = Math.max(FEWEST_ROWS, Math.min(wanted, this.rowCount * 4, 1e5))
  }
}
