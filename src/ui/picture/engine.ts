import { plateOf } from '../../camera'
import { PictureRenderer, type Recombination } from '../../render'
import type { Rig } from '../../rig'
import type { PictureState } from '../derived'
import { BatchClock } from './batch-clock'
import { Display, fewestSamples } from './display'
import { COARSE, nextShare, shareAfterChange } from './grain'
import { stopped, whatIsMissing } from './missing'
import type { ShownPlate } from './protocol'
import { Soon } from './soon'
import { ASK_MS, AT_ONCE_MS, BUDGET_MS, HOLDS_UP_MS, PAUSE_MS, STILL_MS, TARGET } from './timing'
import type { Indirect, InSight, Next, Size } from './types'

export interface EngineReports {
  state(state: PictureState): void
  /** A picture is drawn and in sight. */
  shown(picture: InSight): void
}

/**
 * Drives the renderer from frame to frame: a slice of work, then the sum of what there is. A change keeps the last whole
 * picture in sight until every lit source has its first samples. Slow machines draw coarser under a hand (grain.ts).
 */
export class PictureEngine {
  private picture: PictureRenderer | null = null
  private rig: Rig | null = null
  private indirect: Indirect | null = null
  private how: Recombination | null = null
  private frame = 0
  private share = COARSE
  /** Of the picture in sight, as a share of its mean; null: unknown. */
  private error: number | null = null
  private coarseBatchMs: number | null = null
  private next: Next = {}
  private changedAt = 0
  private readonly clock = new BatchClock()
  private readonly again = new Soon(() => this.beginAtOnce(), ASK_MS)
  /** The last step left work behind a fence. */
  private isHeldUp = false
  private isResting = false
  private readonly display: Display

  /** Reports what is missing and draws nothing where the browser can't. */
  constructor(
    private readonly canvas: OffscreenCanvas,
    private size: Size,
    private readonly reports: EngineReports,
  ) {
    this.display = new Display(reports.shown)
    canvas.addEventListener('webglcontextlost', this.lost)
    canvas.addEventListener('webglcontextrestored', this.restored)
    const missing = whatIsMissing(new OffscreenCanvas(1, 1))
    if (missing) reports.state({ kind: 'failed', missing })
    else this.open()
  }

  /** What the canvas holds; null: nothing yet, or something newer that the card may still be drawing. */
  get inSight(): InSight | null {
    return this.picture && this.display.inSight
  }

  /** The light of the picture in sight in so many columns at most; null: there is none, or its layers are already on the way to another. */
  plate(columns?: number): ShownPlate | null {
    const { picture, inSight, next } = this
    if (!picture || !inSight || inSight.rig !== this.rig || next.rig || picture.isWaiting || picture.isBusy) return null
    const { how } = inSight
    const [rgba, sitters] = [picture.readLinear(how), picture.readSitters()]
    return { ...plateOf({ ...picture.size, rgba, sitters }, columns), scale: how.exposure }
  }

  /** The newest rig, with bounced light of its own if it has any; it is taken up when the picture can start again (ready). */
  setRig(rig: Rig, how: Recombination, indirect: Indirect | null = null): void {
    this.next = { ...this.next, rig, how, ...(indirect && { indirect, isAnother: true }) }
    this.changedAt = performance.now()
    this.beginAtOnce()
    this.wake()
  }

  /**
   * A fast card is handed the whole picture of a change without a wait; until it is done, nothing more is asked of it. A
   * change that finds it busy is taken up as soon as it is free, not a frame later.
   */
  private beginAtOnce(): void {
    if (!this.rig || this.isResting || this.isSlow()) return
    if (this.next.rig && this.picture?.isBusy) this.again.soon()
    if (!this.ready()) return
    this.takeUp()
    this.attempt((picture) => {
      if (picture.begin(AT_ONCE_MS)) this.put(picture)
    })
  }

  setIndirect(indirect: Indirect): void {
    this.next = { ...this.next, indirect }
    this.wake()
  }

  /** Power, colour, on and off, exposure: no rendering, once each source has its own layer. */
  setRecombination(how: Recombination): void {
    if (this.next.rig) this.next = { ...this.next, how }
    else this.how = how
    if (this.how === how) this.attempt((picture) => picture.weigh(how))
    this.display.forget()
    this.show()
    this.tell()
  }

  setSize(size: Size): void {
    this.size = size
    this.regrain(this.share)
  }

  /** Nobody sees the picture: nothing is drawn until they do again. */
  setResting(on: boolean): void {
    this.isResting = on
    if (!on) this.wake()
  }

  dispose(): void {
    cancelAnimationFrame(this.frame)
    this.canvas.removeEventListener('webglcontextlost', this.lost)
    this.canvas.removeEventListener('webglcontextrestored', this.restored)
    this.picture?.dispose()
    this.picture = null
  }

  private open(): void {
    try {
      this.picture = new PictureRenderer({ canvas: this.canvas, ...this.pixels(), target: TARGET, patient: true })
      this.clock.startCold()
      if (this.rig) this.picture.setRig(this.rig, false, this.how)
      if (this.rig && this.indirect) this.picture.setIndirect(this.indirect.lights, this.indirect.receivers)
      this.wake()
    } catch (error) {
      this.reports.state({ kind: 'failed', missing: stopped(error) })
    }
  }

