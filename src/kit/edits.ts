import { validateModifier } from '../gear'
import { EditRefused, problemsOfSchema, type Source } from '../sitting'
import { problemsOfKit } from './read'
import { kitSchema } from './schema'
import type { Kit, KitCalibration, KitHead, KitList, KitModifier, KitStand } from './types'

export const emptyKit = (): Kit => ({
  format: 'halfshade.kit',
  version: 1,
  title: 'my kit',
  note: '',
  heads: [],
  modifiers: [],
  stands: [],
  calibrations: [],
})

interface Entries {
  readonly heads: KitHead
  readonly modifiers: KitModifier
  readonly stands: KitStand
  readonly calibrations: KitCalibration
}
export interface AddedEntry {
  readonly kit: Kit
  readonly id: string
}

const LISTS: readonly KitList[] = ['heads', 'modifiers', 'stands', 'calibrations']

/** The number at the end of an id of ours; 0: none. */
const numberIn = (id: string): number => Number(/-(\d{1,8})$/.exec(id)?.[1] ?? 0)

/** No id comes back: a sitting that names a removed entry must not find another under its id. */
export function freeId(kit: Kit, stem: string): string {
  const numbers = LISTS.flatMap((list) => kit[list].filter(({ id }) => id.startsWith(`${stem}-`)))
  const n = Math.max(kit.nextNumber ?? 1, ...numbers.map(({ id }) => numberIn(id) + 1))
  return `${stem}-${Math.ceil(n)}`
}

/** Throws EditRefused for what no kit file may hold; else the kit. */
function checked(kit: Kit): Kit {
  const parsed = kitSchema.safeParse(kit)
  const [problem] = parsed.success ? problemsOfKit(kit) : problemsOfSchema(parsed.error, kit, 'K2')
  if (problem) throw new EditRefused(problem)
  return kit
}

function added<L extends KitList>(kit: Kit, list: L, stem: string, entry: Omit<Entries[L], 'id'>): AddedEntry {
  const id = freeId(kit, stem)
  return { kit: checked({ ...kit, [list]: [...kit[list], { id, ...entry }] }), id }
}

export const renameKit = (kit: Kit, title: string): Kit => ({ ...kit, title })

/** A head as it stands in a sitting, or a usual one of 400 J. */
export function addHead(kit: Kit, source?: Source): AddedEntry {
  if (!source)
    return added(kit, 'heads', 'head', {
      name: `head ${kit.heads.length + 1}`,
      energyJ: 400,
      guideNumberM: null,
      lowestStops: -7,
      colourTemperatureK: 5500,
    })
  const { powerStops: _, gelMired: _g, gelColour: _c, ndStops: _n, name, ...facts } = source.head
  return added(kit, 'heads', 'head', { name: name ?? `${facts.energyJ} J head`, ...facts })
}

/** A modifier as it stands in a sitting. */
export const addModifier = (kit: Kit, { modifier, modifierKg }: Source, name: string): AddedEntry =>
  added(kit, 'modifiers', 'modifier', { name, modifier, ...(modifierKg !== undefined && { massKg: modifierKg }) })

/** A medium stand: 2.5 m and 5 kg. Common practice, no source. */
export const addStand = (kit: Kit): AddedEntry =>
  added(kit, 'stands', 'stand', { name: `stand ${kit.stands.length + 1}`, highestM: 2.5, loadKg: 5 })

/**
 * The calibration of a source whose head and modifier are of this kit; an older one of the same pair gives way. Throws EditRefused
 * where it has none, or one of the two is not of this kit.
 */
export function keepCalibration(kit: Kit, { letter, calibration, kit: use }: Source): Kit {
  const [headId, modifierId] = [use?.headId, use?.modifierId]
  if (!calibration || headId === undefined || modifierId === undefined)
    throw new EditRefused({
      rule: 'K7',
      path: `calibration of ${letter}`,
      expected: 'a calibrated source with head and modifier of this kit',
      got: calibration ? 'one of the two is not of the kit' : 'no calibration',
      advice: 'Choose its head and modifier from the kit first, then calibrate it.',
    })
  const others = kit.calibrations.filter((entry) => entry.headId !== headId || entry.modifierId !== modifierId)
  return added({ ...kit, calibrations: others }, 'calibrations', 'calibration', { ...calibration, headId, modifierId })
    .kit
}

/** Changes fields of an entry; one set to undefined is left out. Throws EditRefused for what a kit may not hold. */
export function changeEntry<L extends KitList>(
  kit: Kit,
  list: L,
  id: string,
  change: Partial<Omit<Entries[L], 'id'>>,
): Kit {
  const entries = kit[list] as readonly Entries[L][]
  const changed = entries.map((entry) => (entry.id === id ? without({ ...entry, ...change }) : entry))
  return checked({ ...kit, [list]: changed })
}

const without = <T extends object>(entry: T): T =>
  Object.fromEntries(Object.entries(entry).filter(([, value]) => value !== undefined)) as T

/** Changes some fields of a kit's modifier, such as its open size. */
export function resizeModifier(kit: Kit, id: string, change: Readonly<Record<string, number | string | boolean>>): Kit {
  const { modifier } = kit.modifiers.find((entry) => entry.id === id)!
  const next = { ...modifier, ...change, kind: modifier.kind }
  const [problem] = validateModifier(next, 'modifier')
  if (problem) throw new EditRefused({ rule: 'K4', ...problem })
  return changeEntry(kit, 'modifiers', id, { modifier: next })
}

/** With the calibrations that name it. Its number is not given again. */
export function removeEntry(kit: Kit, id: string): Kit {
  const lists = LISTS.map((list) => [list, (kit[list] as readonly { id: string }[]).filter((entry) => entry.id !== id)])
  const nextNumber = Math.max(kit.nextNumber ?? 1, numberIn(id) + 1)
  const left: Kit = { ...kit, ...Object.fromEntries(lists), ...(nextNumber > 1 && { nextNumber }) }
  return {
    ...left,
    calibrations: left.calibrations.filter(({ headId, modifierId }) => headId !== id && modifierId !== id),
  }
}
