/** The desk of the contact sheet: reads and draws one variant after another, with its own graphics and rays. */
import { readFigureAsset, readWornPart, type Wardrobe } from '../../figure'
import { PictureRenderer, recombinationOf } from '../../render'
import { createRigBuilder, type Rig } from '../../rig'
import type { Sitting } from '../../sitting'
import { type BounceAnswer, BounceDesk } from '../desks/bounce-desk'
import type { ShownExposure } from '../desks/protocol'
import { breath } from '../desks/pump'
import { ReadingDesk } from '../desks/reading-desk'
import { shareWith } from '../desks/share'
import { stopped, whatIsMissing } from '../picture/missing'
import type { Size } from '../picture/types'
import type { ContactAnswer, ContactOrder } from './protocol'

type Row = Extract<ContactOrder, { kind: 'row' }>

/** Of each source: to be looked at, and when a small picture is finished. */
const SAMPLES = { first: 16, all: 192 }
/** Work between two looks at the post, ms. */
const STEP_MS = 40
/** Between two questions to a card that is at work, ms. */
const BUSY_MS = 4

const bounces = new BounceDesk()
const readings = new ReadingDesk()
const wardrobe: Wardrobe = {}
let build: ((sitting: Sitting) => Rig) | null = null
let newest: Row | null = null
let busy = false
let picture: PictureRenderer | null | undefined

const answer = (words: ContactAnswer, transfer: Transferable[] = []): void => self.postMessage(words, { transfer })

export function take(order: ContactOrder): void {
  if (order.kind === 'figure') build = createRigBuilder({ figure: readFigureAsset(order.bytes), wardrobe })
  else if (order.kind === 'worn') wardrobe[order.name] = readWornPart(order.name, order.bytes)
  else newest = order
  void work()
}

async function work(): Promise<void> {
  if (busy || !build) return
  busy = true
  while (newest) {
    const row: Row = newest
    newest = null
    try {
      await draw(row, build)
    } catch (error) {
      answer({ kind: 'failed', words: stopped(error) })
    }
  }
  busy = false
}

const superseded = (): boolean => newest !== null

interface Laid {
  readonly rig: Rig
  readonly light: BounceAnswer
  readonly exposure: ShownExposure
}

/** The numbers of all at once, then all pictures roughly, so that they can be compared soon; then each read to the end and finished. */
async function draw(
  { run, sittings: copies, width, units, exposedBy }: Row,
  rigOf: (sitting: Sitting) => Rig,
): Promise<void> {
  const sittings = copies.map((copy) => shareWith(copies[0], copy))
  const read: Omit<Laid, 'light'>[] = []
  for (const [index, sitting] of sittings.entries()) {
    const rig = rigOf(sitting)
    const { readings: first, exposure } = readings.coarse(sitting, rig, units)
    answer({ kind: 'read', run, index, readings: first, settled: false })
    read.push({ rig, exposure })
    await breath()
    if (superseded()) return
  }
  const laid: Laid[] = []
  for (const [index, one] of read.entries()) {
    const exposure = read[exposedBy ?? index]!.exposure
    laid.push({ rig: one.rig, exposure, light: await bounces.coarse(one.rig) })
    await show(rendererFor(sittings[index]!, width), laid[index]!, SAMPLES.first, { run, index })
    await breath()
    if (superseded()) return
  }
  const settled = (index: number) =>
    readings.settled(sittings[index]!, laid[index]!.rig, units, superseded, () => undefined)
  const shared = exposedBy === null ? null : await settled(exposedBy)
  for (const [index, sitting] of sittings.entries()) {
    const read = index === exposedBy ? shared : await settled(index)
    if (!read) return
    const { exposure } = shared ?? read
    answer({ kind: 'read', run, index, readings: read.readings, settled: true })
    await show(rendererFor(sitting, width), { ...laid[index]!, exposure }, SAMPLES.all, { run, index })
    if (superseded()) return
  }
}

async function show(
  renderer: PictureRenderer | null,
  { rig, light, exposure }: Laid,
  samples: number,
  which: { readonly run: number; readonly index: number },
): Promise<void> {
  if (!renderer) return
  renderer.setRig(rig)
  renderer.setIndirect(light.lights, light.receivers)
  const lit = new Set(rig.sources.filter(({ on }) => on).map(({ id }) => id))
  const isThere = () => [...renderer.progress.samples].every(([id, count]) => count >= samples || !lit.has(id))
  while (!isThere()) {
    renderer.step(STEP_MS)
    await new Promise((resolve) => setTimeout(resolve, renderer.isBusy ? BUSY_MS : 0))
    if (superseded()) return
  }
  renderer.recombine(recombinationOf(rig, exposure))
  const bitmap = await createImageBitmap(renderer.renderer.domElement)
  answer({ kind: 'sketch', ...which, bitmap, finished: samples === SAMPLES.all }, [bitmap])
}

/** null: this browser draws nothing here, which was told. */
function rendererFor({ camera }: Sitting, width: number): PictureRenderer | null {
  const size = { width: Math.round(width), height: Math.round((width * camera.sensorHeightMm) / camera.sensorWidthMm) }
  if (picture === undefined) picture = newRenderer(size)
  picture?.setSize(size.width, size.height)
  return picture
}

function newRenderer({ width, height }: Size): PictureRenderer | null {
  const missing = whatIsMissing(new OffscreenCanvas(1, 1))
  if (missing) {
    answer({ kind: 'failed', words: missing })
    return null
  }
  try {
    const canvas = new OffscreenCanvas(width, height)
    return new PictureRenderer({ canvas, width, height, target: SAMPLES.all, patient: true })
  } catch (error) {
    answer({ kind: 'failed', words: stopped(error) })
    return null
  }
}
