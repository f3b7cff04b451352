import type { PictureRenderer, Recombination } from '../../render'
import type { InSight } from './types'

/** The canvas in sight: what was summed on it, and who was told of it. */
export class Display {
  /** Samples of each source in the picture on the canvas; null: it must be summed anew. */
  private shown: string | null = null
  /** In sight as soon as the card has drawn it. */
  private untold: Omit<InSight, 'drawnAtMs'> | null = null
  private told: InSight | null = null

  constructor(private readonly report: (picture: InSight) => void) {}

  /** Sums the layers on the canvas if they are further than what it shows. Waits for nothing. */
  show(picture: PictureRenderer, how: Recombination, what: Omit<InSight, 'summedAtMs' | 'drawnAtMs'>): void {
    if (isWaiting(picture, how)) return
    const now = [...picture.progress.samples.values()].join()
    if (now === this.shown) return
    picture.recombine(how)
    this.shown = now
    // Weighed anew before it was told, it is the same picture still.
    this.untold = { ...what, summedAtMs: this.untold?.summedAtMs ?? performance.now() }
  }

  /** Tells what is in sight now, once the card has drawn it: what reads the canvas would wait for it. */
  tell(picture: PictureRenderer): void {
    if (!this.untold || picture.isBusy) return
    this.told = { ...this.untold, drawnAtMs: performance.now() }
    this.untold = null
    this.report(this.told)
  }

  /** What the canvas holds; null: nothing yet, or something newer that the card may still be drawing. */
  get inSight(): InSight | null {
    return this.untold ? null : this.told
  }

  /** The canvas holds nothing. */
  clear(): void {
    this.shown = this.untold = this.told = null
  }

  /** The layers are not what they were: the next sum is drawn whatever it holds. */
  forget(): void {
    this.shown = null
  }
}

/** A lit source has no samples yet: the picture would be dark there. */
function isWaiting(picture: PictureRenderer, { weights }: Recombination): boolean {
  const { samples } = picture.progress
  return weights.some(({ sourceId, on }) => on && samples.get(sourceId) === 0)
}

/** Of the sources that show, the one with the fewest: those that are off wait until the others are finished. */
export const fewestSamples = (picture: PictureRenderer, how: Recombination | null): number => {
  const { samples } = picture.progress
  const shown = (how?.weights ?? []).filter(({ on }) => on).map(({ sourceId }) => samples.get(sourceId) ?? 0)
  const counts = shown.length > 0 ? shown : [...samples.values()]
  return counts.length === 0 ? 0 : Math.min(...counts)
}
