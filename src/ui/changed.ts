import { differenceOf, type Reading, type SeenBy, setFigures, verdictOf } from '../readings'
import type { History, Sitting, Step } from '../sitting'
import { COMPARED, takeShown } from './takes/take'

/** Settled readings of the sets that were on the table in this visit. */
const known = new WeakMap<Sitting, readonly Reading[]>()

/** The last of them, in the order in which they were read: a take may be read again before the other is. */
let lastRead: readonly Sitting[] = []
const MOST_READ = 8

export function rememberReadings(sitting: Sitting, readings: readonly Reading[]): void {
  known.set(sitting, readings)
  if (lastRead.at(-1) !== sitting) lastRead = [...lastRead.slice(1 - MOST_READ), sitting]
}

/** What was read of a set to the end, in this visit; null: nothing yet. */
export const settledReadings = (sitting: Sitting): readonly Reading[] | null => known.get(sitting) ?? null

export interface Changed {
  /** The step, by its name. */
  readonly step: string
  /** What is to be seen of it, or that nothing is. */
  readonly words: string
}

/**
 * What the last step changed in the light of its source, or of the first one that is on; null: there was no step, or the set
 * before it or after it has not been read to the end.
 */
export function lastChange({ past, present }: History<Sitting>, selected: string | null): Changed | null {
  const step = stepOf(past.at(-1), present)
  const [before, after] = [step && known.get(step.state), known.get(present)]
  const { sources } = present
  const source = sources.find(({ id, on }) => on && id === selected) ?? sources.find(({ on }) => on)
  if (!step || !before || !after) return null
  if (!source) return { step: step.name, words: 'no source is on' }
  const figures = (readings: readonly Reading[], sitting: Sitting) =>
    setFigures(readings, source.letter, atEqualPower(step.state, present) ? seenBy(sitting) : null)
  return { step: step.name, words: verdictOf(differenceOf(figures(before, step.state), figures(after, present))) }
}

/** Where no meter re-exposes, brighter light is a brighter picture. */
const atEqualPower = (...sets: readonly Sitting[]): boolean => sets.every(({ reExpose }) => reExpose === 'nothing')

const seenBy = ({ camera }: Sitting): SeenBy => ({ fNumber: camera.fNumber, raisedStops: 0 })

/** A row of compared takes is one step: it is told as the take in sight against the one before it. */
function stepOf(step: Step<Sitting> | undefined, present: Sitting): Pick<Step<Sitting>, 'name' | 'state'> | undefined {
  if (step?.gesture !== COMPARED) return step
  const shown = takeShown(present)?.name
  const other = lastRead.findLast((sitting) => takeShown(sitting)?.name !== shown)
  const against = other && takeShown(other)?.name
  return other && shown && against ? { name: `${shown} against ${against}`, state: other } : undefined
}
