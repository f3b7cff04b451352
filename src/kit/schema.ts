import { z } from 'zod'
import { calibrationFacts, fileJsonSchema, headFacts, leaves, modifierSchema, standFacts } from '../sitting'

const { identifier, oneOf, quantity, text } = leaves

/** The kit as a zod schema; it says the same as types.ts. looseObject: unknown keys survive (K3). */

const name = text('As its owner calls it.').min(1, { error: 'a name' })

const headSchema = z.looseObject({ id: identifier(), name, ...headFacts }).meta({ id: 'KitHead' })

const kitModifierSchema = z
  .looseObject({
    id: identifier(),
    name,
    modifier: modifierSchema,
    massKg: quantity('kg', [0.01, 30], 'With its ring. Left out: not known.').optional(),
  })
  .meta({ id: 'KitModifier' })

const standSchema = z.looseObject({ id: identifier(), ...standFacts, name }).meta({ id: 'KitStand' })

const calibrationSchema = z
  .looseObject({ id: identifier(), headId: identifier(), modifierId: identifier(), ...calibrationFacts })
  .meta({ id: 'KitCalibration', description: 'From one real reading of this head with this modifier.' })

export const kitSchema = z.looseObject({
  format: oneOf(['halfshade.kit'], 'Says what the file is.'),
  version: z.literal(1, { error: '1' }).meta({ description: 'Of the format.' }),
  title: text('Of the kit.'),
  note: text('For whoever uses it.'),
  heads: z.array(headSchema, { error: 'a list of heads' }),
  modifiers: z.array(kitModifierSchema, { error: 'a list of modifiers' }),
  stands: z.array(standSchema, { error: 'a list of stands' }),
  calibrations: z.array(calibrationSchema, { error: 'a list of calibrations' }),
  nextNumber: quantity(
    '',
    [1, 1e9],
    'Below this no number in the id of a new entry, as sittings may still name a removed one. Left out: 1.',
  ).optional(),
})

/** The JSON Schema (2020-12) of a kit file; the rules between fields are in SPEC.md only. */
export const kitJsonSchema = (): Readonly<Record<string, unknown>> => fileJsonSchema('Kit', kitSchema)
