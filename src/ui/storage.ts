import { type IDBPDatabase, openDB } from 'idb'
import { type Kit, readKit, writeKit } from '../kit'
import { type History, readSitting, type Sitting, writeSitting } from '../sitting'
import { type Earlier, earlierOf, readEarlier, resumed } from './earlier'
import { currentKit, restoreKit, useKitHistory } from './kit/kit-store'
import { listenToOtherTabs, tellOtherTabs, useOtherTabs, withOthers } from './other-tabs'
import { restore, type Session, setSession, useStore } from './store'
import { useTakePictures } from './takes/pictures'

const DATABASE = 'halfshade'
const STORE = 'desk'
/** Quiet time before the desk is written, ms: a drag writes once, at its end. */
const QUIET_MS = 400

type Kept = Pick<Session, 'theme' | 'units' | 'hintSeen' | 'pins' | 'lessonsDone'>

const keptOf = ({ theme, units, hintSeen, pins, lessonsDone }: Session): Kept => ({
  theme,
  units,
  hintSeen,
  pins,
  lessonsDone,
})

let connection: Promise<IDBPDatabase> | null = null

function database(): Promise<IDBPDatabase> {
  connection ??= openDB(DATABASE, 1, {
    upgrade: (db) => {
      db.createObjectStore(STORE)
    },
    // Another tab wants a newer version: let go, and open anew for the next write.
    blocking: () => {
      void connection?.then((db) => db.close())
      connection = null
    },
    terminated: () => {
      connection = null
    },
  })
  return connection
}

/** Keeps a sitting as what lies on the desk while another one is tried there; null: nothing lies aside. Best effort, as the desk itself. */
export async function keepAside(text: string | null): Promise<void> {
  try {
    const db = await database()
    await (text === null ? db.delete(STORE, ASIDE) : db.put(STORE, text, ASIDE))
  } catch {
    // A device that keeps nothing has said so for the desk.
  }
}
const ASIDE = 'aside'
/** What the sitting on the desk was laid over. */
const EARLIER = 'earlier'

/** Puts back what lay on the desk when the page was left. A first visit, or a device that keeps nothing, changes nothing. */
export async function restoreDesk(): Promise<void> {
  try {
    const db = await database()
    const [aside, text, earlier, kept, thumbs, kit] = await Promise.all(
      [ASIDE, 'sitting', EARLIER, 'session', 'thumbs', 'kit'].map((key) => db.get(STORE, key)),
    )
    if (thumbs) useTakePictures.setState({ thumbs })
    const over = readEarlier(earlier)
    const own = typeof aside === 'string' ? aside : text
    // What was tried in a lesson is not lost with it: undo gives it back, as in the visit before.
    const tried = own === aside && typeof text === 'string' ? [{ name: 'your own sitting again', text }] : []
    if (typeof own === 'string') restoreSitting(own, [...over, ...tried], (kept ?? {}) as Partial<Kept>)
    if (typeof kit === 'string') restoreKept(kit)
    if (own === aside && own !== undefined) await layBack(db, own, [...over, ...tried])
  } catch {
    // Private windows may have no store: the page works without one, and the file is there to save.
  }
}

/** What lay aside on the desk again, all or nothing: the page may be left before its next write. */
async function layBack(db: IDBPDatabase, own: string, earlier: readonly Earlier[]): Promise<void> {
  const { store, done } = db.transaction(STORE, 'readwrite')
  await Promise.all([store.put(own, 'sitting'), store.put(earlier, EARLIER), store.delete(ASIDE), done])
}

function restoreSitting(text: string, earlier: readonly Earlier[], kept: Partial<Kept>): void {
  const result = readSitting(text)
  const read = (other: string) => {
    const found = readSitting(other)
    return 'sitting' in found ? found.sitting : null
  }
  if ('sitting' in result) restore(result.sitting, kept, resumed(result.sitting, text, earlier, read))
  else setSession({ notice: { title: 'What was kept on this device could not be opened.', problems: result.problems } })
}

function restoreKept(text: string): void {
  const result = readKit(text)
  if ('kit' in result) restoreKit(result.kit)
  else
    setSession({ notice: { title: 'Your kit, kept on this device, could not be opened.', problems: result.problems } })
}

/** What is written together; sitting and kit only where they were changed here, as another tab may have written its own since. */
export interface DeskRecords {
  readonly sitting?: string
  readonly session: Kept
  readonly thumbs: Readonly<Record<string, string>>
  readonly kit?: string
  /** What the sitting was laid over, only where it changed. */
  readonly earlier?: readonly Earlier[]
}

/** Everything that lies here, by its key. */
export async function readRecords(): Promise<Record<string, unknown>> {
  const { store } = (await database()).transaction(STORE)
  const [keys, values] = await Promise.all([store.getAllKeys(), store.getAll()])
  return Object.fromEntries(keys.map((key, i) => [String(key), values[i]]))
}

/** All, or where one fails, none. */
async function replaceRecords(records: Readonly<Record<string, unknown>>): Promise<void> {
  const transaction = (await database()).transaction(STORE, 'readwrite')
  const { store } = transaction
  await Promise.all([
    store.clear(),
    ...Object.entries(records).map(([key, value]) => store.put(value, key)),
    transaction.done,
  ])
}

