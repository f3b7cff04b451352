import { shown } from '../problems'
import type { MeterPlace, Panel, Sitter, Sitting, Source, TestObject } from '../types'

/** The lists of the document whose records have an id. */
export interface Things {
  readonly sitters: Sitter
  readonly sources: Source
  readonly panels: Panel
  readonly objects: TestObject
  readonly meterPlaces: MeterPlace
}
export type ThingList = keyof Things

/** Fields of a record that an edit may change: all but its id. Of a union, one member's fields. */
export type Change<T> = T extends unknown ? Partial<Omit<T, 'id'>> : never

/** The record with that id. Throws where there is none: an edit of a thing that is not there is a bug of the caller. */
export function thingById<L extends ThingList>(sitting: Sitting, list: L, id: string): Things[L] {
  const found = (sitting[list] as readonly Things[L][]).find((thing) => thing.id === id)
  if (!found) throw new Error(`sitting.thingById: no ${list} with id ${shown(id)}`)
  return found
}

/** The sitting with some fields of one record changed; every other record stays the same object. */
export function changeThing<L extends ThingList>(
  sitting: Sitting,
  list: L,
  id: string,
  change: Change<Things[L]>,
): Sitting {
  const before = thingById(sitting, list, id)
  const after = { ...before, ...change }
  const things = (sitting[list] as readonly Things[L][]).map((thing) => (thing === before ? after : thing))
  return { ...sitting, [list]: things }
}

/** The list of the document that holds an id; null: nothing has it. */
export function listOf(sitting: Sitting, id: string): ThingList | null {
  const lists: readonly ThingList[] = ['sitters', 'sources', 'panels', 'objects', 'meterPlaces']
  return lists.find((list) => sitting[list].some((thing) => thing.id === id)) ?? null
}

/** Every id in use. */
const idsOf = (sitting: Sitting): ReadonlySet<string> =>
  new Set(
    [sitting.sitters, sitting.sources, sitting.panels, sitting.objects, sitting.meterPlaces].flatMap((list) =>
      list.map(({ id }) => id),
    ),
  )

/** 'panel', 'panel-2', 'panel-3', …: the first that is free. */
export function freeId(sitting: Sitting, stem: string): string {
  const taken = idsOf(sitting)
  if (!taken.has(stem)) return stem
  let n = 2
  while (taken.has(`${stem}-${n}`)) n++
  return `${stem}-${n}`
}
