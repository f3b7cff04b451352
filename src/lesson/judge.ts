import type { Caution, Reading } from '../readings'
import type { Answer, Condition, Quantity } from './types'

/** Readings of a state by its name, of the learner's own set by undefined; null: not read yet. */
export type Readings = (set: string | undefined) => readonly Reading[] | null

export interface Verdict {
  readonly met: boolean
  /** What was found: '24 mm', 'loop'. */
  readonly found: string
  /** 'misses by 0.3 stop', or 'met'. */
  readonly words: string
}

/** Cautions as readings whose words are theirs, so that a goal can ask for none of one. */
export const cautionReadings = (cautions: readonly Caution[]): readonly Reading[] =>
  cautions.map(({ id, at, sentence }) => ({
    ...{ id, sentence, text: sentence, value: sentence, unit: '', band: null, sourceId: null },
    place: { name: '', at },
    why: { formula: '', filled: '', source: '' },
  }))
const isCaution = (id: string): boolean => id.startsWith('caution.')

/** A reading that is an aperture: apart, two of them lie stops. */
export const isFNumber = ({ text, unit, value }: Pick<Reading, 'text' | 'unit' | 'value'>): boolean =>
  unit === '' && typeof value === 'number' && text.startsWith('f/')

/** Whether more of the light has to be read before a number of it counts: lengths and angles are there at once, from the set itself. */
export const followsLight = (reading: Pick<Reading, 'text' | 'unit' | 'value'>): boolean =>
  typeof reading.value === 'number' && !['mm', 'cm', 'm', '°'].includes(reading.unit)

/** By how much the first is more, in its unit; f-numbers in stops. null: one of them is no number. */
export function apart(a: Reading, b: Reading): number | null {
  if (typeof a.value !== 'number' || typeof b.value !== 'number') return null
  return isFNumber(a) ? 2 * Math.log2(a.value / b.value) : a.value - b.value
}

/** The first told by the other: '2.7 times'; null: one is no number or nothing, or is counted in steps (stops, degrees, f-numbers). */
export function timesWords(a: Reading, b: Reading): string | null {
  if (typeof a.value !== 'number' || typeof b.value !== 'number' || !(b.value > 0)) return null
  return isFNumber(a) || a.unit === 'stop' || a.unit === '°' ? null : `${(a.value / b.value).toFixed(1)} times`
}

/** '2.0 stops', '45°', '85 %'. */
export function withUnit(text: string, unit: string): string {
  if (unit === '' || text === '–') return text
  if (unit === '°') return `${text}°`
  return `${text} ${unit === 'stop' && Math.abs(Number(text.replace('−', '-'))) !== 1 ? 'stops' : unit}`
}

/** What a quantity is: a number with its unit, a word, or 'nothing'. */
interface Found {
  readonly value: number | string
  readonly unit: string
  /** As the reading tells it, so that one number is rounded one way wherever it stands; null: it is a difference. */
  readonly text: string | null
  readonly asFNumber: boolean
}

/** null: not read yet. */
function find({ set, reading: id, minus }: Quantity, readings: Readings): Found | null {
  const all = readings(set)
  const others = minus === undefined ? undefined : readings(minus)
  if (all === null || others === null) return null
  const first = all.find((reading) => reading.id === id)
  const nothing = { value: 'nothing', unit: '', text: null, asFNumber: false }
  if (!first || first.value === null) return nothing
  const asFNumber = isFNumber(first)
  if (others === undefined) return { value: first.value, unit: first.unit, text: first.text, asFNumber }
  const second = others.find((reading) => reading.id === id)
  const between = second ? apart(first, second) : null
  return between === null
    ? nothing
    : { value: between, unit: asFNumber ? 'stop' : first.unit, text: null, asFNumber: false }
}

/** Decimals that a unit is told with; millimetres under 10 have one. */
const DIGITS: Readonly<Record<string, number>> = { '°': 0, mm: 0, m: 2, cm: 0, '%': 0, J: 0, K: 0 }
/** Bounds are kept to a hair under what is shown, so that '0.3' of 0.3 is met. */
const HAIR = 1e-9

function sized(value: number, unit: string): string {
  const digits = unit === 'mm' && value < 10 ? 1 : (DIGITS[unit] ?? 1)
  const shown = value.toFixed(digits)
  // What is missed is never told as missed by nothing.
  const text = Number(shown) === 0 && value > HAIR ? value.toPrecision(1) : shown
  if (unit === '°') return `${text}°`
  const plural = unit === 'stop' && Number(text) !== 1 ? 'stops' : unit
  return plural === '' ? text : `${text} ${plural}`
}

