import { validateModifier } from '../gear'
import { type FileKind, type Migration, migrate, type Problem, parseText, problemsOfSchema, shown } from '../sitting'
import { kitSchema } from './schema'
import type { Kit } from './types'

export type KitResult = { readonly kit: Kit } | { readonly problems: readonly Problem[] }

const KIT: FileKind = { format: 'halfshade.kit', what: 'kit', rules: { format: 'K1', newer: 'K5' } }

/** Ordered and without gaps, as those of a sitting. Version 1 is the first, so there is none yet. */
const KIT_MIGRATIONS: readonly Migration[] = []

/** A kit from the text of a file or from a parsed value, raised to the current version; or every problem found. Never throws. */
export function readKit(source: unknown, steps: readonly Migration[] = KIT_MIGRATIONS): KitResult {
  const parsed = typeof source === 'string' ? parseText(source, 'K6', 'kit') : { value: source }
  if ('problem' in parsed) return { problems: [parsed.problem] }
  const raised = migrate(parsed.value, steps, KIT)
  if ('problem' in raised) return { problems: [raised.problem] }
  const result = kitSchema.safeParse(raised.document)
  if (!result.success) return { problems: problemsOfSchema(result.error, raised.document, 'K2') }
  const kit = result.data as unknown as Kit
  const problems = problemsOfKit(kit)
  return problems.length > 0 ? { problems } : { kit }
}

/** Whether a parsed file says that it is a kit. */
export const isKit = (text: string): boolean => /"format"\s*:\s*"halfshade\.kit"/.test(text)

const LISTS = ['heads', 'modifiers', 'stands', 'calibrations'] as const

/** What a schema cannot say. */
export function problemsOfKit(kit: Kit): readonly Problem[] {
  return [
    ...repeatedIds(kit),
    ...kit.heads.flatMap(({ dialStyle, dialTop }, i): Problem[] =>
      dialTop === undefined || dialStyle === 'numbers'
        ? []
        : [
            {
              rule: 'K8',
              path: `heads[${i}].dialTop`,
              expected: 'dialStyle "numbers" beside it',
              got: shown(dialStyle),
              advice: 'Write dialStyle "numbers", or take dialTop out.',
            },
          ],
    ),
    ...kit.modifiers.flatMap(({ modifier }, i) =>
      validateModifier(modifier, `modifiers[${i}].modifier`).map((found) => ({ rule: 'K4' as const, ...found })),
    ),
    ...kit.calibrations.flatMap(({ headId, modifierId }, i) => [
      ...named(kit, 'heads', headId, `calibrations[${i}].headId`),
      ...named(kit, 'modifiers', modifierId, `calibrations[${i}].modifierId`),
    ]),
  ]
}

function repeatedIds(kit: Kit): Problem[] {
  const first = new Map<string, string>()
  return LISTS.flatMap((list) => kit[list].map(({ id }, i) => ({ id, path: `${list}[${i}].id` }))).flatMap(
    ({ id, path }): Problem[] => {
      const before = first.get(id)
      if (before === undefined) first.set(id, path)
      return before === undefined
        ? []
        : [
            {
              rule: 'K4',
              path,
              expected: 'an id that no other entry has',
              got: `${shown(id)}, as in ${before}`,
              advice: 'Give one of the two another id.',
            },
          ]
    },
  )
}

const named = (kit: Kit, list: 'heads' | 'modifiers', id: string, path: string): Problem[] =>
  kit[list].some((entry) => entry.id === id)
    ? []
    : [
        {
          rule: 'K7',
          path,
          expected: `the id of one of the ${list}: ${kit[list].map((entry) => entry.id).join(', ') || 'there is none'}`,
          got: shown(id),
          advice: 'Name an entry of this kit, or remove the calibration.',
        },
      ]
