import {
  differenceOf,
  type Reading,
  type SeenBy,
  type SetFigures,
  setFigures,
  tintBetween,
  verdictOf,
} from '../readings'
import type { History, Sitting, Step } from '../sitting'
import { readLately, settledReadings } from './read-before'
import { COMPARED, takeShown } from './takes/take'

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
  const [before, after] = [step && settledReadings(step.state), settledReadings(present)]
  const { sources } = present
  if (step && keepsSet(step.state, present)) return { step: step.name, words: 'the set in hand stays as it is' }
  const source = sources.find(({ id, on }) => on && id === selected) ?? sources.find(({ on }) => on)
  if (!step || !before || !after) return null
  if (!source) return { step: step.name, words: 'no source is on' }
  const figures = (readings: readonly Reading[], sitting: Sitting) =>
    setFigures(readings, source.letter, atEqualPower(step.state, present) ? seenBy(sitting) : null)
  const [from, to] = [figures(before, step.state), figures(after, present)]
  const words = verdictOf(differenceOf(from, to, tintBetween(step.state, present)))
  const power = atEqualExposure(step.state, present) ? powerWords(from, to, source.letter) : ''
  return { step: step.name, words: [words, power].filter(Boolean).join('; ') }
}

/** A take was kept, deleted or named: nothing of the set. */
const keepsSet = ({ takes: _, ...before }: Sitting, { takes: __, ...after }: Sitting): boolean =>
  (Object.keys(after) as (keyof typeof after)[]).every((key) => before[key] === after[key])

const atEqualExposure = (...sets: readonly Sitting[]): boolean => sets.every(({ reExpose }) => reExpose === 'powers')

/** Why the meter reads as before: energies, of flashes alone, as stops (log₂). Less than a tenth of a stop isn't shown. */
function powerWords(from: SetFigures, to: SetFigures, letter: string): string {
  if (!from.energyJ || !to.energyJ) return ''
  const stops = Math.log2(to.energyJ / from.energyJ)
  const size = Math.abs(stops).toFixed(1)
  if (Number(size) === 0) return ''
  const unit = size === '1.0' || Number(size) < 1 ? 'stop' : 'stops'
  return `equal exposure: the power of ${letter} followed, ${size} ${unit} ${stops > 0 ? 'more' : 'less'}`
}

/** Where no meter re-exposes, brighter light is a brighter picture. */
const atEqualPower = (...sets: readonly Sitting[]): boolean => sets.every(({ reExpose }) => reExpose === 'nothing')

const seenBy = ({ camera }: Sitting): SeenBy => ({ fNumber: camera.fNumber, raisedStops: 0 })

/** A row of compared takes is one step: it is told as the take in sight against the one before it. */
function stepOf(step: Step<Sitting> | undefined, present: Sitting): Pick<Step<Sitting>, 'name' | 'state'> | undefined {
  if (step?.gesture !== COMPARED) return step
  const shown = takeShown(present)?.name
  const other = readLately().findLast((sitting) => takeShown(sitting)?.name !== shown)
  const against = other && takeShown(other)?.name
  return other && shown && against ? { name: `${shown} against ${against}`, state: other } : undefined
}
