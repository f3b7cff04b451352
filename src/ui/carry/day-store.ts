import { create } from 'zustand'
import { readRecord, writeRecord } from '../storage'

/** What was ticked, typed and photographed for one state of a sitting. Texts are as they were typed. */
export interface Day {
  readonly title: string
  readonly ticks: Readonly<Record<string, true>>
  /** By what was measured: 'tape.ROW.x', 'distance.ID', 'height.ID', 'dial.ID', 'meter.ROW'. */
  readonly typed: Readonly<Record<string, string>>
  /** A picture as a data URI; null: none. */
  readonly photo: string | null
  readonly note: string
}

type Days = Readonly<Record<string, Day>>

const KEY = 'days'
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
    const kept = await readRecord(KEY)
    useDays.setState({ days: kept !== null && typeof kept === 'object' ? (kept as Days) : {} })
  } catch (error) {
    useDays.setState({ days: {}, refused: wordsOf(error) })
  }
}

let timer: ReturnType<typeof setTimeout> | undefined

/** One change of a day, laid over what it is by then, kept on the device soon after; where that refuses, it stays on the page and says so. */
export function changeDay(version: string, title: string, part: Partial<Day>): void {
  useDays.setState(({ days }) => ({
    days: { ...days, [version]: { ...emptyDay(title), ...days?.[version], ...part } },
  }))
  clearTimeout(timer)
  timer = setTimeout(() => {
    writeRecord(KEY, useDays.getState().days).then(
      () => useDays.setState({ refused: null }),
      (error: unknown) => useDays.setState({ refused: wordsOf(error) }),
    )
  }, QUIET_MS)
}

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error))

/** Of a photo's longer side, pixels. */
const PHOTO_PX = 1400

/** A photo, made small enough to be kept, as a data URI. Throws where it is no picture that this browser reads. */
export async function photoFrom(file: File): Promise<string> {
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
