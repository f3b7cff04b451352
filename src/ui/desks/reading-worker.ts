/** The desk that reads the light and bounces it. In: orders; out: answers, and bounced light for the picture (protocol.ts). */
import { readFigureAsset, readWornPart, type Wardrobe } from '../../figure'
import { litOutline, type MovedInput, type SeenRoom } from '../../readings'
import { createRigBuilder, type Rig } from '../../rig'
import type { Sitting } from '../../sitting'
import type { AskDesk } from './ask-desk'
import { type BounceAnswer, BounceDesk } from './bounce-desk'
import { MovedDesk } from './moved-desk'
import type { Answer, IndirectNews, Order } from './protocol'
import { breath } from './pump'
import { type Read, ReadingDesk } from './reading-desk'
import { SeesDesk } from './sees-desk'
import { shareWith } from './share'
import { WeighedSet } from './weighed-set'

type SittingOrder = Extract<Order, { kind: 'sitting' }>

const bounces = new BounceDesk()
const readings = new ReadingDesk()
let asks: Promise<AskDesk> | null = null
/** Loaded when something is asked first. */
const askDesk = (): Promise<AskDesk> => {
  asks ??= import('./ask-desk').then((loaded) => new loaded.AskDesk())
  return asks
}
const moves = new MovedDesk()
const wardrobe: Wardrobe = {}
let build: ((sitting: Sitting) => Rig) | null = null
/** Of sets that are only tried, so that the parts of the shown one stay the same objects. */
let buildTried: ((sitting: Sitting) => Rig) | null = null
let before: Sitting | null = null
let newest: SittingOrder | null = null
let busy = false
let seeing: { readonly place: string | null; readonly run: number } = { place: null, run: 0 }
let outlined = false
let movedWanted = false
/** The last set that was read to its end, until its like a little off has been read. */
let unmoved: (Omit<MovedInput, 'indirect' | 'again'> & { readonly turn: number }) | null = null
/** The question in hand. */
let asked = 0
/** Paths at each place before the first figures of another set are shown. */
const FIRST_PATHS = 128
/** The last set of which they were traced, by the page's count. */
let readSet = 0
/** Sittings that have come. */
let sets = 0
const weighed = new WeighedSet()
/** To the desk that draws; null: none does. */
let picture: MessagePort | null = null
let sent: { receivers: unknown; lights: ReadonlyMap<string, unknown> } = { receivers: null, lights: new Map() }

const answer = (words: Answer): void => self.postMessage(words)

export function take(data: Order): void {
  if (data.kind === 'figure') {
    const assets = { figure: readFigureAsset(data.bytes), wardrobe }
    build = createRigBuilder(assets)
    buildTried = createRigBuilder(assets)
  } else if (data.kind === 'worn') wardrobe[data.name] = readWornPart(data.name, data.bytes)
  else if (data.kind === 'sitting') {
    newest = data
    sets++
    unmoved = null
  } else if (data.kind === 'picture') picture = data.port
  else if (data.kind === 'ask') void ask(data)
  else if (data.kind === 'moved') {
    movedWanted = data.on
    void moved()
  } else if (data.kind === 'outline') {
    outlined = data.on
    if (before && build) outline(build(before))
  } else {
    seeing = { ...seeing, place: data.place }
    if (before && build) void look(before, build)
  }
  void work()
}

async function ask({ turn, goal }: Extract<Order, { kind: 'ask' }>): Promise<void> {
  asked = turn
  try {
    const desk = await askDesk()
    const sitting = newest?.sitting ?? before
    if (!sitting || !buildTried) return
    if (goal.kind === 'grid') weighed.when(sets, (factorStops) => void grid(desk, turn, factorStops).catch(told))
    else answer({ kind: 'solved', turn, answer: desk.answer(sitting, goal, buildTried, readings.traced(sitting)) })
  } catch (error) {
    answer({ kind: 'solved', turn, answer: `It could not be worked out: ${wordsOf(error)}` })
  }
}

/** Of the set that was read last; left at once where the set is sent anew or something else is asked. */
async function grid(desk: AskDesk, turn: number, factorStops: number): Promise<void> {
  if (!before || !buildTried || asked !== turn) return
  const set = sets
  const found = await desk.grid(before, buildTried, factorStops, () => asked !== turn || sets !== set)
  if (asked === turn) answer({ kind: 'solved', turn, answer: found ?? 'The set changed meanwhile: ask once more.' })
}

