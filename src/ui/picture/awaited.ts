/** Longer than this, ms, nobody waits for the light of another set: what falls straight is drawn first. */
const LONGEST_MS = 3000

/**
 * The picture in sight stays until bounced light and exposure of another set are known, so that it comes in its own light
 * at once. Turns are the page's counts of sittings.
 */
export class Awaited {
  private turn: number | null = null
  private bounced = 0
  private weighed = 0
  private timer: ReturnType<typeof setTimeout> | undefined

  /** late: nobody waits any more. */
  constructor(private readonly late: () => void) {}

  get isOn(): boolean {
    return this.turn !== null && Math.min(this.bounced, this.weighed) < this.turn
  }

  /** What is told of this turn is not of the picture in sight. */
  concerns(turn: number): boolean {
    return this.turn !== null && turn >= this.turn
  }

  /** For the light of this turn or a later one. */
  begin(turn: number): void {
    if (this.turn !== null) return
    this.turn = turn
    this.timer = setTimeout(this.late, LONGEST_MS)
  }

  /** It is taken up. What is known of its bounced light; null: nothing was awaited. */
  end(): 'known' | 'unknown' | null {
    if (this.turn === null) return null
    const isKnown = this.bounced >= this.turn
    clearTimeout(this.timer)
    this.turn = null
    return isKnown ? 'known' : 'unknown'
  }

  bouncedTo(turn: number): void {
    this.bounced = turn
  }

  weighedTo(turn: number): void {
    this.weighed = turn
  }
}
