import type { PictureRenderer, Recombination } from '../../render'
import type { PictureDetail } from '../takes/pictures'
import type { Surfaces } from './types'

const COPY_MS = 1000

/** The canvas in sight: what was summed on it, who was told of it, and the copy that stays where it is blank. */
export class Display {
  private copiedAt = 0
  /** Samples of each source in the picture on the canvas; null: it must be summed anew. */
  private shown: string | null = null
  private isUntold = false
  private summedAt = 0

  constructor(private readonly surfaces: Surfaces) {}

  /** Sums the layers on the canvas if they are further than what it shows. Waits for nothing. */
  show(picture: PictureRenderer, how: Recombination): void {
    if (isWaiting(picture, how)) return
    const now = [...picture.progress.samples.values()].join()
    if (now === this.shown) return
    picture.recombine(how)
    this.surfaces.canvas.style.visibility = 'visible'
    this.shown = now
    // Weighed anew before it was told, it is the same picture still.
    if (!this.isUntold) this.summedAt = performance.now()
    this.isUntold = true
  }

  /**
   * For the takes, and for whoever measures from outside (tests/bench/gpu): what is in sight now, once the card has drawn
   * it, as what reads the canvas would wait for it.
   */
  tell(picture: PictureRenderer, what: Omit<PictureDetail, 'summedAtMs'>): void {
    if (!this.isUntold || picture.isBusy) return
    this.isUntold = false
    const detail: PictureDetail = { ...what, summedAtMs: this.summedAt }
    this.surfaces.canvas.dispatchEvent(new CustomEvent('picture', { bubbles: true, detail }))
    // A lost context takes its canvas with it, without notice: a copy of the last second stays in sight.
    if (performance.now() - this.copiedAt > COPY_MS) this.copyUnder()
  }

  /** The layers are not what they were: the next sum is drawn whatever it holds. */
  forget(): void {
    this.shown = null
  }

  /** Other pixels: a copy of what is in sight shows until the canvas has a picture again. */
  setAside(): void {
    this.copyUnder()
    this.hide()
    this.forget()
  }

  hide(): void {
    this.surfaces.canvas.style.visibility = 'hidden'
  }

  private copyUnder(): void {
    const { canvas, under } = this.surfaces
    if (canvas.style.visibility === 'hidden') return
    under.width = canvas.width
    under.height = canvas.height
    under.getContext('2d')?.drawImage(canvas, 0, 0)
    this.copiedAt = performance.now()
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