/** Once a set, where it is wanted; left at once where the set is sent anew. */
async function moved(): Promise<void> {
  if (!movedWanted || !unmoved || !buildTried) return
  const { turn, ...set } = unmoved
  const own = sets
  unmoved = null
  try {
    const input = { ...set, indirect: readings.traced(set.sitting) }
    const shifts = await moves.shifts(input, buildTried, () => sets !== own)
    if (shifts) answer({ kind: 'moved', turn, shifts })
  } catch (error) {
    told(error)
  }
}

function outline(rig: Rig): void {
  if (outlined) answer({ kind: 'outline', lines: litOutline(readings.sceneOf(rig)) })
}

/** The half-room that is asked for: coarse within the time of a drag, then finer, turn about with the settled readings. */
async function look(sitting: Sitting, rigOf: (sitting: Sitting) => Rig): Promise<void> {
  seeing = { ...seeing, run: seeing.run + 1 }
  const { place, run } = seeing
  if (place === null) return
  const superseded = () => seeing.run !== run
  const tell = (room: SeenRoom, settled: boolean) => answer({ kind: 'sees', place, room, settled })
  try {
    const desk = new SeesDesk(readings.sceneOf(rigOf(sitting)), sitting, place)
    const room = await desk.coarse(superseded)
    if (!room) return
    tell(room, false)
    desk.settle(() => superseded() || newest !== null, tell).catch(told)
  } catch (error) {
    told(error)
  }
}

const told = (error: unknown): void => answer({ kind: 'fault', words: wordsOf(error) })

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error))

async function work(): Promise<void> {
  if (busy || !build) return
  busy = true
  while (newest) {
    const order: SittingOrder = newest
    newest = null
    try {
      await answerTo(order, build)
    } catch (error) {
      told(error)
    }
  }
  busy = false
}

const superseded = (): boolean => newest !== null

/** Coarse answers always come, or a long drag would show none; the settled ones only where nobody moved on. */
async function answerTo(order: SittingOrder, rigOf: (sitting: Sitting) => Rig): Promise<void> {
  const { turn, set, units } = order
  const count = sets
  const sitting = shareWith(before, order.sitting)
  before = sitting
  seeing = { ...seeing, run: seeing.run + 1 }
  const rig = rigOf(sitting)
  const tell = (read: Read, settled: boolean) => answer({ kind: 'read', turn, set, settled, ...read })
  // Before the picture's bounced light, which takes longer; and whoever comes next, or a drag would be read without any.
  const first =
    set === readSet
      ? null
      : await readings.settled(
          sitting,
          rig,
          units,
          () => false,
          () => {},
          FIRST_PATHS,
        )
  readSet = set
  if (first) tell(first, false)
  if (picture) sendIndirect(set, await bounces.coarse(rig))
  const coarse = first ?? readings.coarse(sitting, rig, units)
  if (!first) tell(coarse, false)
  // Otherwise the next set is on its way, and its own answer comes.
  if (count === sets) weighed.know(count, coarse.exposure.factorStops)
  outline(rig)
  await look(sitting, rigOf)
  await breath()
  if (superseded()) return
  const read = await readings.settled(sitting, rig, units, superseded, (partial) => tell(partial, false))
  if (read) tell(read, true)
  unmoved = read && { turn, sitting, exposure: read.exposure }
  if (!read) return
  if (picture) {
    const bounced = await bounces.settled(rig, superseded)
    if (!bounced) return
    sendIndirect(set, bounced)
  }
  void moved()
}

/** What the picture holds already is named and not sent again, so that it stays the same object there. */
function sendIndirect(set: number, { receivers, lights }: BounceAnswer): void {
  const changed = lights.map((light) => (sent.lights.get(light.sourceId) === light ? null : light))
  const sameReceivers = receivers === sent.receivers
  const news: IndirectNews = {
    set,
    receivers: sameReceivers ? null : receivers,
    lights: lights.map(({ sourceId }, i) => ({ sourceId, light: changed[i]! })),
  }
  picture?.postMessage(news)
  sent = { receivers, lights: new Map(lights.map((light) => [light.sourceId, light])) }
}
