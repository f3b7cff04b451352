import {
  fNumberFromLuminousExposure,
  luminousExposureFromFNumber,
  ratioFromStops,
  stopsBetween,
} from '../../photometry'
import type { Sitting } from '../../sitting'
import type { Stage } from '../stage'
import { dialOf, dialStop, figure, lengthPhrase, signed } from '../words'
import { applyEdits } from './apply'
import { atDials, type Beyond, beyond, type Dials, dialsNow, dialWords, raised, setDials } from './dials'
import { type BySource, dialIds, faceLights, stageFor, total } from './lights'
import { type Found, tapeFor } from './tape'
import type { Answer, SolveEdit, SolveInput, Way } from './types'

export const refusal = (sentence: string, others: readonly Way[] = []): Answer => ({
  way: null,
  sentence,
  powers: [],
  others,
})

/** What lights add up to with other dials than the shown ones. */
export const withDials = (stage: Stage, lights: BySource, dials: Dials): number => total(atDials(stage, lights, dials))

/** Stops by which all dials go up together until the near cheek reads an f-number; null: daylight alone gives as much. */
export function stopsUntil(stage: Stage, lights: BySource, dials: Dials, fNumber: number): number | null {
  const target = luminousExposureFromFNumber(fNumber, stage.sitting.camera.iso)
  const then = atDials(stage, lights, dials)
  const dialled = [...dials.keys()].reduce((sum, id) => sum + (then.get(id) ?? 0), 0)
  const daylight = total(then) - dialled
  return dialled > 0 && target > daylight ? stopsBetween(dialled, target - daylight) : null
}

/** As a meter shows it. */
export const shownAs = ({ sitting }: Stage, h: number): number => fNumberFromLuminousExposure(h, sitting.camera.iso)

/** An f-number at the near cheek by power, the sources keeping their relation: exact, as light is linear in power. */
export function solveFNumber(input: SolveInput, stage: Stage, fNumber: number): Answer {
  const ids = dialIds(stage)
  const lights = faceLights(stage)
  const dialled = ids.reduce((sum, id) => sum + (lights.get(id) ?? 0), 0)
  const daylight = total(lights) - dialled
  if (!(total(lights) > 0)) return refusal('no light reaches the near cheek: no power gives an f-number.')
  if (!(dialled > 0))
    return refusal(
      `only light without a dial reaches the near cheek, ${dialStop(shownAs(stage, daylight))}: change shutter or ISO.`,
    )
  const stops = stopsUntil(stage, lights, dialsNow(stage), fNumber)
  if (stops === null)
    return refusal(
      `daylight alone gives ${dialStop(shownAs(stage, daylight))}: for ${dialStop(fNumber)} take a shorter shutter, a lower ISO, or ND on the lens.`,
    )
  const wanted = raised(dialsNow(stage), stops, ids)
  const [worst] = beyond(stage, wanted)
  if (worst) return outOfReach(input, stage, { fNumber, wanted, worst, lights })
  return { ...reached(stage, lights, wanted, fNumber), others: [] }
}

function reached(stage: Stage, lights: BySource, wanted: Dials, fNumber: number): Omit<Answer, 'others'> {
  const { edits, dials } = setDials(stage, wanted)
  const promised = shownAs(stage, withDials(stage, lights, dials))
  const off = 2 * Math.log2(promised / fNumber)
  const rest = Math.abs(off) > REST ? ` The steps of the dials leave ${signed(off, 2)} stop.` : ''
  const set = setTo(stage, fNumber, promised)
  return {
    way: { words: `${dialStop(fNumber)} by power`, edits: [camera(set), ...edits], promised },
    sentence: `${dialWords(stage, dials).join('; ')} gives ${dialStop(fNumber)} at the near cheek.${rest}${set === fNumber ? '' : goesWith(set)}`,
    powers: dialWords(stage, dials),
  }
}

const camera = (fNumber: number): SolveEdit => ({ kind: 'camera', fNumber })

/** What the steps of dials leave and nobody is told of, stops. */
const REST = 0.02

/**
 * The camera's f-number with dials on their steps: where powers give way, what these dials give, or re-exposure would take them off
 * their steps.
 */
export const setTo = ({ sitting }: Stage, asked: number, gives: number): number =>
  sitting.reExpose === 'powers' && Math.abs(2 * Math.log2(gives / asked)) > REST ? gives : asked

export const goesWith = (fNumber: number): string => ` The camera goes to f/${figure(fNumber, 1)} with them.`

interface Missed {
  readonly fNumber: number
  readonly wanted: Dials
  readonly worst: Beyond
  readonly lights: BySource
}

