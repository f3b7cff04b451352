import { z } from 'zod'
import { type Field, MODIFIER_KINDS } from '../gear'
import { sittingSchema } from './schema'

type Json = Readonly<Record<string, unknown>>

function schemaOfField(field: Field): Json {
  if (field.type === 'text')
    return { type: 'string', maxLength: field.longest, default: field.default, description: field.label }
  return field.type === 'number'
    ? {
        type: 'number',
        minimum: field.range[0],
        maximum: field.range[1],
        default: field.default,
        description: field.label,
        ...(field.unit ? { unit: field.unit } : {}),
      }
    : { enum: field.choices, default: field.default, description: field.label }
}

/** A modifier by its kind, from gear's field tables: the same ranges that rule S6 asks. */
function modifierJsonSchema(): Json {
  return {
    type: 'object',
    required: ['kind'],
    properties: {
      kind: { enum: MODIFIER_KINDS.map(({ id }) => id), description: 'A kind from the register of gear.' },
    },
    allOf: MODIFIER_KINDS.map((kind) => ({
      if: { properties: { kind: { const: kind.id } } },
      // biome-ignore lint/suspicious/noThenProperty: JSON Schema's own word for the branch
      then: {
        description: kind.label,
        required: kind.fields.flatMap(({ id, optional }) => (optional ? [] : [id])),
        properties: Object.fromEntries(kind.fields.map((field) => [field.id, schemaOfField(field)])),
      },
    })),
  }
}

/**
 * The JSON Schema (2020-12) of a sitting file, for editors and other programs. It holds fields, ranges and units
 * (`unit` is an annotation); the rules between fields (S4, S5, S7 to S11, S20) are in SPEC.md only.
 */
export const sittingJsonSchema = (): Json => fileJsonSchema('Sitting', sittingSchema)

/** Of any file whose records hold modifiers. */
export function fileJsonSchema(title: string, schema: z.ZodType): Json {
  const isModifier = (properties: unknown): boolean =>
    typeof properties === 'object' && properties !== null && Object.keys(properties).join() === 'kind'
  return {
    title,
    ...z.toJSONSchema(schema, {
      override: ({ jsonSchema }) => {
        if (isModifier(jsonSchema.properties)) Object.assign(jsonSchema, modifierJsonSchema())
      },
    }),
  }
}
