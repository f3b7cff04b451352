import {
  EditRefused,
  type Head,
  headFacts,
  type KitUse,
  problemSentence,
  problemsOfGels,
  type Sitting,
  type Source,
  thingById,
} from '../sitting'
import type { Kit, KitList } from './types'

/** Copies of a kit's entries in a sitting, so that its file gives the same numbers without the kit. */

const changed = (sitting: Sitting, after: Source): Sitting => ({
  ...sitting,
  sources: sitting.sources.map((source) => (source.id === after.id ? after : source)),
})

function entryOf<L extends KitList>(kit: Kit, list: L, id: string): Kit[L][number] {
  const entries = kit[list] as readonly Kit[L][number][]
  const found = entries.find((entry) => entry.id === id)
  if (found) return found
  throw new EditRefused({
    rule: 'K7',
    path: list,
    expected: `one of ${entries.map((entry) => entry.id).join(', ') || 'nothing, as there is none'}`,
    got: id,
    advice: 'Choose another entry, or open the kit that has it.',
  })
}

/** The pair's own calibration in the kit; else what the same pair has already: another pair's does not hold. */
function calibrationOf(kit: Kit, { headId, modifierId }: KitUse, before: Source): Pick<Source, 'calibration'> {
  const found = kit.calibrations.find((entry) => entry.headId === headId && entry.modifierId === modifierId)
  const same = before.kit?.headId === headId && before.kit?.modifierId === modifierId
  if (!found) return { calibration: same ? before.calibration : undefined }
  const { id: _, headId: _h, modifierId: _m, ...calibration } = found
  return { calibration }
}

/** What a source's head has besides the facts of its lamp: gels, ND, and fields that are not known (S3). */
const besideFacts = (head: Head): Partial<Head> =>
  Object.fromEntries(Object.entries(head).filter(([key]) => key !== 'name' && !(key in headFacts)))

/**
 * Puts a head of the kit on a source. Its power is kept as far as the dial reaches; gels and ND stay before it. Throws EditRefused
 * where those gels do not go with its lamp (S19).
 */
export function takeHead(sitting: Sitting, sourceId: string, kit: Kit, headId: string): Sitting {
  const source = thingById(sitting, 'sources', sourceId)
  const { id: _, ...facts } = entryOf(kit, 'heads', headId)
  const head: Head = {
    ...besideFacts(source.head),
    ...facts,
    powerStops: Math.max(facts.lowestStops, source.head.powerStops),
  }
  const [problem] = problemsOfGels(head, 'head')
  if (problem) throw new EditRefused(problem)
  const use = { ...source.kit, headId }
  return changed(sitting, { ...source, head, kit: use, ...calibrationOf(kit, use, source) })
}

export function takeModifier(sitting: Sitting, sourceId: string, kit: Kit, modifierId: string): Sitting {
  const source = thingById(sitting, 'sources', sourceId)
  const { modifier, massKg } = entryOf(kit, 'modifiers', modifierId)
  const use = { ...source.kit, modifierId }
  return changed(sitting, { ...source, modifier, modifierKg: massKg, kit: use, ...calibrationOf(kit, use, source) })
}

/** null: no stand is named, and none is judged. */
export function takeStand(sitting: Sitting, sourceId: string, kit: Kit, standId: string | null): Sitting {
  const source = thingById(sitting, 'sources', sourceId)
  const { standId: _, ...rest } = source.kit ?? {}
  if (standId === null)
    return changed(sitting, { ...source, stand: undefined, kit: Object.keys(rest).length > 0 ? rest : undefined })
  const { id: _i, ...stand } = entryOf(kit, 'stands', standId)
  return changed(sitting, { ...source, stand, kit: { ...rest, standId } })
}

export interface Updated {
  readonly sitting: Sitting
  /** What was copied anew, in words: 'A: head "400 J head"'. */
  readonly from: readonly string[]
  /** What the sitting names and this kit does not have: 'B: stand stand-2'. */
  readonly missing: readonly string[]
  /** What does not go with the rest of its source and stays as it was, and why: 'A: head "400 J head". head.gelMired: …'. */
  readonly refused: readonly string[]
}

/** Every copy in a sitting made anew from the kit; what the kit does not have, or the source cannot take, stays as it was copied. */
export function updateFromKit(sitting: Sitting, kit: Kit): Updated {
  let after = sitting
  const [from, missing, refused]: [string[], string[], string[]] = [[], [], []]
  for (const { id, letter, kit: use } of sitting.sources)
    for (const [word, list, entryId, take] of [
      ['head', 'heads', use?.headId, takeHead],
      ['modifier', 'modifiers', use?.modifierId, takeModifier],
      ['stand', 'stands', use?.standId, takeStand],
    ] as const) {
      if (entryId === undefined) continue
      const entry = kit[list].find((other) => other.id === entryId)
      if (!entry) {
        missing.push(`${letter}: ${word} ${entryId}`)
        continue
      }
      const named = `${letter}: ${word} "${entry.name}"`
      try {
        after = take(after, id, kit, entryId)
        from.push(named)
      } catch (error) {
        if (!(error instanceof EditRefused)) throw error
        refused.push(`${named}. ${problemSentence(error.problem)}`)
      }
    }
  return { sitting: after, from, missing, refused }
}