/** A record made anew of what lies there by then (undefined: nothing), so that two tabs write into one and neither over the other. gone: another one that goes with it. */
export async function changeRecord(key: string, change: (record: unknown) => unknown, gone?: string): Promise<void> {
  const transaction = (await database()).transaction(STORE, 'readwrite')
  const put = transaction.store.put(change(await transaction.store.get(key)), key)
  const deleted = gone === undefined ? null : transaction.store.delete(gone)
  transaction.commit()
  await Promise.all([put, deleted, transaction.done])
}

/** As they are, together, with nothing read before: what a page that is being closed can still do. */
export async function putRecords(records: object): Promise<void> {
  const db = await database()
  const transaction = db.transaction(STORE, 'readwrite')
  const puts = Object.entries(records).map(([key, value]) => transaction.store.put(value, key))
  // At once: a page that is being closed hears no more of what was put, and what is not committed by then is lost.
  transaction.commit()
  await Promise.all([...puts, transaction.done])
}

/** What is written only where it is another than was written last. */
interface Seldom {
  readonly sitting: Sitting
  readonly kit: Kit
  readonly openings: History<Sitting>['past']
  readonly others: unknown
}

const seldomNow = (): Seldom => ({
  sitting: useStore.getState().history.present,
  others: useOtherTabs.getState().kept,
  kit: currentKit(),
  openings: useStore.getState().history.past.filter(({ opens }) => opens),
})

const areSame = (now: Seldom['openings'], before: Seldom['openings']): boolean =>
  now.length === before.length && now.every((step, i) => step === before[i])

const recordsOf = (now: Seldom, before: Seldom): DeskRecords => {
  const { history, session } = useStore.getState()
  return {
    ...(now.sitting === before.sitting ? {} : { sitting: writeSitting(now.sitting) }),
    session: keptOf(session),
    thumbs: useTakePictures.getState().thumbs,
    ...(now.kit === before.kit ? {} : { kit: writeKit(now.kit) }),
    ...(now.others === before.others && areSame(now.openings, before.openings)
      ? {}
      : { earlier: withOthers(earlierOf(history, writeSitting)) }),
  }
}

/**
 * Writes the desk after every change that lasts. The kit is written once it has been edited here: one that another page has written since,
 * or that this page could not read, is left alone. Says so once if the device refuses. Gives back what ends it.
 */
export function keepDesk(put: (records: DeskRecords) => Promise<void> = putRecords): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined
  let told = false
  let written = seldomNow()
  let [changes, kept] = [0, 0]
  const putAll = async () => {
    clearTimeout(timer)
    const [now, upTo] = [seldomNow(), changes]
    const records = recordsOf(now, written)
    const done = put(records)
    if (records.sitting !== undefined)
      tellOtherTabs(records.sitting, withOthers(earlierOf(useStore.getState().history, writeSitting)))
    await done
    written = now
    kept = upTo
  }
  const save = () => {
    putAll().catch((error: unknown) => {
      if (told) return
      told = true
      setSession({
        notice: {
          title: 'This device does not keep the sitting.',
          problems: [
            {
              path: 'store of this browser',
              expected: 'room for the sitting',
              got: error instanceof Error ? error.message : String(error),
              advice: 'Save the sitting as a file before you leave.',
            },
          ],
        },
      })
    })
  }
  const soon = () => {
    changes++
    clearTimeout(timer)
    timer = setTimeout(save, QUIET_MS)
  }
  const stopThumbs = useTakePictures.subscribe((now, before) => {
    if (now.thumbs !== before.thumbs) soon()
  })
  const stopKit = useKitHistory.subscribe(soon)
  const stopStore = useStore.subscribe((now, before) => {
    if (
      now.history === before.history &&
      JSON.stringify(keptOf(now.session)) === JSON.stringify(keptOf(before.session))
    )
      return
    soon()
  })
  const stopWriting = writesOnLeaving(async () => (kept < changes ? putAll() : undefined))
  const stop = () => {
    clearTimeout(timer)
    stopWriting()
    stopThumbs()
    stopKit()
    stopStore()
  }
  stopKeeping = stop
  return stop
}

/** Hears of what other tabs keep, and keeps what this one had under theirs. */
export const heedOtherTabs = (): void =>
  listenToOtherTabs((change) => changeRecord(EARLIER, (record) => change(readEarlier(record))))

const writers = new Set<() => Promise<unknown>>()

/** Has something written by `allWritten`. Gives back what ends it. */
export function writesOnLeaving(write: () => Promise<unknown>): () => void {
  writers.add(write)
  return () => writers.delete(write)
}

/** Writes all that changed; throws where the device refuses. Then the page may be left. */
export const allWritten = async (): Promise<void> => void (await Promise.all([...writers].map((write) => write())))

let stopKeeping = (): void => undefined

/** These records in the place of all that lies here, with no write of the present desk under way; where that fails, it is kept on. */
export async function replaceDesk(records: Readonly<Record<string, unknown>>): Promise<void> {
  stopKeeping()
  try {
    await replaceRecords(records)
  } catch (error) {
    keepDesk()
    throw error
  }
}
