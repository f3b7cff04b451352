import { create } from 'zustand'
import { mustBeSmall } from '../read-file'
import { changeRecord, putRecords, readRecords, writesOnLeaving } from '../storage'
import type { LengthUnits } from '../values'

/** What was ticked, typed and photographed for one state of a sitting. Texts are as they were typed. */
export interface Day {
  readonly title: string
  readonly ticks: Readonly<Record<string, true>>
  /** By what was measured: 'tape.ROW.x', 'distance.ID', 'height.ID', 'dial.ID', 'meter.ROW'. */
  readonly typed: Readonly<Record<string, string>>
  /** What the page counted lengths in when each of them was typed; left out: typed before this was kept. */
  readonly typedIn?: Readonly<Record<string, LengthUnits>>
  /** A picture as a data URI; null: none. */
  readonly photo: string | null
  readonly note: string
  /** Version of the state whose day this one goes on with. */
  readonly from?: string
  /** Of the last change, ISO 8601. */
  readonly at?: string
}

/** By the version of the sheet. */
export type Days = Readonly<Record<string, Day>>
export type DayChange = (day: Day) => Day

/** A record for each state, so that neither another state nor another tab writes over it. */
const KEY = 'day.'
/** What a page had not written when it was left: a record for each page and state. */
const LEFT_KEY = 'left.'
const PAGE = `${Date.now()} ${Math.random()}`
const leftKeyOf = (version: string): string => `${LEFT_KEY}${version} ${PAGE}`
/** A day as it was heard of from the device, and with what was changed since. */
interface Left {
  readonly version: string
  readonly heard: Day
  readonly changed: Day
}
/** All in one record, as it was kept first. */
const OLD_KEY = 'days'
const QUIET_MS = 400

interface DayStore {
  /** null: not read from the device yet. */
  readonly days: Days | null
  /** Why the device does not keep it, in words; null: it does. */
  readonly refused: string | null
}

export const useDays = create<DayStore>(() => ({ days: null, refused: null }))

export const emptyDay = (title: string): Day => ({ title, ticks: {}, typed: {}, photo: null, note: '' })

/** Reads what the device keeps, once. Without a store the page works on what is typed now. */
export async function loadDays(): Promise<void> {
  if (useDays.getState().days) return
  try {
    const records = await readRecords()
    for (const [key, record] of Object.entries(records).filter(([name]) => name.startsWith(LEFT_KEY))) {
      const { version, heard, changed } = record as Left
      await changeRecord(KEY + version, (day) => laidOver((day as Day | undefined) ?? heard, heard, changed), key)
    }
    useDays.setState({ days: daysIn(await readRecords()) })
  } catch (error) {
    useDays.setState({ days: {}, refused: wordsOf(error) })
  }
}

function daysIn(records: Readonly<Record<string, unknown>>): Days {
  const old = (records[OLD_KEY] ?? {}) as Days
  const each = Object.entries(records).filter(([key]) => key.startsWith(KEY))
  return { ...old, ...Object.fromEntries(each.map(([key, day]) => [key.slice(KEY.length), day as Day])) }
}

/** What the device has not heard of yet, by version: changes in order, and what they were made to. */
const unwritten = new Map<string, { readonly to: Day; readonly changes: readonly DayChange[] }>()
let timer: ReturnType<typeof setTimeout> | undefined

const after = (day: Day, changes: readonly DayChange[]): Day => changes.reduce((now, change) => change(now), day)

const show = (version: string, day: Day): void =>
  useDays.setState(({ days }) => ({ days: { ...days, [version]: day } }))

/**
 * One change of a day, laid over what it is by then, kept on the device soon after; where that refuses, it stays on the page and says
 * so. It may be made more than once: it sets, and does not toggle.
 */
export function changeDay(version: string, title: string, change: DayChange): void {
  const at = new Date().toISOString()
  const dated: DayChange = (day) => ({ ...change(day), at })
  const now = useDays.getState().days?.[version] ?? emptyDay(title)
  const { to, changes } = unwritten.get(version) ?? { to: now, changes: [] }
  unwritten.set(version, { to, changes: [...changes, dated] })
  show(version, dated(now))
  clearTimeout(timer)
  timer = setTimeout(() => void writeDays().catch(() => undefined), QUIET_MS)
}

let writing: Promise<void> = Promise.resolve()

