/** The desk that draws. In: orders (protocol.ts) and bounced light; out: how far the picture is, and copies of it. */
import { readFigureAsset, readWornPart, type Wardrobe } from '../../figure'
import { type Recombination, recombinationOf } from '../../render'
import { CROP_PX, createRigBuilder, type Rig, rigSeen } from '../../rig'
import type { Sitting } from '../../sitting'
import type { IndirectNews } from '../desks/protocol'
import { shareWith } from '../desks/share'
import { Copier } from './copier'
import { PictureEngine } from './engine'
import { NowAndThen } from './now-and-then'
import type { PictureAnswer, PictureOrder, Shown, Weighing } from './protocol'
import { SetInSight } from './set-in-sight'
import { Soon } from './soon'
import type { Indirect, InSight } from './types'

type SittingOrder = Extract<PictureOrder, { kind: 'sitting' }>

const wardrobe: Wardrobe = {}
let build: ((sitting: Sitting) => Rig) | null = null
let engine: PictureEngine | null = null
let judged = false
/** What is on the table, and what of it has been built. */
let newest: SittingOrder | null = null
let taken: SittingOrder | null = null
let rig: Rig | null = null
let isCovered = false
let weighing: Weighing = { count: 0, set: 0, exposure: null, solo: null, blurred: false, byModelling: false }
let indirect: Indirect | null = null
const inSight = new SetInSight(() => takeUp(true))
/** Of a set that waits. */
const DRAWING = { kind: 'working', samples: 0, rough: false, error: null } as const
const turns = new WeakMap<Rig, number>()
const weighings = new WeakMap<Recombination, number>()

const answer = (words: PictureAnswer, transfer: Transferable[] = []): void => self.postMessage(words, { transfer })

let pageOrigin = performance.timeOrigin
/** In the page's time, which began earlier than this thread's. */
function told({ rig: drawn, how, samples, summedAtMs, drawnAtMs }: InSight): Shown {
  const later = performance.timeOrigin - pageOrigin
  return {
    turn: turns.get(drawn) ?? 0,
    weighing: weighings.get(how) ?? 0,
    samples,
    summedAtMs: summedAtMs + later,
    drawnAtMs: drawnAtMs + later,
  }
}

/** A row of orders that came while this thread drew is answered by its last. */
const table = new Soon(() => takeUp())

export function take(order: PictureOrder): void {
  switch (order.kind) {
    case 'open':
      pageOrigin = order.pageOriginMs
      open(order.canvas, order.size)
      return
    case 'size':
      engine?.setSize(order.size)
      return
    case 'rest':
      isCovered = order.on
      rest()
      return
    case 'judge':
      judged = order.on
      if (judged) plates.ask()
      return
    case 'light':
      order.port.onmessage = ({ data }: MessageEvent<IndirectNews>) => takeLight(data)
      return
    case 'figure':
      build = createRigBuilder({ figure: readFigureAsset(order.bytes), wardrobe })
      break
    case 'worn':
      wardrobe[order.name] = readWornPart(order.name, order.bytes)
      break
    case 'sitting':
      newest = order
      break
    case 'weigh':
      weighing = order.how
      if (inSight.takesExposure(weighing.set) && rig) engine?.setRecombination(weighed(rig))
      break
  }
  table.soon()
}

function open(canvas: OffscreenCanvas, size: { width: number; height: number }): void {
  engine?.dispose()
  const opened = new PictureEngine(canvas, size, {
    state: (state) => answer({ kind: 'state', state }),
    shown: (picture) => {
      answer({ kind: 'shown', shown: told(picture) })
      copier.ask()
      if (judged) plates.now()
    },
  })
  const copier = new Copier(
    canvas,
    () => opened.inSight,
    (picture, bitmap) => answer({ kind: 'copy', shown: told(picture), bitmap }, [bitmap]),
  )
  engine = opened
  if (rig) draw(rig)
  if (rig && indirect) engine.setIndirect(indirect)
}

function takeUp(isLate = false): void {
  if (!newest || newest === taken || !build) return
  const sitting = shareWith(taken?.sitting ?? null, newest.sitting)
  const waits = inSight.waits(newest.set) && !isLate
  if (waits) {
    answer({ kind: 'state', state: DRAWING })
    rest()
    return
  }
  taken = { ...newest, sitting }
  newest = taken
  const light = inSight.take(newest.set)
  rest()
  let built: Rig
  try {
    built = rigSeen(build(sitting), taken.look)
  } catch {
    // The page builds it as well and tells what is wrong with it.
    return
  }
  const isFirst = rig === null
  rig = built
  turns.set(built, taken.turn)
  draw(built, light)
  if (isFirst && indirect) engine?.setIndirect(indirect)
}

/** Nothing is drawn where nobody sees it, nor of a set that is about to leave. */
const rest = (): void => engine?.setResting(isCovered || inSight.isWaiting)

/** The light of what is in sight, while the exposure is judged. */
const plates = new NowAndThen(() => {
  // An edge is measured pixel by pixel.
  const columns = taken?.look === 'edge' ? CROP_PX.edge : undefined
  const plate = judged ? (engine?.plate(columns) ?? null) : null
  if (!plate) return false
  const turn = engine?.inSight ? (turns.get(engine.inSight.rig) ?? 0) : 0
  answer({ kind: 'plate', plate, turn }, [plate.linear.buffer, plate.peak.buffer, plate.sitter.buffer] as ArrayBuffer[])
  return true
})

/** light: what is known of the bounced light of another set; null: it is the same set, and goes on with what it has. */
function draw(drawn: Rig, light: 'known' | 'unknown' | null = null): void {
  const own = indirect && light === 'unknown' ? { ...indirect, lights: [] } : indirect
  engine?.setRig(drawn, weighed(drawn), light && own)
}

function weighed(drawn: Rig): Recombination {
  const { exposure, solo, blurred, byModelling } = weighing
  // The profile is seen by no lens.
  const isLens = blurred && taken !== null && taken.look !== 'profile'
  const how = recombinationOf(drawn, exposure, {
    solo,
    modelling: byModelling,
    blurOfMm: isLens ? taken!.sitting.camera.focalLengthMm : undefined,
  })
  weighings.set(how, weighing.count)
  return how
}

function takeLight({ set, receivers, lights }: IndirectNews): void {
  table.soon()
  const known = receivers ?? indirect?.receivers
  if (!known) return
  const isNew = receivers !== null || lights.some(({ light }) => light !== null)
  const before = indirect
  indirect = {
    receivers: known,
    lights: lights.flatMap(
      ({ sourceId, light }) => light ?? before?.lights.find((old) => old.sourceId === sourceId) ?? [],
    ),
  }
  if (inSight.takesLight(set, isNew) && rig) engine?.setIndirect(indirect)
}
