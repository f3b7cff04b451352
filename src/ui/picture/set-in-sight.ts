/** Longer than this, ms, nobody waits for the light of another set: what falls straight is drawn first. */
const LONGEST_MS = 3000

/**
 * Which set the picture in sight is of, by the page's count of sets. Another one waits until its own bounced light and exposure
 * are known, so that it comes in them at once; what is told of the others is not the picture's.
 */
export class SetInSight {
  private seen = 0
  private bounced = 0
  private weighed = 0
  private isBare = false
  private timer: ReturnType<typeof setTimeout> | null = null

  /** late: nobody waits any more. */
  constructor(private readonly late: () => void) {}

  get isWaiting(): boolean {
    return this.timer !== null
  }

  /** Must a sitting of this set wait? The first of all doesn't: there is nothing else to see. */
  waits(set: number): boolean {
    const waits = this.seen !== 0 && set !== this.seen && Math.min(this.bounced, this.weighed) < set
    if (waits) this.timer ??= setTimeout(this.late, LONGEST_MS)
    else this.stopWaiting()
    return waits
  }

  /** A sitting of this set is taken up. What is known of its bounced light; null: the picture goes on with what it has. */
  take(set: number): 'known' | 'unknown' | null {
    this.stopWaiting()
    if (set === this.seen) return null
    const isFirst = this.seen === 0
    this.seen = set
    if (isFirst) return null
    this.isBare = this.bounced < set
    return this.isBare ? 'unknown' : 'known'
  }

  /** Bounced light of this set is told. Is it for the picture in sight? isNew: it is not all as it was told before. */
  takesLight(set: number, isNew: boolean): boolean {
    this.bounced = set
    const takes = set === this.seen && (isNew || this.isBare)
    if (takes) this.isBare = false
    return takes
  }

  /** An exposure of this set is told. Is it for the picture in sight? Until there is one of its own, that of a set before it is. */
  takesExposure(set: number): boolean {
    this.weighed = set
    return set <= this.seen
  }

  private stopWaiting(): void {
    if (this.timer !== null) clearTimeout(this.timer)
    this.timer = null
  }
}