/** One after the other, so that no change is counted as written twice. */
function writeDays(): Promise<void> {
  clearTimeout(timer)
  writing = writing.catch(() => undefined).then(writeNow)
  return writing
}

/** A day is read before it is written, for which a page that is being closed has no time: what is unwritten is put down as it is. */
async function leaveDays(): Promise<void> {
  const left = [...unwritten].map(([version, { to, changes }]): [string, Left] => [
    leftKeyOf(version),
    { version, heard: to, changed: after(to, changes) },
  ])
  if (left.length === 0) return
  await Promise.all([putRecords(Object.fromEntries(left)), writeDays()])
}
writesOnLeaving(leaveDays)

async function writeNow(): Promise<void> {
  try {
    for (const [version, { to, changes }] of [...unwritten]) {
      let written = to
      const write = (record: unknown): Day => {
        written = after((record as Day | undefined) ?? to, changes)
        return written
      }
      await changeRecord(KEY + version, write, leftKeyOf(version))
      const left = unwritten.get(version)!.changes.slice(changes.length)
      if (left.length > 0) unwritten.set(version, { to: written, changes: left })
      else unwritten.delete(version)
      show(version, after(written, left))
    }
    if (useDays.getState().refused !== null) useDays.setState({ refused: null })
  } catch (error) {
    useDays.setState({ refused: wordsOf(error) })
    throw error
  }
}

/** What was changed from one state of a day to another, laid over what it is by now. */
export function laidOver(there: Day, from: Day, to: Day): Day {
  const entries = <T>(of: (day: Day) => Readonly<Record<string, T>>): Readonly<Record<string, T>> => {
    const now = { ...of(there) }
    for (const name of Object.keys({ ...of(from), ...of(to) })) {
      const [before, after] = [of(from)[name], of(to)[name]]
      if (after === before) continue
      if (after === undefined) delete now[name]
      else now[name] = after
    }
    return now
  }
  return {
    ...there,
    ticks: entries((day) => day.ticks),
    typed: entries((day) => day.typed),
    typedIn: entries((day) => day.typedIn ?? {}),
    photo: from.photo === to.photo ? there.photo : to.photo,
    note: from.note === to.note ? there.note : to.note,
    ...(to.at !== undefined && { at: to.at }),
  }
}

/** A day gone on with under another state: what is typed and ticked there already stays. */
export const goneOnWith =
  (version: string, from: Day): DayChange =>
  (day) => ({
    ...day,
    from: version,
    ticks: { ...from.ticks, ...day.ticks },
    typed: { ...from.typed, ...day.typed },
    typedIn: { ...unitsLeft(from, day), ...day.typedIn },
    photo: day.photo ?? from.photo,
    note: day.note || from.note,
  })

/** Units of the figures that the other day has not typed itself. */
const unitsLeft = ({ typedIn = {} }: Day, { typed }: Day): Day['typedIn'] =>
  Object.fromEntries(Object.entries(typedIn).filter(([name]) => !(name in typed)))

/** '12 ticks, 8 figures, a photo'; empty: nothing is in it. */
export function contentOf({ ticks, typed, photo, note }: Day): string {
  const figures = Object.values(typed).filter((text) => text.trim() !== '').length
  const count = (n: number, what: string) => (n === 0 ? '' : n === 1 ? `1 ${what}` : `${n} ${what}s`)
  return [
    count(Object.keys(ticks).length, 'tick'),
    count(figures, 'figure'),
    photo && 'a photo',
    note.trim() && 'a note',
  ]
    .filter(Boolean)
    .join(', ')
}

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error))

/** Of a photo's longer side, pixels. */
const PHOTO_PX = 1400

/** A photo, made small enough to be kept, as a data URI. Throws where it is too large, or no picture that this browser reads. */
export async function photoFrom(file: File): Promise<string> {
  mustBeSmall(file)
  const bitmap = await createImageBitmap(file).catch(() => {
    throw new Error(`${file.name} is no picture that this browser reads`)
  })
  const scale = Math.min(1, PHOTO_PX / Math.max(bitmap.width, bitmap.height))
  const canvas = document.createElement('canvas')
  canvas.width = Math.max(1, Math.round(bitmap.width * scale))
  canvas.height = Math.max(1, Math.round(bitmap.height * scale))
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height)
  bitmap.close()
  return canvas.toDataURL('image/jpeg', 0.85)
}
