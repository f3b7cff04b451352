import type { InSight } from './types'

/** Between two copies, ms. */
const APART_MS = 1000
/** The first is for what stays in sight a moment: a hand that goes on changes it within less, ms. */
const MOMENT_MS = 60

/** Copies of a canvas, now and then while its picture goes on, and of the last one always. */
export class Copier {
  private copiedAt = Number.NEGATIVE_INFINITY
  private timer: ReturnType<typeof setTimeout> | null = null

  /** inSight: what the canvas holds; null: it can't be copied just now. */
  constructor(
    private readonly canvas: OffscreenCanvas,
    private readonly inSight: () => InSight | null,
    private readonly copied: (picture: InSight, bitmap: ImageBitmap) => void,
  ) {}

  /** There is a new picture in sight. */
  ask(): void {
    if (this.timer === null) this.wait(Math.max(MOMENT_MS, this.copiedAt + APART_MS - performance.now()))
  }

  private wait(ms: number): void {
    this.timer = setTimeout(() => this.copy(), ms)
  }

  /** While something newer is being drawn, it will ask itself when it is told. */
  private async copy(): Promise<void> {
    this.timer = null
    const picture = this.inSight()
    if (!picture) return
    this.copiedAt = performance.now()
    try {
      this.copied(picture, await createImageBitmap(this.canvas))
    } catch {
      // Lost or changed its size meanwhile: the next picture in sight asks again.
    }
  }
}
