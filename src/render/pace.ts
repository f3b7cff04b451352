import type { WebGLRenderer, WebGLRenderTarget } from 'three'
import { BATCH } from './layouts'

type Kind = 'rows' | 'maps' | 'looks'

/**
 * What a piece of work drew: so many rows of the picture, so many shadow maps, or whole looks of the camera.
 * 'programs': shaders handed over to be compiled.
 */
export type Piece = { readonly kind: Kind; readonly count: number } | 'programs'
export const LOOK: Piece = { kind: 'looks', count: 1 }

/** How much a piece of work may draw at most, asked anew before each. */
export interface Grain {
  readonly rows: number
  readonly maps: number
}

/** Shadow maps, no more at once than the grain has. */
export function* mapsInPieces(
  total: number,
  grain: Grain,
  draw: (first: number, count: number) => void,
): Generator<Piece, void> {
  for (let first = 0; first < total; ) {
    const count = Math.min(grain.maps, total - first)
    draw(first, count)
    first += count
    yield { kind: 'maps', count }
  }
}

const KINDS: readonly Kind[] = ['rows', 'maps', 'looks']

/** Work between two waits aims at this share of the budget, so that a step overruns by little. */
const SHARE = 0.4
const LIMITS = {
  rows: { first: 32, fewest: 8, most: 1e5 },
  maps: { first: 2, fewest: 1, most: BATCH },
  looks: { first: 1, fewest: 1, most: 1 },
} as const
/** A patient pace stands still for no longer than this, ms; pieces that can't be that short aim at the other. */
const BLINK_MS = 20
const FENCED_MS = 120
/** A fence that was not asked about for so long tells nothing of the time that the work took, ms. */
const LATE_MS = 1000

/**
 * Cuts shading into bands of rows, and shadow maps into groups, that take a share of the time a step may have, as
 * measured: whole pictures on a graphics card, a few dozen rows where the processor draws. The clock sees only commands
 * being queued, so every now and then it waits for all drawn so far: after pieces that are expected to take that share.
 * A fast card so works through a batch without a stop. A short wait stands still, reading one pixel back; for a long one,
 * or one of unknown length, a patient pace sets a fence and ends the step, so that the page answers meanwhile.
 */
export class Pace {
  private readonly counts: Record<Kind, number> = { rows: LIMITS.rows.first, maps: LIMITS.maps.first, looks: 1 }
  /** Of one, ms; null: not yet measured. */
  private readonly costs: Record<Kind, number | null> = { rows: null, maps: null, looks: null }
  private readonly pixel = new Float32Array(4)
  private drawn: Record<Kind, number> = { rows: 0, maps: 0, looks: 0 }
  private since = 0
  private fence: WebGLSync | null = null
  private askedAt = 0
  /** When the fence was last found closed. */
  private busyAt = 0
  private budgetMs = 0
  /** Something drawn was handed over without a wait: what it cost is not known. */
  private isLoose = false

  constructor(
    private readonly renderer: WebGLRenderer,
    private readonly isPatient: boolean,
  ) {}

  get rows(): number {
    return Math.round(this.counts.rows)
  }

  get maps(): number {
    return Math.round(this.counts.maps)
  }

  /** Is the card still at what it was given? Asked in a later turn of the page than the one that gave it. */
  isBusy(): boolean {
    const gl = this.gl
    if (gl.isContextLost()) return true
    if (!this.fence) return false
    const now = performance.now()
    // A page that was asked for no frames knows only that the work is done, not when.
    if (now - this.askedAt > LATE_MS) this.isLoose = true
    this.askedAt = now
    if (gl.getSyncParameter(this.fence, gl.SYNC_STATUS) !== gl.SIGNALED) {
      this.busyAt = now
      return true
    }
    gl.deleteSync(this.fence)
    this.fence = null
    this.settle(this.busyAt - this.since)
    return false
  }

