import type { Reading } from '../readings'
import type { Sitting } from '../sitting'

/** Settled readings of the sets that were on the table in this visit. */
const known = new WeakMap<Sitting, readonly Reading[]>()

/** The last of them, in the order in which they were read: a take may be read again before the other is. */
let lastRead: readonly Sitting[] = []
export const readLately = (): readonly Sitting[] => lastRead
const MOST_READ = 8

export function rememberReadings(sitting: Sitting, readings: readonly Reading[]): void {
  known.set(sitting, readings)
  if (lastRead.at(-1) !== sitting) lastRead = [...lastRead.slice(1 - MOST_READ), sitting]
}

/** What was read of a set to the end, in this visit; null: nothing yet. A take that is kept changes no light. */
export function settledReadings(sitting: Sitting): readonly Reading[] | null {
  const alike = known.has(sitting) ? sitting : lastRead.findLast((one) => isAlikeButTakes(one, sitting))
  return (alike && known.get(alike)) ?? null
}

const isAlikeButTakes = (a: Sitting, b: Sitting): boolean =>
  (Object.keys({ ...a, ...b }) as (keyof Sitting)[]).every((key) => key === 'takes' || a[key] === b[key])
