import type { IndirectLight, Receivers } from '../../bounce'
import { describeSupport, PictureRenderer, type Recombination } from '../../render'
import type { Rig } from '../../rig'
import type { PictureState } from '../derived'
import { COARSE, nextShare, shareAfterChange } from './grain'

/** Work in one animation frame, ms: the hand on the plan comes first. */
const BUDGET_MS = 12
/** Samples a source at which the picture counts as finished. */
const TARGET = 512
const COPY_MS = 1000

export interface Indirect {
  readonly lights: readonly IndirectLight[]
  readonly receivers: Receivers
}

export interface Size {
  readonly width: number
  readonly height: number
}

export interface Surfaces {
  /** The renderer's own. */
  readonly canvas: HTMLCanvasElement
  /** Under it: holds the last whole picture while the renderer's canvas changes its pixels. */
  readonly under: HTMLCanvasElement
}

/**
 * Drives the renderer from the page's own frames: a slice of work, then the sum of what there is. A change of geometry
 * keeps the last whole picture in sight until every lit source has its first samples again. Slow machines draw coarser
 * while the hand moves (grain.ts).
 */
export class PictureEngine {
  private picture: PictureRenderer | null = null
  private rig: Rig | null = null
  private indirect: Indirect | null = null
  private how: Recombination | null = null
  private frame = 0
  private share = COARSE
  private coarseBatchMs: number | null = null
  private changedAt = 0
  private copiedAt = 0
  private readonly surfaces: Surfaces
  private size: Size
  private readonly report: (state: PictureState) => void

  /** Reports what is missing and draws nothing where the browser can't. */
  constructor(surfaces: Surfaces, size: Size, report: (state: PictureState) => void) {
    this.surfaces = surfaces
    this.size = size
    this.report = report
    surfaces.canvas.addEventListener('webglcontextlost', this.lost)
    surfaces.canvas.addEventListener('webglcontextrestored', this.restored)
    const missing = whatIsMissing()
    if (missing) report({ kind: 'failed', missing })
    else this.open()
  }

  setRig(rig: Rig, how: Recombination): void {
    this.rig = rig
    this.how = how
    this.attempt((picture) => {
      const before = fewestSamples(picture)
      picture.setRig(rig)
      if (fewestSamples(picture) >= before && before > 0) return
      this.changedAt = performance.now()
      this.regrain(shareAfterChange(this.share, this.coarseBatchMs))
    })
  }

  setIndirect(indirect: Indirect): void {
    this.indirect = indirect
    if (this.rig) this.attempt((picture) => picture.setIndirect(indirect.lights, indirect.receivers))
  }

  /** Power, colour, on and off, exposure: no rendering. */
  setRecombination(how: Recombination): void {
    this.how = how
    this.show()
  }

  setSize(size: Size): void {
    this.size = size
    this.regrain(this.share)
  }

  dispose(): void {
    cancelAnimationFrame(this.frame)
    this.surfaces.canvas.removeEventListener('webglcontextlost', this.lost)
    this.surfaces.canvas.removeEventListener('webglcontextrestored', this.restored)
    this.picture?.dispose()
    this.picture = null
  }

  private open(): void {
    try {
      this.picture = new PictureRenderer({ canvas: this.surfaces.canvas, ...this.pixels(), target: TARGET })
      if (this.rig) this.picture.setRig(this.rig)
      if (this.rig && this.indirect) this.picture.setIndirect(this.indirect.lights, this.indirect.receivers)
      this.wake()
    } catch (error) {
      this.report({ kind: 'failed', missing: stopped(error) })
    }
  }

  /** Runs a step of the renderer; what it can't do becomes a sentence instead of a broken page. */
  private attempt(step: (picture: PictureRenderer) => void): void {
    if (!this.picture) return
    try {
      step(this.picture)
      this.wake()
    } catch (error) {
      this.report({ kind: 'failed', missing: stopped(error) })
    }
  }

  private pixels(): Size {
    const { width, height } = this.size
    return {
      width: Math.max(16, Math.round(width * this.share)),
      height: Math.max(16, Math.round(height * this.share)),
    }
  }

  /** Other pixels: what is in sight stays under the renderer's canvas, which is hidden until it has a picture again. */
  private regrain(share: number): void {
    this.share = share
    const { width, height } = this.pixels()
    this.attempt((picture) => {
      if (picture.size.width === width && picture.size.height === height) return
      this.keepInSight()
      picture.setSize(width, height)
    })
  }

  private keepInSight(): void {
    this.copyUnder()
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

  private wake(): void {
    if (this.frame === 0) this.frame = requestAnimationFrame(this.tick)
  }

  private readonly tick = (): void => {
    this.frame = 0
    if (!this.rig) return
    this.attempt((picture) => {
      const { target, done } = picture.step(BUDGET_MS)
      const samples = Math.min(fewestSamples(picture), target)
      this.show()
      this.report(done ? { kind: 'finished', samples } : { kind: 'working', samples, target })
      this.refine(samples)
    })
    if (this.picture?.progress.done) {
      cancelAnimationFrame(this.frame)
      this.frame = 0
    }
  }

  private refine(samples: number): void {
    const restedMs = performance.now() - this.changedAt
    if (this.share === COARSE && samples > 0 && samples <= 64) this.coarseBatchMs = restedMs / (samples / 16)
    const share = nextShare({ share: this.share, coarseBatchMs: this.coarseBatchMs, samples, restedMs })
    if (share !== this.share) this.regrain(share)
  }

  private show(): void {
    if (!this.picture || !this.how || !this.rig) return
    const { samples } = this.picture.progress
    if (this.how.weights.some(({ sourceId, on }) => on && samples.get(sourceId) === 0)) return
    this.picture.recombine(this.how)
    this.surfaces.canvas.style.visibility = 'visible'
    // A lost context takes its canvas with it, without notice: a copy of the last second stays in sight.
    if (performance.now() - this.copiedAt > COPY_MS) this.copyUnder()
  }

  private readonly lost = (event: Event): void => {
    event.preventDefault()
    cancelAnimationFrame(this.frame)
    this.frame = 0
    this.picture = null
    this.surfaces.canvas.style.visibility = 'hidden'
    this.report({ kind: 'lost' })
  }

  private readonly restored = (): void => this.open()
}

/** Of the lit sources, the one with the fewest. */
const fewestSamples = (picture: PictureRenderer): number => {
  const counts = [...picture.progress.samples.values()]
  return counts.length === 0 ? 0 : Math.min(...counts)
}

const stopped = (error: unknown): string =>
  `The picture stopped: ${error instanceof Error ? error.message : String(error)} Readings, plan and elevation work as before. Undo the last step, or load the page again.`

/** Asked on a canvas of its own: a context keeps the attributes it was first asked for with. */
function whatIsMissing(): string | null {
  const canvas = document.createElement('canvas')
  const gl = canvas.getContext('webgl2')
  const missing = describeSupport(gl)
  gl?.getExtension('WEBGL_lose_context')?.loseContext()
  return missing
}