  /**
   * Hands over pieces without any wait until they are expected to take more than mostMs, or shaders must be compiled; none
   * where their cost is not yet known. True when none is left. Busy from then on until the card has drawn them.
   */
  begin(pieces: Iterator<Piece, void>, mostMs: number): boolean {
    if (this.isBusy() || KINDS.some((kind) => this.costs[kind] === null)) return false
    this.isLoose = true
    let isWhole = false
    while (!isWhole && this.knownMs() <= mostMs) {
      const { value: piece, done } = this.take(pieces)
      isWhole = done === true
      if (piece === 'programs' && this.isPatient) break
    }
    if (this.isPatient) this.setFence()
    return isWhole
  }

  /** Stands still until all that was handed over is drawn. */
  private finish(latest: () => WebGLRenderTarget): void {
    this.renderer.readRenderTargetPixels(latest(), 0, 0, 1, 1, this.pixel)
    this.settle()
  }

  /**
   * Runs pieces until the deadline (on performance.now) has passed, none is left, or a patient pace waits: none while the
   * card is busy, else at least one. True when none is left. latest: the target that the last piece drew into.
   */
  run(pieces: Iterator<Piece, void>, budgetMs: number, deadline: number, latest: () => WebGLRenderTarget): boolean {
    if (this.isBusy()) return false
    this.budgetMs = budgetMs
    this.since = performance.now()
    for (;;) {
      const { value: piece, done } = this.take(pieces)
      const expected = this.expectedMs()
      const isLast = done || performance.now() >= deadline || this.since + (expected ?? 0) >= deadline
      const isCompiling = piece === 'programs' && this.isPatient
      if (isLast || isCompiling || expected === null || expected >= SHARE * budgetMs) {
        const isFenced = (isCompiling || expected !== 0) && this.wait(isCompiling ? null : expected, latest)
        if (isLast || isFenced) return done === true
      }
    }
  }

  private setFence(): void {
    this.fence = this.gl.fenceSync(this.gl.SYNC_GPU_COMMANDS_COMPLETE, 0)
    this.gl.flush()
    this.askedAt = performance.now()
    this.busyAt = this.since
  }

  private take(pieces: Iterator<Piece, void>): IteratorResult<Piece, void> {
    const result = pieces.next()
    // The card begins while the next piece is prepared.
    this.gl.flush()
    if (!result.done && result.value !== 'programs') this.drawn[result.value.kind] += result.value.count
    return result
  }

  private get gl(): WebGL2RenderingContext {
    return this.renderer.getContext() as WebGL2RenderingContext
  }

  private expectedMs(): number | null {
    const isNew = KINDS.some((kind) => this.drawn[kind] > 0 && this.costs[kind] === null)
    return isNew ? null : this.knownMs()
  }

  private knownMs(): number {
    return KINDS.reduce((sum, kind) => sum + this.drawn[kind] * (this.costs[kind] ?? 0), 0)
  }

  /** True: the wait goes on behind a fence. */
  private wait(expected: number | null, latest: () => WebGLRenderTarget): boolean {
    if (this.isPatient && (expected === null || expected > BLINK_MS)) {
      this.setFence()
      return true
    }
    this.finish(latest)
    return false
  }

  /**
   * All drawn so far is done: what did it cost, and how much may the next pieces draw? leastMs: at which it was not done yet.
   * A page that is busy itself learns late that the card is free: it is no slower for that.
   */
  private settle(leastMs?: number): void {
    const now = performance.now()
    const mostMs = Math.max(now - this.since, 0.01)
    if (!this.isLoose) this.learn(Math.min(mostMs, Math.max(leastMs ?? mostMs, this.expectedMs() ?? mostMs)))
    this.isLoose = false
    this.drawn = { rows: 0, maps: 0, looks: 0 }
    this.since = now
  }

  private learn(spent: number): void {
    const isNew = this.expectedMs() === null
    const known = this.knownMs()
    for (const kind of KINDS) {
      const count = this.drawn[kind]
      const before = this.costs[kind]
      if (count === 0 || (isNew && before !== null)) continue
      const cost = before === null ? Math.max(spent - known, 0.01) / count : (before * spent) / known
      this.costs[kind] = cost
      const { fewest, most } = LIMITS[kind]
      const share = SHARE * this.budgetMs
      const aimMs = this.isPatient && fewest * cost > BLINK_MS ? Math.max(FENCED_MS, share) : share
      this.counts[kind] = Math.max(fewest, Math.min(aimMs / cost, this.counts[kind] * 4, most))
    }
  }
}