/** Too strong or too weak: what the end of the dial gives, and what else helps. */
function outOfReach(input: SolveInput, stage: Stage, { fNumber, wanted, worst, lights }: Missed): Answer {
  const { source, by } = worst
  const atEnd = raised(wanted, -by, [...wanted.keys()])
  const [clash] = beyond(stage, atEnd)
  if (clash) return apart(worst, clash, fNumber)
  const gives = shownAs(stage, withDials(stage, lights, setDials(stage, atEnd).dials))
  const others = [
    ...moved(input, stage, atEnd, fNumber),
    ...(by < 0 ? [behindNd(stage, lights, wanted, -by, fNumber)] : [faster(stage, lights, wanted, by, fNumber)]).flat(),
  ]
  const place = source.id === stage.key?.id ? tapeWords(stage) : ''
  const end =
    by < 0
      ? `${source.letter} at its lowest, ${dialOf(source.head, source.head.lowestStops)},`
      : `${source.letter} at full`
  const remedies = others.map(({ words }) => words)
  const rest = by < 0 ? 'stop down' : 'take a larger head'
  return refusal(
    `too ${by < 0 ? 'strong' : 'weak'}: ${end} ${by < 0 ? 'still gives' : 'gives'} ${dialStop(gives)}${place}; for ${dialStop(fNumber)} ${[...remedies, rest].join(', or ')}.`,
    others,
  )
}

/** Two dials whose ends lie nearer each other than the sources' relation. */
const apart = (worst: Beyond, clash: Beyond, fNumber: number): Answer => {
  const [weak, strong] = worst.by > 0 ? [worst, clash] : [clash, worst]
  return refusal(
    `for ${dialStop(fNumber)} ${weak.source.letter} would go over full, and with it at full ${strong.source.letter} under its lowest: the dials do not hold this relation. Move one of the two, or put ND on ${strong.source.letter}.`,
  )
}

const tapeWords = (stage: Stage): string => {
  const tape = stage.key && !stage.key.remote ? tapeOf(stage) : null
  return tape === null ? '' : ` at ${lengthPhrase(tape, 'metres')}`
}

const tapeOf = (stage: Stage): number => tapeFor(stage).tapeM

/** A source moved so that the f-number is had with these dials; nothing where no place on its line gives it. */
export function moved(
  input: SolveInput,
  stage: Stage,
  dials: Dials,
  fNumber: number,
  id = stage.key?.id ?? '',
): readonly Way[] {
  const source = stage.scene.rig.sources.find((other) => other.id === id)
  if (!source || source.remote || !dialIds(stage).includes(id)) return []
  const edits = [camera(fNumber), ...setDials(stage, dials).edits]
  const from: Sitting = { ...applyEdits(stage.sitting, edits), reExpose: 'nothing' }
  const found = alongLine(input, from, id, fNumber)
  if (!found) return []
  const move: SolveEdit = { kind: 'move', sourceId: id, centreM: found.centreM }
  const words = `move ${source.letter} to about ${lengthPhrase(found.tapeM, 'metres')}`
  return [{ words, edits: [...edits, move], promised: found.fNumber }]
}

/** Neutral density in whole stops on every head, and the dials up by what it takes too much. */
function behindNd(stage: Stage, lights: BySource, wanted: Dials, missing: number, fNumber: number): readonly Way[] {
  const nd = Math.ceil(missing - 1e-6)
  const dials = raised(wanted, nd, [...wanted.keys()])
  if (beyond(stage, dials).length > 0) return []
  const set = setDials(stage, dials)
  const before = raised(set.dials, -nd, [...set.dials.keys()])
  const filters = stage.sitting.sources.flatMap(({ id, head }): SolveEdit[] =>
    set.dials.has(id) ? [{ kind: 'nd', sourceId: id, ndStops: (head.ndStops ?? 0) + nd }] : [],
  )
  if (filters.some((edit) => edit.kind === 'nd' && edit.ndStops > 13)) return []
  const promised = shownAs(stage, withDials(stage, lights, before))
  const [only, ...more] = stage.sitting.sources.filter(({ id }) => set.dials.has(id))
  return [
    {
      words: `put ${nd} ${nd === 1 ? 'stop' : 'stops'} of ND on ${more.length > 0 ? 'every head' : only!.letter}`,
      edits: [camera(setTo(stage, fNumber, promised)), ...filters, ...set.edits],
      promised,
    },
  ]
}

/** A faster ISO in whole stops, and the dials down by what it takes too much. Only where nothing burns on without a dial. */
function faster(stage: Stage, lights: BySource, wanted: Dials, missing: number, fNumber: number): readonly Way[] {
  const up = Math.ceil(missing - 1e-6)
  const dials = raised(wanted, -up, [...wanted.keys()])
  if (beyond(stage, dials).length > 0 || lights.size > dials.size) return []
  const set = setDials(stage, dials)
  const iso = stage.sitting.camera.iso * ratioFromStops(up)
  if (iso > 409600) return []
  const promised = shownAs(stage, withDials(stage, lights, set.dials)) * Math.sqrt(ratioFromStops(up))
  return [
    {
      words: `set ISO ${figure(iso)}`,
      edits: [{ kind: 'camera', fNumber: setTo(stage, fNumber, promised), iso }, ...set.edits],
      promised,
    },
  ]
}

/** How far out on its line a source gives the f-number; powers as they are. */
function alongLine(input: SolveInput, sitting: Sitting, sourceId: string, fNumber: number): Found | null {
  const stageOfMoved = (set: Sitting) => stageFor(input, set, input.again(set))
  return tapeFor(stageOfMoved(sitting), sourceId).search(fNumber, (set) => {
    const stage = stageOfMoved(set)
    return shownAs(stage, total(faceLights(stage)))
  })
}
