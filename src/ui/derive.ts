import figureUrl from '../../assets/sitter.glb?url'
import { readFigureAsset } from '../figure'
import { createRigBuilder } from '../rig'
import type { Sitting } from '../sitting'
import { type Derived, setDerived, useDerivedNow } from './derived'
import { isAnotherSet } from './desks/another-set'
import type { Answer, FileOrder, Order } from './desks/protocol'
import { explained } from './explained'
import { pictureDesk } from './picture/desk'
import { rememberReadings } from './read-before'
import { currentSitting, useStore } from './store'
import { fetchAsset, WardrobeRoom } from './wardrobe'

/** Loads the sitter once, then derives rig, readings and bounced light again after every change of the document. */
export async function startDeriving(): Promise<void> {
  try {
    const bytes = await fetchAsset(figureUrl)
    const tell = startReading()
    const tellBoth = (order: FileOrder) => {
      pictureDesk.tell(order)
      tell(order)
    }
    tellBoth({ kind: 'figure', bytes })
    const asset = readFigureAsset(bytes)
    const room = new WardrobeRoom(
      (name, worn) => {
        tellBoth({ kind: 'worn', name, bytes: worn })
        derive()
      },
      (error) =>
        setDerived({
          fault: `What a sitter wears could not be loaded (${wordsOf(error)}). Undo the last step, or load the page again.`,
        }),
    )
    const build = createRigBuilder({ figure: asset, wardrobe: room.wardrobe })
    const derive = () => {
      const sitting = currentSitting()
      if (!room.has(sitting)) return
      // First of all: it draws while this thread goes on.
      const { opened } = useStore.getState().session
      // The picture of what lay there before one was opened is no picture of it.
      const isAnother = !sent.sitting || opened !== sent.opened || isAnotherSet(sent.sitting, sitting)
      const { turn, set } = pictureDesk.draw(sitting, isAnother)
      try {
        const { read } = useDerivedNow.getState()
        // What the last set was warned of has no place in another one.
        setDerived({ rig: build(sitting), ...(isAnother && read && { read: { ...read, cautions: [] } }) })
      } catch (error) {
        setDerived({
          fault: `This set could not be put together: ${wordsOf(error).replace(/\.?$/, '.')} Undo the last step.`,
        })
        return
      }
      sent = { turn, sitting, opened }
      if (useDerivedNow.getState().shifts) setDerived({ shifts: null })
      tell({ kind: 'sitting', turn, set, sitting, units: useStore.getState().session.units })
    }
    setDerived({ asset })
    const outline = (on: boolean) => {
      // Lines of another set must not come back with the word.
      setDerived({ outline: null })
      tell({ kind: 'outline', on })
    }
    derive()
    useStore.subscribe((now, before) => {
      if (now.history.present !== before.history.present || now.session.units !== before.session.units) derive()
      if (now.session.asked !== before.session.asked && now.session.asked)
        tell({ kind: 'ask', turn: ++questions.turn, goal: now.session.asked.goal })
      if (now.session.sees !== before.session.sees) tell({ kind: 'sees', place: now.session.sees })
      if (now.session.outlined !== before.session.outlined) outline(now.session.outlined)
    })
    explained.subscribe((now, before) => {
      if (now.open > 0 !== before.open > 0) tell({ kind: 'moved', on: now.open > 0 })
    })
  } catch (error) {
    setDerived({
      fault: `The sitter could not be loaded (${wordsOf(error)}). Controls and files work; load the page again.`,
    })
  }
}

/** Counts what was asked, so that an answer finds its question. */
const questions = { turn: 0 }
/** What was to be read last, counted. */
let sent: { readonly turn: number; readonly sitting: Sitting | null; readonly opened: Sitting | null } = {
  turn: 0,
  sitting: null,
  opened: null,
}

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error))

function startReading(): (order: Order) => void {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'light' })
  worker.onmessage = ({ data }: MessageEvent<Answer>) => take(data)
  worker.onerror = (event) =>
    setDerived({
      fault: `Reading the light stopped (${event.message || 'the worker did not start'}). Load the page again.`,
    })
  const { port1, port2 } = new MessageChannel()
  pictureDesk.tell({ kind: 'light', port: port2 }, [port2])
  worker.postMessage({ kind: 'picture', port: port1 } satisfies Order, [port1])
  const tell = (order: Order) => worker.postMessage(order)
  // For good: what can come back is lost only for a while.
  const whereNone = ({ picture }: Derived) => {
    if (picture.kind !== 'failed') return
    tell({ kind: 'picture', port: null })
    stop()
  }
  const stop = useDerivedNow.subscribe(whereNone)
  whereNone(useDerivedNow.getState())
  return tell
}

function take(answer: Answer): void {
  switch (answer.kind) {
    case 'read': {
      const { kind: _, ...read } = answer
      const isOfNow = read.turn === sent.turn && sent.sitting === currentSitting()
      if (isOfNow && read.settled) rememberReadings(currentSitting(), read.readings)
      setDerived({ read: { ...read, of: isOfNow ? currentSitting() : null }, fault: null })
      return
    }
    case 'sees': {
      const { kind: _, ...sees } = answer
      setDerived({ sees })
      return
    }
    case 'solved': {
      const { asked } = useStore.getState().session
      if (asked && answer.turn === questions.turn) setDerived({ solved: { asked, answer: answer.answer } })
      return
    }
    case 'outline':
      setDerived({ outline: answer.lines })
      return
    case 'moved':
      if (answer.turn === sent.turn) setDerived({ shifts: answer.shifts })
      return
    case 'fault':
      setDerived({ fault: `This set could not be read: ${answer.words}` })
      return
  }
}
