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
import { COMPARED, takeShown, WAYS_TO_COMPARE } from './takes/take'

export interface Changed {
  /** The step, by its name. */
  readonly step: string
  /** What is to be seen of it, or that nothing is. */
  readonly words: string
  /** Where the power followed at equal exposure: 'A 1.6 stops less'; '': it did not. */
  readonly power: string
}

/**
 * What is told of, with the set that it is told against: the last step, or as many as were gone at once; negative: the steps that were
 * just taken back; 0: nothing is told any more.
 */
export function stepTold({ past, present, future }: History<Sitting>, went = 1): StepTold | undefined {
  if (went < 0) {
    const last = future[-went - 1]
    return (
      last && {
        name: `undone: ${went === -1 ? last.name : `${-went} steps${withTakes(last.state, present)}`}`,
        state: last.state,
      }
    )
  }
  if (went === 0) return undefined
  if (went === 1) return stepOf(past.at(-1), present)
  const first = past.at(-went)
  return first && { name: `${went} steps again`, state: first.state }
}

/**
 * What it changed in the light of its source, or of the first one that is on; null: there was no step, or the set before it or after
 * it has not been read to the end.
 */
export function lastChange(history: History<Sitting>, selected: string | null, went = 1): Changed | null {
  const { present } = history
  const step = stepTold(history, went)
  const [before, after] = [step && settledReadings(step.state), settledReadings(present)]
  const { sources } = present
  if (step && keepsSet(step.state, present))
    return { step: step.name, words: ofTakes(step.state.takes.length, present.takes.length), power: '' }
  const source = sources.find(({ id, on }) => on && id === selected) ?? sources.find(({ on }) => on)
  if (!step || !before || !after) return null
  if (!source) return { step: step.name, words: 'no source is on', power: '' }
  const figures = (readings: readonly Reading[], sitting: Sitting) =>
    setFigures(readings, source.letter, atEqualPower(step.state, present) ? seenBy(sitting) : null)
  const [from, to] = [figures(before, step.state), figures(after, present)]
  const words = verdictOf(differenceOf(from, to, tintBetween(step.state, present)))
  const power = atEqualExposure(step.state, present) ? powerWords(from, to) : ''
  const followed = power && `equal exposure: the power of ${source.letter} followed, ${power}`
  return {
    step: step.name,
    words: [words, followed].filter(Boolean).join('; '),
    power: power && `${source.letter} ${power}`,
  }
}

/** A take was kept, deleted or named: nothing of the set. */
const keepsSet = ({ takes: _, ...before }: Sitting, { takes: __, ...after }: Sitting): boolean =>
  (Object.keys(after) as (keyof typeof after)[]).every((key) => before[key] === after[key])

/** What is told when only the number of takes has changed: what can be done with them, where there is more to do than before. */
function ofTakes(before: number, now: number): string {
  if (now <= before) return 'nothing in the set has changed'
  return now === 1 ? 'once the set is changed, ‹compare› beside it shows both' : WAYS_TO_COMPARE
}

const atEqualExposure = (...sets: readonly Sitting[]): boolean => sets.every(({ reExpose }) => reExpose === 'powers')

/** Why the meter reads as before: energies, of flashes alone, as stops (log₂). Less than a tenth of a stop isn't shown. */
function powerWords(from: SetFigures, to: SetFigures): string {
  if (!from.energyJ || !to.energyJ) return ''
  const stops = Math.log2(to.energyJ / from.energyJ)
  const size = Math.abs(stops).toFixed(1)
  if (Number(size) === 0) return ''
  const unit = size === '1.0' || Number(size) < 1 ? 'stop' : 'stops'
  return `${size} ${unit} ${stops > 0 ? 'more' : 'less'}`
}

/** Where no meter re-exposes, brighter light is a brighter picture. */
const atEqualPower = (...sets: readonly Sitting[]): boolean => sets.every(({ reExpose }) => reExpose === 'nothing')

const seenBy = ({ camera }: Sitting): SeenBy => ({ fNumber: camera.fNumber, raisedStops: 0 })

/** Takes that went with several steps are named, as nobody sees them go. */
function withTakes({ takes }: Sitting, present: Sitting): string {
  const gone = takes.flatMap(({ name }) => (present.takes.some((take) => take.name === name) ? [] : [name]))
  return gone.length === 0 ? '' : `, ${gone.join(' and ')} among them`
}

type StepTold = Pick<Step<Sitting>, 'name' | 'state'>

/** A row of compared takes is one step: it is told as the take in sight against the one before it. */
function stepOf(step: Step<Sitting> | undefined, present: Sitting): StepTold | undefined {
  if (step?.gesture !== COMPARED) return step
  const shown = takeShown(present)?.name
  const other = readLately().findLast((sitting) => takeShown(sitting)?.name !== shown)
  const against = other && takeShown(other)?.name
  return other && shown && against ? { name: `${shown} against ${against}`, state: other } : undefined
}
