import { type IDBPDatabase, openDB } from 'idb'
import { type Kit, readKit, writeKit } from '../kit'
import { readSitting, writeSitting } from '../sitting'
import { currentKit, restoreKit, useKitHistory } from './kit/kit-store'
import { restore, type Session, setSession, useStore } from './store'
import { useTakePictures } from './takes/pictures'

const DATABASE = 'halfshade'
const STORE = 'desk'
/** Quiet time before the desk is written, ms: a drag writes once, at its end. */
const QUIET_MS = 400

type Kept = Pick<Session, 'theme' | 'units' | 'hintSeen' | 'pins'>

const keptOf = ({ theme, units, hintSeen, pins }: Session): Kept => ({ theme, units, hintSeen, pins })

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

/** Puts back what lay on the desk when the page was left. A first visit, or a device that keeps nothing, changes nothing. */
export async function restoreDesk(): Promise<void> {
  try {
    const db = await database()
    const [text, kept, thumbs, kit] = await Promise.all([
      db.get(STORE, ASIDE).then((aside: unknown) => aside ?? db.get(STORE, 'sitting')),
      db.get(STORE, 'session'),
      db.get(STORE, 'thumbs'),
      db.get(STORE, 'kit'),
    ])
    if (thumbs) useTakePictures.setState({ thumbs })
    if (typeof text === 'string') restoreSitting(text, (kept ?? {}) as Partial<Kept>)
    if (typeof kit === 'string') restoreKept(kit)
    await keepAside(null)
  } catch {
    // Private windows may have no store: the page works without one, and the file is there to save.
  }
}

function restoreSitting(text: string, kept: Partial<Kept>): void {
  const result = readSitting(text)
  if ('sitting' in result) restore(result.sitting, kept)
  else setSession({ notice: { title: 'What was kept on this device could not be opened.', problems: result.problems } })
}

function restoreKept(text: string): void {
  const result = readKit(text)
  if ('kit' in result) restoreKit(result.kit)
  else
    setSession({ notice: { title: 'Your kit, kept on this device, could not be opened.', problems: result.problems } })
}

/** What is written together; kit only where it is another than the one that lies there. */
export interface DeskRecords {
  readonly sitting: string
  readonly session: Kept
  readonly thumbs: Readonly<Record<string, string>>
  readonly kit?: string
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

export const readRecord = async (key: string): Promise<unknown> => (await database()).get(STORE, key)

export async function writeRecord(key: string, value: unknown): Promise<void> {
  await (await database()).put(STORE, value, key)
}

async function write(records: DeskRecords): Promise<void> {
  const db = await database()
  const transaction = db.transaction(STORE, 'readwrite')
  const puts = Object.entries(records).map(([key, value]) => transaction.store.put(value, key))
  await Promise.all([...puts, transaction.done])
}

const recordsOf = (kitBefore: Kit): DeskRecords => {
  const { history, session } = useStore.getState()
  const kit = currentKit()
  return {
    sitting: writeSitting(history.present),
    session: keptOf(session),
    thumbs: useTakePictures.getState().thumbs,
    ...(kit === kitBefore ? {} : { kit: writeKit(kit) }),
  }
}

/**
 * Writes the desk after every change that lasts. The kit is written once it has been edited here: one that another page has written since,
 * or that this page could not read, is left alone. Says so once if the device refuses. Gives back what ends it.
 */
export function keepDesk(put: (records: DeskRecords) => Promise<void> = write): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined
  let told = false
  let keptKit = currentKit()
  const putAll = async () => {
    const kit = currentKit()
    await put(recordsOf(keptKit))
    keptKit = kit
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
  const stop = () => {
    clearTimeout(timer)
    stopThumbs()
    stopKit()
    stopStore()
  }
  stopKeeping = stop
  return stop
}

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
