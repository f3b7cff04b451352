import type { InSight } from './types'

/** Between two copies, ms. */
const APART_MS = 1000
/** The first is for what stays in sight a moment: a hand that goes on changes it within less, ms. */
const MOMENT_MS = 60
/** The card may still be drawing what the canvas will show: asked again after this, ms. */
const AGAIN_MS = 20

/** Copies of a canvas, now and then while its picture goes on, and of the last one always. */
export class Copier {
  private copiedAt = Number.NEGATIVE_INFINITY
  private timer: ReturnType<typeof setTimeout> | null = null

  constructor(private readonly copied: (picture: InSight, bitmap: ImageBitmap) => void) {}

  /** inSight: what the canvas then shows; null: it can't be copied just now. */
  copyOf(canvas: OffscreenCanvas, inSight: () => InSight | null): void {
    if (this.timer !== null) return
    const wait = Math.max(MOMENT_MS, this.copiedAt + APART_MS - performance.now())
    this.timer = setTimeout(() => this.copy(canvas, inSight), wait)
  }

  private async copy(canvas: OffscreenCanvas, inSight: () => InSight | null): Promise<void> {
    this.timer = null
    const picture = inSight()
    if (!picture) {
      this.timer = setTimeout(() => this.copy(canvas, inSight), AGAIN_MS)
      return
    }
    this.copiedAt = performance.now()
    this.copied(picture, await createImageBitmap(canvas))
  }
}
