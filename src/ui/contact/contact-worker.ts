/** The desk of the contact sheet: reads and draws one variant after another, with its own graphics and rays. */
import { plateOf } from '../../camera'
import { readFigureAsset, readWornPart, type Wardrobe } from '../../figure'
import { edgeRaysOf } from '../../readings'
import { PictureRenderer, type Recombination, recombinationOf } from '../../render'
import { CROP_PX, createRigBuilder, cropScale, isCrop, type Look, type Rig, rigSeen } from '../../rig'
import type { Sitting } from '../../sitting'
import { type BounceAnswer, BounceDesk } from '../desks/bounce-desk'
import type { ShownExposure } from '../desks/protocol'
import { breath } from '../desks/pump'
import { type Read, ReadingDesk } from '../desks/reading-desk'
import { shareWith } from '../desks/share'
import { edgeSpan } from '../looks/edge-span'
import { COARSE } from '../picture/grain'
import { stopped, whatIsMissing } from '../picture/missing'
import type { ShownPlate } from '../picture/protocol'
import { TARGET } from '../picture/timing'
import type { Size } from '../picture/types'
import { cheekView } from './cheek-view'
import type { ContactAnswer, ContactOrder } from './protocol'

type Row = Extract<ContactOrder, { kind: 'row' }>

/** Of each source: to be looked at, and when a small picture is finished; and of one that stands beside the picture. */
const SAMPLES = { first: [16], all: [192], whole: [64, 192, TARGET] }
/** Until numbers that are wanted quickly count as settled: a class waits for them, and sees one decimal. */
const QUICK_PATHS = 256
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

/** What has come of a set so far: in another look, or in another row, it begins with that. */
interface Known {
  readonly sitting: Sitting
  readonly rig: Rig
  readonly coarse: Read
  light?: BounceAnswer
  readonly settled: Map<number | undefined, Read>
}
const known = new Map<string, Known>()
const MOST_KNOWN = 8

function knownOf(
  copy: Sitting,
  like: Sitting | undefined,
  units: Row['units'],
  rigOf: (sitting: Sitting) => Rig,
): Known {
  const { takes: _, ...set } = copy
  const key = JSON.stringify([set, units])
  let of = known.get(key)
  if (!of) {
    const sitting = shareWith(like, copy)
    const rig = rigOf(sitting)
    of = { sitting, rig, coarse: readings.coarse(sitting, rig, units), settled: new Map() }
  }
  known.delete(key)
  known.set(key, of)
  for (const oldest of [...known.keys()].slice(0, -MOST_KNOWN)) known.delete(oldest)
  return of
}

interface Laid {
  readonly rig: Rig
  readonly light: BounceAnswer | null
  readonly exposure: ShownExposure
}

/** The numbers of all at once, then all pictures roughly, so that they can be compared soon; then all are read to the end, and finished. */
async function draw(row: Row, rigOf: (sitting: Sitting) => Rig): Promise<void> {
  const { run, sittings: copies, width, units, exposedBy, looks, places, quick = false, whole = false } = row
  const sets = oncesOf(copies)
  const by = exposedBy === null ? null : sets.findIndex(({ at }) => at.includes(exposedBy))
  const tell = (
    set: number,
    rig: Rig,
    { readings, cautions, exposure }: Pick<Read, 'readings' | 'cautions' | 'exposure'>,
    settled: boolean,
  ) => {
    const rays = edgeRaysOf(rig)
    const said = (what: string) => cautions.find(({ id }) => id.endsWith(`.${what}`))?.sentence ?? null
    const told = { inFrame: said('inFrame'), walls: said('walls') }
    for (const at of sets[set]!.at)
      answer({ kind: 'read', run, index: places?.[at] ?? at, readings, ...told, exposure, rays, settled })
  }
  const paths = quick ? QUICK_PATHS : undefined
  const all: Known[] = []
  for (const [set, { copy }] of sets.entries()) {
    const one = knownOf(copy, all[0]?.sitting ?? last ?? undefined, units, rigOf)
    const settled = one.settled.get(paths)
    tell(set, one.rig, settled ?? one.coarse, settled !== undefined)
    all.push(one)
    await breath()
    if (superseded()) return
  }
  last = all[0]?.sitting ?? last

  const showAll = async (set: number, laid: Laid, stages: readonly number[], { share = 1, isLast = false }) => {
    for (const at of sets[set]!.at) {
      const look = looks?.[at] === undefined ? 'camera' : looks[at]
      if (look === null) continue
      const which = { run, index: places?.[at] ?? at }
      const renderer = rendererFor(all[set]!.sitting, share * width)
      if (look === 'sees') await showFromCheek(laid.rig, which)
      else await show(renderer, laid, stages, { ...which, look, whole: whole && share === 1, isLast })
      if (superseded()) return
    }
  }
  const exposureOf = (set: number) => {
    const { settled, coarse } = all[by ?? set]!
    return (settled.get(paths) ?? coarse).exposure
  }
  const laid: Laid[] = []
  for (const [set, one] of all.entries()) {
    // Without a picture nobody asks for the bounced light of all surfaces.
    if (rendererFor(one.sitting, width)) one.light ??= await bounces.coarse(one.rig)
    laid.push({ rig: one.rig, exposure: exposureOf(set), light: one.light ?? null })
    // As roughly as the picture is drawn under a hand: both of two are there before either is drawn finely.
    await showAll(set, laid[set]!, SAMPLES.first, { share: whole ? COARSE : 1 })
    await breath()
    if (superseded()) return
  }
  for (const [set, one] of whole ? laid.entries() : []) {
    await showAll(set, one, SAMPLES.first, {})
    if (superseded()) return
  }
  const settle = async (set: number) => {
    const { sitting, rig, settled } = all[set]!
    const read = settled.get(paths) ?? (await readings.settled(sitting, rig, units, superseded, () => undefined, paths))
    if (read) settled.set(paths, read)
    return read
  }
  if (by !== null && !(await settle(by))) return
  for (const set of sets.keys()) {
    const read = await settle(set)
    if (!read) return
    tell(set, all[set]!.rig, read, true)
  }
  for (const [set, one] of laid.entries()) {
    const finished = { ...one, exposure: exposureOf(set) }
    await showAll(set, finished, whole ? SAMPLES.whole : SAMPLES.all, { isLast: true })
    if (superseded()) return
  }
}
/** To which the next is likened (share.ts). */
let last: Sitting | null = null

