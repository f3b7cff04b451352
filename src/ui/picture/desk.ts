import type { Look } from '../../rig'
import type { Sitting } from '../../sitting'
import { setDerived } from '../derived'
import { isCounted, useStore } from '../store'
import { whatIsMissing } from './missing'
import type { PictureAnswer, PictureOrder, Shown, ShownPlate, Weighing } from './protocol'
import type { Size } from './types'

/** A picture in sight, with what it is of. Told as the event 'picture' of its canvas. */
export interface PictureDetail extends Omit<Shown, 'turn' | 'weighing'> {
  readonly sitting: Sitting
  readonly look: Look
  /** By the exposure that was read last. */
  readonly isWeighed: boolean
  /** When the page asked for it, ms, for tests/bench. */
  readonly askedAtMs: number
  /** What the canvas then shows; null: it was not copied this time. Whoever takes it up draws it before the event ends. */
  readonly copy: ImageBitmap | null
}

/** Sittings without a picture that are remembered. */
const MOST_ASKED = 200

type Asked = Pick<PictureDetail, 'sitting' | 'look' | 'askedAtMs'>

const NO_CANVAS =
  'This browser draws nothing beside the page, so there is no picture. The numbers, plan and sheet work as usual. Try a newer browser.'

/** The page's end of the desk that draws: a thread of its own, so that neither waits for the other. */
class PictureDesk {
  private worker: Worker | null = null
  private canvas: HTMLCanvasElement | null = null
  private turn = 0
  private set = 0
  private weighings = 0
  /** By their turn, from the one in sight on. */
  private readonly asked = new Map<number, Asked>()
  /** Whose picture came in last; null: none yet. */
  inSight: Sitting | null = null

  tell(order: PictureOrder, transfer: Transferable[] = []): void {
    this.worker ??= this.start()
    this.worker.postMessage(order, transfer)
  }

  /** Gives it the canvas for good. */
  open(canvas: HTMLCanvasElement, size: Size): void {
    this.canvas = canvas
    const missing = 'transferControlToOffscreen' in canvas ? whatIsMissing(document.createElement('canvas')) : NO_CANVAS
    if (missing !== null) {
      setDerived({ picture: { kind: 'failed', missing } })
      return
    }
    const offscreen = canvas.transferControlToOffscreen()
    this.tell({ kind: 'open', canvas: offscreen, size, pageOriginMs: performance.timeOrigin }, [offscreen])
  }

  /** isAnother: of another set than the one before. Returns its turn, and its set. */
  draw(sitting: Sitting, isAnother = false): { readonly turn: number; readonly set: number } {
    const { look } = useStore.getState().session
    this.turn++
    if (isAnother) this.set++
    this.asked.set(this.turn, { sitting, look, askedAtMs: performance.now() })
    // Where no picture comes, none is remembered for ever.
    this.asked.delete(this.turn - MOST_ASKED)
    const { turn, set } = this
    this.tell({ kind: 'sitting', turn, set, sitting, look })
    return { turn, set }
  }

  weigh(how: Omit<Weighing, 'count'>): void {
    this.weighings++
    this.tell({ kind: 'weigh', how: { count: this.weighings, ...how } })
  }

  private start(): Worker {
    const worker = new Worker(new URL('../worker.ts', import.meta.url), { type: 'module', name: 'picture' })
    worker.onmessage = ({ data }: MessageEvent<PictureAnswer>) => this.take(data)
    worker.onerror = (event) => {
      const why = event.message || 'the worker did not start'
      setDerived({ picture: { kind: 'failed', missing: `The picture stopped (${why}). Load the page again.` } })
    }
    return worker
  }

  private take(answer: PictureAnswer): void {
    if (answer.kind === 'state') setDerived({ picture: answer.state })
    else if (answer.kind === 'plate') this.counted(answer.plate, answer.turn)
    else if (answer.kind === 'shown') this.told(answer.shown, null)
    else {
      this.told(answer.shown, answer.bitmap)
      answer.bitmap.close()
    }
  }

  private counted(plate: ShownPlate, turn: number): void {
    const { sitting = null, look = null } = this.asked.get(turn) ?? {}
    setDerived({ plate: isCounted(useStore.getState().session) ? { ...plate, sitting, look } : null })
  }

  private told({ turn, weighing, ...shown }: Shown, copy: ImageBitmap | null): void {
    const asked = this.asked.get(turn)
    if (!asked || !this.canvas) return
    for (const older of this.asked.keys()) if (older < turn) this.asked.delete(older)
    this.inSight = asked.sitting
    const detail: PictureDetail = { ...shown, ...asked, isWeighed: weighing === this.weighings, copy }
    this.canvas.dispatchEvent(new CustomEvent('picture', { bubbles: true, detail }))
  }
}

export const pictureDesk = new PictureDesk()
