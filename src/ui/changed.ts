import { type Reading, seenDifference, setFigures } from '../readings'
import type { History, Sitting } from '../sitting'

/** Settled readings of the sets that were on the table in this visit. */
const known = new WeakMap<Sitting, readonly Reading[]>()

export const rememberReadings = (sitting: Sitting, readings: readonly Reading[]): void => {
  known.set(sitting, readings)
}

export interface Changed {
  /** The step, by its name. */
  readonly step: string
  /** What is to be seen of it; empty: nothing. */
  readonly words: readonly string[]
}

/**
 * What the last step changed in the light of its source, or of the first one that is on; null: there was no step, or the set
 * before it or after it has not been read to the end.
 */
export function lastChange({ past, present }: History<Sitting>, selected: string | null): Changed | null {
  const step = past.at(-1)
  const [before, after] = [step && known.get(step.state), known.get(present)]
  const { sources } = present
  const source = sources.find(({ id, on }) => on && id === selected) ?? sources.find(({ on }) => on)
  if (!step || !before || !after) return null
  if (!source) return { step: step.name, words: ['no source is on'] }
  return {
    step: step.name,
    words: seenDifference(setFigures(before, source.letter), setFigures(after, source.letter)),
  }
}
