import { modifierKind } from '../gear'
import { keyOf } from '../rig'
import { moveSource, type Sitting, setCamera, setSitter } from '../sitting'
import { addScaled, normalize, subtract } from '../space'
import type { IndirectStore } from './light-table'
import { OFF_DEG, OFF_M } from './off'
import type { SolveScene } from './solve'
import { takeReadings } from './take-readings'
import type { Reading } from './types'
import { shortPhrase, signed, type Units } from './words'

/** Of a head in the document. */
const MOST_TURN_DEG = 90

/** What of the set is not as planned: the key 10 cm nearer or farther, the head turned 10°, the sitter 10 cm taller. */
export const OFFS = ['nearer', 'farther', 'right', 'left', 'taller'] as const
export type Off = (typeof OFFS)[number]

/** By how much a number changes, in its own unit; f-numbers, ratios and powers in stops. null: it is a number only before or after. */
export type Shifts = Readonly<Partial<Record<Off, number | null>>>
export type ShiftsById = Readonly<Record<string, Shifts>>

export interface MovedInput {
  readonly sitting: Sitting
  readonly exposure: { readonly fNumber: number; readonly perSourceStops: Readonly<Record<string, number>> }
  /** Bounced light stays as it was traced in the set as planned. */
  readonly indirect: IndirectStore
  again(sitting: Sitting): SolveScene
}

/**
 * Every reading taken again in each set that is a little off, lamps and camera left as they were set for the planned one. One set a
 * step; the scene of a step is done with when the next begins.
 */
export function* movedSteps(input: MovedInput): Generator<undefined, ShiftsById> {
  const set = held(input)
  const numbers = (sitting: Sitting) =>
    takeReadings({ sitting, ...input.again(sitting), indirect: input.indirect }).readings
  const before = numbers(set)
  const shifts: Record<string, Partial<Record<Off, number | null>>> = {}
  for (const off of OFFS) {
    yield
    const moved = offSet(set, off, input)
    if (!moved) continue
    const after = new Map(numbers(moved).map((reading) => [reading.id, reading]))
    for (const reading of before) {
      if (typeof reading.value !== 'number' || reading.id.startsWith('sensitivity.')) continue
      shifts[reading.id] = { ...shifts[reading.id], [off]: shiftOf(reading, after.get(reading.id)) }
    }
  }
  return shifts
}

/** As metered and set for the planned set: nothing gives way any more. */
function held({ sitting, exposure }: MovedInput): Sitting {
  const sources = sitting.sources.map((source) => ({
    ...source,
    head: { ...source.head, powerStops: exposure.perSourceStops[source.id] ?? source.head.powerStops },
  }))
  return setCamera({ ...sitting, sources, reExpose: 'nothing' }, { fNumber: exposure.fNumber })
}

/** null: the set cannot be so, or it would change nothing. */
function offSet(sitting: Sitting, off: Off, { again }: MovedInput): Sitting | null {
  const [first] = sitting.sitters
  if (off === 'taller') return setSitter(sitting, first!.id, { eyeHeightM: first!.eyeHeightM + OFF_M })
  if (off === 'left' || off === 'right') {
    const headTurnDeg = first!.headTurnDeg + (off === 'right' ? OFF_DEG : -OFF_DEG)
    return Math.abs(headTurnDeg) > MOST_TURN_DEG ? null : setSitter(sitting, first!.id, { headTurnDeg })
  }
  const { rig } = again(sitting)
  const key = keyOf(rig)
  if (!key || key.remote || isOnCamera(sitting, key.id)) return null
  const way = normalize(subtract(rig.figures[0]!.posed.eyeMidpoint, key.frame.origin))
  return moveSource(sitting, key.id, addScaled(key.frame.origin, way, off === 'nearer' ? OFF_M : -OFF_M))
}

/** It goes where the camera goes. */
const isOnCamera = ({ sources }: Sitting, sourceId: string): boolean =>
  sources.some(({ id, modifier }) => id === sourceId && modifierKind(modifier.kind).onCamera !== undefined)

const inStops = ({ id, unit }: Reading): boolean => unit === '' || unit === ':1' || /\.power$/.test(id)

/** An f-number goes as the root of its light. */
function shiftOf(before: Reading, after: Reading | undefined): number | null {
  const [a, b] = [before.value, after?.value]
  if (typeof a !== 'number' || typeof b !== 'number') return null
  if (!inStops(before)) return b - a
  return a > 0 && b > 0 ? (before.unit === '' ? 2 : 1) * Math.log2(b / a) : null
}

/** 'A 10 cm nearer +0.2, farther −0.2; head turned 10° …': what moves it, in its unit; null: nothing is known of it. */
export function shiftWords(reading: Reading, shifts: Shifts | undefined, letter: string, units: Units): string | null {
  if (!shifts) return null
  if (Object.values(shifts).every((shift) => shift !== null && Number(shift.toFixed(digits(reading))) === 0))
    return `nothing that shows, by a hand’s breadth, ${OFF_DEG}° or a taller sitter`
  const unit = inStops(reading) ? 'stop' : reading.unit
  const hand = shortPhrase(OFF_M, units)
  const told = (off: Off): string | null => {
    const shift = shifts[off]
    return shift === undefined ? null : shift === null ? 'it is gone' : signed(shift, digits(reading))
  }
  const pair = (words: string, one: Off, oneWord: string, other: Off, otherWord: string): string[] => {
    const [a, b] = [told(one), told(other)]
    if (a === null && b === null) return []
    if (a === null || b === null) return [`${words} ${a === null ? otherWord : oneWord} ${a ?? b}`]
    return [`${words} ${oneWord} ${a}, ${otherWord} ${b}`]
  }
  const tall = told('taller')
  const parts = [
    ...pair(`${letter} ${hand}`, 'nearer', 'nearer', 'farther', 'farther'),
    ...pair(`head ${OFF_DEG}° to camera`, 'right', 'right', 'left', 'left'),
    ...(tall === null ? [] : [`sitter ${hand} taller ${tall}`]),
  ]
  return parts.length === 0 ? null : `${parts.join('; ')}${unit ? ` (${unit})` : ''}`
}

/** As finely as the reading itself is written. */
const digits = (reading: Reading): number => (inStops(reading) ? 1 : (/\.(\d+)/.exec(reading.text)?.[1]?.length ?? 0))
