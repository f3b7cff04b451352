import { modifierKind } from '../../gear'
import { ratioFromStops } from '../../photometry'
import type { Source } from '../../sitting'
import type { Stage } from '../stage'
import { dialOf, figure } from '../words'
import { type BySource, dialIds } from './lights'
import type { SolveEdit } from './types'

/** Power of every source that is on, in stops under full, by id. */
export type Dials = ReadonlyMap<string, number>

/** As shown: what re-exposure makes of the document's powers. */
export function dialsNow(stage: Stage): Dials {
  const ids = dialIds(stage)
  const dialled = stage.sitting.sources.filter(({ id }) => ids.includes(id))
  return new Map(dialled.map(({ id, head }) => [id, head.powerStops + stage.exposure.factorStops] as const))
}

/** Lights with other dials than the shown ones; what has no dial stays. */
export function atDials(stage: Stage, lights: BySource, dials: Dials): BySource {
  const now = dialsNow(stage)
  const factor = (id: string): number => {
    const [before, after] = [now.get(id), dials.get(id)]
    return before === undefined || after === undefined ? 1 : ratioFromStops(after - before)
  }
  return new Map([...lights].map(([id, h]) => [id, h * factor(id)] as const))
}

export const raised = (dials: Dials, stops: number, ids: readonly string[]): Dials =>
  new Map([...dials].map(([id, dial]) => [id, ids.includes(id) ? dial + stops : dial] as const))

/** Against the last digit of a sum of stops. */
const EASE = 1e-6

/** The lowest that a dial can be set to; of one with steps, its lowest step. */
const lowestOf = ({ head: { lowestStops, stepStops } }: Source): number =>
  stepStops === undefined ? lowestStops : Math.ceil(lowestStops / stepStops - EASE) * stepStops

/** On the nearest step of a dial that has steps. One that does not go so far (`beyond`) is to be refused before. */
export function onStep(source: Source, dial: number): number {
  const { stepStops } = source.head
  const stepped = stepStops === undefined ? dial : Math.round(dial / stepStops) * stepStops
  return Math.min(0, Math.max(lowestOf(source), stepped))
}

export interface Beyond {
  readonly source: Source
  /** Stops by which the dial does not go so far: over its end is positive. */
  readonly by: number
}

/** Sources whose dial does not reach, the worst first; half a step is reached by rounding. */
export function beyond({ sitting }: Stage, dials: Dials): readonly Beyond[] {
  return sitting.sources
    .flatMap((source) => {
      const dial = dials.get(source.id)
      if (dial === undefined) return []
      const slack = (source.head.stepStops ?? 0) / 2 + EASE
      const lowest = lowestOf(source)
      const by = dial > slack ? dial : dial < lowest - slack ? dial - lowest : 0
      return by === 0 ? [] : [{ source, by }]
    })
    .sort((a, b) => Math.abs(b.by) - Math.abs(a.by))
}

/** The edits that set these dials, on their steps, and what becomes of each source's light by that, in stops. */
export function setDials(
  { sitting }: Stage,
  dials: Dials,
): { readonly edits: readonly SolveEdit[]; readonly dials: Dials } {
  const set = new Map(
    sitting.sources.flatMap((source) => {
      const dial = dials.get(source.id)
      return dial === undefined ? [] : [[source.id, onStep(source, dial)] as const]
    }),
  )
  return { dials: set, edits: [...set].map(([sourceId, powerStops]) => ({ kind: 'power', sourceId, powerStops })) }
}

/** 'A 1/8 − 0.1, 47 J'; of what burns on, a share of its full light. */
export const dialWords = ({ sitting }: Stage, dials: Dials): readonly string[] =>
  sitting.sources.flatMap(({ id, letter, head, modifier }) => {
    const dial = dials.get(id)
    if (dial === undefined) return []
    const joules = head.energyJ * ratioFromStops(dial)
    const amount = modifierKind(modifier.kind).burnsOn
      ? `${figure(100 * ratioFromStops(dial))} %`
      : `${figure(joules, joules < 10 ? 1 : 0)} J`
    return [head.dialStyle === 'joules' ? `${letter} ${amount}` : `${letter} ${dialOf(head, dial)}, ${amount}`]
  })