/** Each sitting once, with the places in the list that it has. */
function oncesOf(copies: readonly Sitting[]): readonly { readonly copy: Sitting; readonly at: readonly number[] }[] {
  return [...new Set(copies)].map((copy) => ({
    copy,
    at: copies.flatMap((other, i) => (other === copy ? [i] : [])),
  }))
}

interface Which {
  readonly run: number
  readonly index: number
}

/** Of each rig once: it has no samples to wait for. */
const fromCheek = new WeakMap<Rig, OffscreenCanvas>()

async function showFromCheek(rig: Rig, which: Which): Promise<void> {
  const canvas = fromCheek.get(rig) ?? (await cheekView(readings.sceneOf(rig), superseded))
  if (!canvas) return
  fromCheek.set(rig, canvas)
  const bitmap = await createImageBitmap(canvas)
  const none = { widthMm: null, span: null, plate: null }
  answer({ kind: 'sketch', ...which, bitmap, samples: TARGET, finished: true, ...none }, [bitmap])
}

interface Drawn extends Which {
  readonly look: Look
  /** Its light is counted out. */
  readonly whole: boolean
  /** Its last number of samples finishes it. */
  readonly isLast: boolean
}

/** Draws one to so many samples, and on to more, each time to be seen. */
async function show(
  renderer: PictureRenderer | null,
  { rig: whole, light, exposure }: Laid,
  stages: readonly number[],
  { look, isLast, whole: isCounted, ...which }: Drawn,
): Promise<void> {
  if (!renderer || !light) return
  const rig = rigSeen(whole, look)

  renderer.setRig(rig)

  renderer.setIndirect(light.lights, light.receivers)
  const lit = new Set(rig.sources.filter(({ on }) => on).map(({ id }) => id))
  const has = (samples: number) =>
    [...renderer.progress.samples].every(([id, count]) => count >= samples || !lit.has(id))
  // Where there is no shadow edge to look at, the camera's own picture stands for it.
  const isClose = isCrop(look) && rig.view !== whole.view
  const widthMm = isClose ? cropScale(whole, look).widthMm : null
  const span = isClose && look === 'edge' ? edgeSpan(whole, readings.sceneOf(whole).caster) : null
  const how = recombinationOf(rig, exposure)
  for (const [i, samples] of stages.entries()) {
    while (!has(samples)) {
      renderer.step(STEP_MS)
      await new Promise((resolve) => setTimeout(resolve, renderer.isBusy ? BUSY_MS : 0))
      if (superseded()) return
    }

    renderer.recombine(how)
    const bitmap = await createImageBitmap(renderer.renderer.domElement)
    const finished = isLast && i === stages.length - 1
    const plate = isCounted ? plateIn(renderer, how, look) : null
    answer({ kind: 'sketch', ...which, bitmap, samples, finished, widthMm, span, plate }, [bitmap])
  }
}

function plateIn(renderer: PictureRenderer, how: Recombination, look: Look): ShownPlate {
  const [rgba, sitters] = [renderer.readLinear(how), renderer.readSitters()]
  const columns = look === 'edge' ? CROP_PX.edge : undefined
  return { ...plateOf({ ...renderer.size, rgba, sitters }, columns), scale: how.exposure }
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
    return new PictureRenderer({ canvas, width, height, target: TARGET, patient: true })
  } catch (error) {
    answer({ kind: 'failed', words: stopped(error) })
    return null
  }
}
