import type { Field, Modifier, Problem } from './types'

/** A length in metres; usual is what the trade sells or does: common practice, no source. */
export function length(
  id: string,
  label: string,
  value: number,
  range: readonly [number, number],
  usual: readonly [number, number],
): Field {
  return { id, label, type: 'number', unit: 'm', range, usual, default: value, step: 0.01 }
}

/** A share or another number without unit. */
export function share(id: string, label: string, value: number, range: readonly [number, number]): Field {
  return { id, label, type: 'number', unit: '', range, usual: range, default: value, step: 0.05 }
}

export function choice(id: string, label: string, choices: readonly [string, ...string[]]): Field {
  return { id, label, type: 'choice', choices, default: choices[0] }
}

/** Words out of a file. */
export const text = (id: string, label: string, value: string, longest: number): Field => ({
  ...{ id, label, type: 'text' },
  ...{ longest, default: value },
})

/** The same row, which goes along in proportion when another one is changed. */
export const following = (field: Field, follows: string): Field =>
  field.type === 'number' ? { ...field, follows } : field

/** The same row, which a document may leave out: files from before it was there stay as they were. */
export const optional = (field: Field): Field => ({ ...field, optional: true })

/** The modifier with the defaults of the optional rows that it leaves out. */
export const completed = (modifier: Modifier, fields: readonly Field[]): Modifier => ({
  ...Object.fromEntries(fields.flatMap((field) => (field.optional ? [[field.id, field.default]] : []))),
  ...modifier,
})

/** A number field of a modifier. Throws where the document was not validated first. */
export function numberOf(modifier: Modifier, id: string): number {
  const value = modifier[id]
  if (typeof value !== 'number')
    throw new Error(`gear.numberOf: ${modifier.kind}.${id} should be a number, got ${value}`)
  return value
}

export function wordOf(modifier: Modifier, id: string): string {
  const value = modifier[id]
  if (typeof value !== 'string') throw new Error(`gear.wordOf: ${modifier.kind}.${id} should be a word, got ${value}`)
  return value
}

/** What is wrong with one value against its row of the table; null: nothing. */
export function fieldProblem(field: Field, value: unknown, path: string): Problem | null {
  if (value === undefined && field.optional) return null
  const got = value === undefined ? 'nothing' : JSON.stringify(value)
  if (field.type === 'choice')
    return typeof value === 'string' && field.choices.includes(value)
      ? null
      : { path, expected: `one of ${field.choices.join(', ')}`, got, advice: `Write "${field.default}" if in doubt.` }
  if (field.type === 'text')
    return typeof value === 'string' && value.length <= field.longest
      ? null
      : {
          path,
          expected: `text of at most ${field.longest} characters`,
          got: typeof value === 'string' ? `${value.length} of them` : got,
          advice: `${field.label}: shorten it, or read it from its file again.`,
        }
  const [low, high] = field.range
  const inRange = typeof value === 'number' && value >= low && value <= high
  return inRange
    ? null
    : {
        path,
        expected: `${low} to ${high}${field.unit && ` ${field.unit}`}`,
        got: typeof value === 'number' && field.unit ? `${got} ${field.unit}` : got,
        advice: `${field.label}: usual is ${field.usual[0]} to ${field.usual[1]}${field.unit && ` ${field.unit}`}.`,
      }
}