const told = ({ value, unit, text }: Found): string => {
  if (typeof value === 'string') return value
  return text === null ? `${value < 0 ? '−' : ''}${sized(Math.abs(value), unit)}` : withUnit(text, unit)
}

/** How far it lies outside the bounds, and in which unit. */
function missOf({ value, asFNumber, unit }: Found & { value: number }, { reading, minus, from, to }: Condition) {
  const over = (bound: number) => (asFNumber ? 2 * Math.log2(value / bound) : value - bound)
  const low = from === undefined ? 0 : Math.max(0, -over(from))
  const high = to === undefined ? 0 : Math.max(0, over(to))
  return {
    miss: Math.max(low, high),
    unit: asFNumber ? 'stop' : unit,
    way: wayOf(reading, low > 0, minus !== undefined),
  }
}

/** Which way a reading, or the difference of two, misses its bounds. */
function wayOf(reading: string, isUnder: boolean, isDifference: boolean): string {
  if (reading.endsWith('.azimuthFromLens')) return `too far to camera ${isUnder ? 'left' : 'right'}`
  if (reading.endsWith('.elevation')) return isUnder ? 'too low' : 'too high'
  if (/^edge\..*\.full$/.test(reading) && !isDifference) return isUnder ? 'too narrow' : 'too wide'
  return isUnder ? 'under' : 'over'
}

/** Whether the readings meet a condition, and by how much they miss it; null: they are not read yet. */
export function judge(condition: Condition, readings: Readings): Verdict | null {
  const found = find(condition, readings)
  if (found === null) return null
  const { is, from, to } = condition
  const words = told(found)
  if (is?.some((word) => word.toLowerCase() === String(found.value).toLowerCase()))
    return { met: true, found: words, words: 'met' }
  if (from === undefined && to === undefined)
    return {
      met: false,
      found: words,
      words: isCaution(condition.reading) ? words : `is ${words}, not ${is?.join(' or ')}`,
    }
  if (typeof found.value !== 'number') return { met: false, found: words, words: `is ${words}: there is no number` }
  const { miss, unit, way } = missOf(found as Found & { value: number }, condition)
  if (miss <= HAIR) return { met: true, found: words, words: 'met' }
  return { met: false, found: words, words: `misses by ${sized(miss, unit)} (${way})` }
}

/** All of them; null: not all is read yet. */
export function judgeAll(conditions: readonly Condition[], readings: Readings): readonly Verdict[] | null {
  const verdicts = conditions.map((condition) => judge(condition, readings))
  return verdicts.every((verdict) => verdict !== null) ? verdicts : null
}

/** All quantities by which an answer is judged. */
export const quantitiesOf = (answer: Answer): readonly Quantity[] =>
  answer.kind === 'choice' ? answer.choices.flatMap(({ holds }) => holds) : [answer.of]

/** What a learner gave: the place of a choice, degrees, or a number in the reading's unit. */
export interface Graded {
  readonly right: boolean
  /** What is right, in words: '29 mm', or the choice. */
  readonly answer: string
  /** 'right', or by how much it misses. */
  readonly words: string
}

/** Grades a prediction; null: its readings are not there yet. */
export function grade(answer: Answer, given: number, readings: Readings): Graded | null {
  if (answer.kind === 'choice') return gradeChoice(answer, given, readings)
  const found = find(answer.of, readings)
  if (found === null) return null
  if (typeof found.value !== 'number') return { right: false, answer: found.value, words: `there is ${found.value}` }
  const over = overBy(found as Found & { value: number }, given, answer.kind === 'angle')
  const off = Math.abs(over)
  const right = off <= answer.within + HAIR
  const unit = found.asFNumber ? 'stop' : found.unit
  return {
    right,
    answer: answer.kind === 'angle' ? turnWords(answer.plane, found.value) : told(found),
    words: right
      ? `right, within ${sized(answer.within, unit)}`
      : `off by ${sized(off, unit)}, ${wayOff(answer, over > 0)}`,
  }
}