  /** Runs a step of the renderer; what it can't do becomes a sentence instead of a broken page. */
  private attempt(step: (picture: PictureRenderer) => void): void {
    if (!this.picture) return
    try {
      step(this.picture)
      this.wake()
    } catch (error) {
      this.reports.state({ kind: 'failed', missing: stopped(error) })
    }
  }

  private pixels(): Size {
    const sized = (side: number) => Math.max(16, Math.round(side * this.share))
    return { width: sized(this.size.width), height: sized(this.size.height) }
  }

  /** Other pixels: what is in sight stays until there is a picture of them. */
  private regrain(share: number): void {
    this.share = share
    const { width, height } = this.pixels()
    this.attempt((picture) => {
      if (picture.size.width === width && picture.size.height === height) return
      this.display.forget()
      picture.setSize(width, height)
    })
  }

  private wake(): void {
    if (this.frame === 0 && !this.isResting) this.frame = requestAnimationFrame(this.tick)
  }

  /**
   * True when there is a change that may start the picture again. A batch that was begun is ended first, or a long drag
   * would never show any; a slow machine waits until the hand is still.
   */
  private ready(): boolean {
    const { rig, indirect, isAnother } = this.next
    if (!rig && !(indirect && this.rig && !this.isPressed())) return false
    if (this.picture?.isBusy) return false
    if (this.isSlow()) return this.isStill()
    return !this.picture || !this.rig || !this.picture.isWaiting || isAnother === true
  }

  /** A slow machine gets here only at rest. */
  private budget(): number {
    if (this.isSlow()) return BUDGET_MS.slow
    return this.isStill() ? BUDGET_MS.resting : BUDGET_MS.moving
  }

  private isSlow = (): boolean => (this.coarseBatchMs ?? 0) > HOLDS_UP_MS
  private isPressed = (): boolean => performance.now() - this.changedAt <= PAUSE_MS
  private isStill = (): boolean => performance.now() - this.changedAt > STILL_MS

  private takeUp(): void {
    this.tell()
    const { rig, how = this.how, indirect } = this.next
    this.next = {}
    this.display.forget()
    if (rig) {
      Object.assign(this, { rig, how })
      this.attempt((picture) => {
        const before = fewestSamples(picture, this.how)
        picture.setRig(rig, !this.isStill(), how)
        if (fewestSamples(picture, this.how) < before || before === 0) this.startAgain()
      })
    }
    if (indirect) {
      this.indirect = indirect
      this.clock.start()
      this.attempt((picture) => picture.setIndirect(indirect.lights, indirect.receivers))
    }
  }

  private startAgain(): void {
    this.error = null
    this.clock.start()
    this.regrain(shareAfterChange(this.share, this.coarseBatchMs))
  }

  private readonly tick = (): void => {
    this.frame = 0
    this.beginAtOnce()
    if (this.ready()) this.takeUp()
    if (!this.rig) return
    if (this.picture?.isBusy || (this.isSlow() && !this.isStill())) {
      this.wake()
      return
    }
    this.attempt((picture) => {
      if (this.isHeldUp) this.present(picture)
      this.isHeldUp = false
      if (this.isStill() && picture.catchUp()) this.startAgain()
      this.tell()
      const isEnough = this.isPressed() || picture.progress.isStale
      if (isEnough && !picture.isWaiting) {
        // Until the hand goes on or stops.
        const samples = this.samplesOf(picture)
        this.refine(samples)
        return this.clock.pause(samples)
      }
      picture.step(this.budget())
      this.isHeldUp = picture.isBusy
      if (!this.isHeldUp) this.present(picture)
    })
    if (this.picture?.progress.done && !this.isHeldUp && !this.next.rig && !this.next.indirect) {
      cancelAnimationFrame(this.frame)
      this.frame = 0
    }
  }

  /** Only while the card is free: what reads the canvas would wait for it. */
  private present(picture: PictureRenderer): void {
    if (this.how && !this.isPressed()) this.error = picture.error(this.how)
    this.put(picture)
    this.tell()
    this.refine(this.samplesOf(picture))
  }

  /** The sum of what there is on the canvas, and how far it is in words. */
  private put(picture: PictureRenderer): void {
    this.show()
    const kind = picture.progress.done ? 'finished' : 'working'
    this.reports.state({ kind, samples: this.samplesOf(picture), rough: this.share < 1, error: this.error })
  }

  private samplesOf(picture: PictureRenderer): number {
    return Math.min(fewestSamples(picture, this.how), picture.progress.target)
  }

  private refine(samples: number): void {
    const restedMs = performance.now() - this.changedAt
    const batchMs = this.clock.batchMs(samples)
    if (batchMs === null) return
    if (this.share === COARSE && samples <= 64) this.coarseBatchMs = batchMs
    const share = nextShare({ share: this.share, coarseBatchMs: this.coarseBatchMs, batchMs, samples, restedMs })
    if (share === this.share) return
    this.clock.start()
    this.regrain(share)
  }

  private show(): void {
    const { picture, how, rig } = this
    if (picture && how && rig) this.display.show(picture, how, { rig, how, samples: fewestSamples(picture, how) })
  }

  private tell(): void {
    if (this.picture) this.display.tell(this.picture)
  }

  private readonly lost = (event: Event): void => {
    event.preventDefault()
    cancelAnimationFrame(this.frame)
    this.frame = 0
    this.picture = null
    this.isHeldUp = false
    this.display.clear()
    this.reports.state({ kind: 'lost' })
  }

  private readonly restored = (): void => this.open()
}
