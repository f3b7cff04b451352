import { freeId } from './edits'
import type { Kit, KitList } from './types'

const LISTS: readonly KitList[] = ['heads', 'modifiers', 'stands', 'calibrations']

interface Entry {
  readonly id: string
}

const same = (a: unknown, b: unknown): boolean => a === b || JSON.stringify(a) === JSON.stringify(b)

/**
 * What was changed from one state of a kit to another, laid over a third, entry by entry: what is there and was not touched stays. An
 * entry that was changed both ways is as in `to`; two that were added under one id are both kept, the one of `to` under the next free id.
 */
export function changesOver(there: Kit, from: Kit, to: Kit): Kit {
  if (same(there, from)) return to
  const fields = Object.fromEntries(
    Object.keys({ ...from, ...to })
      .filter((key) => !LISTS.some((list) => list === key) && !same(from[key as keyof Kit], to[key as keyof Kit]))
      .map((key) => [key, to[key as keyof Kit]]),
  )
  const nextNumber = Math.max(...[there, to].map((kit) => kit.nextNumber ?? 1))
  const start: Kit = { ...there, ...fields, ...(nextNumber > 1 && { nextNumber }) }
  const moved = new Map<string, string>()
  const merged = LISTS.reduce((kit, list) => withList(kit, list, from, to, moved), start)
  return withCalibrations(merged)
}

/** moved: ids of entries of `to` that had to give way, for the calibrations that name them. */
function withList(kit: Kit, list: KitList, from: Kit, to: Kit, moved: Map<string, string>): Kit {
  const of = (one: Kit): readonly Entry[] => one[list]
  const find = (entries: readonly Entry[], id: string) => entries.find((entry) => entry.id === id)
  const gone = of(from).filter(({ id }) => !find(of(to), id))
  const kept = of(kit).filter((entry) => !find(gone, entry.id))
  const touched = of(to).filter((entry) => !same(entry, find(of(from), entry.id)))
  let now: Kit = { ...kit, [list]: kept }
  for (const entry of touched) {
    const known = find(of(now), entry.id)
    if (same(known, entry)) continue
    const isTwin = known !== undefined && !find(of(from), entry.id)
    const id = isTwin ? freeId(now, entry.id.replace(/-\d+$/, '')) : entry.id
    if (isTwin) moved.set(entry.id, id)
    const mine = renamed({ ...entry, id }, moved)
    const entries = known && !isTwin ? of(now).map((other) => (other === known ? mine : other)) : [...of(now), mine]
    now = { ...now, [list]: entries }
  }
  return now
}

/** A calibration of an entry that got another id names it by that. */
function renamed(entry: Entry, moved: ReadonlyMap<string, string>): Entry {
  const named = ['headId', 'modifierId'].flatMap((field) => {
    const id = moved.get(String((entry as unknown as Readonly<Record<string, unknown>>)[field]))
    return id === undefined ? [] : [[field, id]]
  })
  return named.length === 0 ? entry : { ...entry, ...Object.fromEntries(named) }
}

/** A calibration goes with its head or modifier; of two of one pair the later stays. */
function withCalibrations(kit: Kit): Kit {
  const has = (list: 'heads' | 'modifiers', wanted: string) => kit[list].some(({ id }) => id === wanted)
  return {
    ...kit,
    calibrations: kit.calibrations.filter(
      ({ headId, modifierId }, i) =>
        has('heads', headId) &&
        has('modifiers', modifierId) &&
        !kit.calibrations.slice(i + 1).some((later) => later.headId === headId && later.modifierId === modifierId),
    ),
  }
}