/** '32° to camera left', '20° under the eyes', 'level'; to a whole degree. */
export function turnWords(plane: 'round' | 'up', degrees: number): string {
  const turn = Math.round(degrees)
  if (turn === 0) return plane === 'round' ? 'at the lens' : 'level'
  const [less, more] = plane === 'round' ? ['to camera left', 'to camera right'] : ['under the eyes', 'over the eyes']
  return `${Math.abs(turn)}° ${turn < 0 ? less : more}`
}

/** By how much the answer is more than what is right; no f-number at all is infinitely under. */
function overBy({ value, asFNumber }: Found & { value: number }, given: number, isTurn: boolean): number {
  if (asFNumber) return given > 0 ? 2 * Math.log2(given / value) : Number.NEGATIVE_INFINITY
  const over = given - value
  return isTurn ? over - 360 * Math.round(over / 360) : over
}

function wayOff(answer: Exclude<Answer, { kind: 'choice' }>, isOver: boolean): string {
  if (answer.kind === 'angle' && answer.plane === 'round') return `too far to camera ${isOver ? 'right' : 'left'}`
  return isOver ? 'too high' : 'too low'
}

function gradeChoice(
  { choices }: Extract<Answer, { kind: 'choice' }>,
  given: number,
  readings: Readings,
): Graded | null {
  const rights = rightChoices(choices, readings)
  if (rights === null) return null
  const right = rights.includes(given)
  return { right, answer: rights.map((i) => choices[i]!.words).join(', or '), words: right ? 'right' : 'not so' }
}

/** Places of the choices that the program finds right; null: not all is read yet. A choice without conditions is right where no other is. */
export function rightChoices(
  choices: Extract<Answer, { kind: 'choice' }>['choices'],
  readings: Readings,
): readonly number[] | null {
  const verdicts = choices.map(({ holds }) => judgeAll(holds, readings))
  if (verdicts.some((verdict) => verdict === null)) return null
  const asked = choices.flatMap(({ holds }, i) => (holds.length > 0 && verdicts[i]!.every(({ met }) => met) ? [i] : []))
  return asked.length > 0 ? asked : choices.flatMap(({ holds }, i) => (holds.length === 0 ? [i] : []))
}

/**
 * '20 to 30 mm', 'at least 0.3 stop', 'loop or Rembrandt', 'within 5° of “near”': what a condition asks for. begun: name of the state
 * that one begins with, told as 'at the start'.
 */
export function askedWords(condition: Condition, reading: Reading | undefined, begun?: string): string {
  const { from, to, is, minus, reading: id } = condition
  if (isCaution(id)) return 'no caution'
  if (from === undefined && to === undefined) return (is ?? []).join(' or ')
  const unit = reading ? (isFNumber(reading) ? 'stop' : reading.unit) : ''
  if (minus !== undefined) return apartWords(condition, begun, (size) => withUnit(`${size}`, unit))
  const asFNumber = reading !== undefined && isFNumber(reading)
  const one = (value: number) => `${asFNumber ? 'f/' : ''}${value < 0 ? '−' : ''}${Math.abs(value)}`
  const tail = (value: number) => (asFNumber ? '' : withUnit(one(value), unit).slice(one(value).length))
  if (from !== undefined && to !== undefined)
    return from === to ? `${one(from)}${tail(from)}` : `${one(from)} to ${one(to)}${tail(to)}`
  if (from !== undefined) return `at least ${one(from)}${tail(from)}`
  return to! < 0 ? `${one(to!)}${tail(to!)} or lower` : `at most ${one(to!)}${tail(to!)}`
}

/** How far from another state it may be, as it is said: more or less, not above or below zero. */
function apartWords(
  { from, to, minus }: Condition,
  begun: string | undefined,
  sized: (size: number) => string,
): string {
  const isBegun = minus === begun
  const than = isBegun ? 'than at the start' : `than in “${minus}”`
  if (from !== undefined && to !== undefined) {
    if (from === -to) return isBegun ? `as at the start, within ${sized(to)}` : `within ${sized(to)} of “${minus}”`
    if (from >= 0) return `${from} to ${sized(to)} more ${than}`
    return to <= 0 ? `${-to} to ${sized(-from)} less ${than}` : `${sized(-from)} less to ${sized(to)} more ${than}`
  }
  const bound = (from ?? to)!
  const isMore = bound === 0 ? from !== undefined : bound > 0
  const most = isMore === (from !== undefined) ? 'at least' : 'at most'
  return `${most} ${sized(Math.abs(bound))} ${isMore ? 'more' : 'less'} ${than}`
}
