/** Between two copies, ms. */
const APART_MS = 1000
/** The first is for what stays in sight a moment: a hand that goes on changes it within less, ms. */
const MOMENT_MS = 60

/** Does something with the picture in sight now and then while it goes on, and with the last one always. */
export class NowAndThen {
  private doneAt = Number.NEGATIVE_INFINITY
  private timer: ReturnType<typeof setTimeout> | null = null

  /** work: false where it can't be done just now; the next picture in sight asks again. */
  constructor(private readonly work: () => boolean) {}

  /** There is a new picture in sight. */
  ask(): void {
    this.timer ??= setTimeout(() => this.do(), Math.max(MOMENT_MS, this.doneAt + APART_MS - performance.now()))
  }

  /** There is one and the card is free: at once where that is not too soon. */
  now(): void {
    if (performance.now() - this.doneAt < APART_MS || !this.tried()) this.ask()
  }

  private do(): void {
    this.timer = null
    this.tried()
  }

  private tried(): boolean {
    if (!this.work()) return false
    this.doneAt = performance.now()
    return true
  }
}
