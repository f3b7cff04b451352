import { z } from 'zod'

/**
 * Makers of the schema's leaves. Each leaf carries the words of its own error, so that a problem can say what was
 * expected with the unit without a second table. `unit` and `usual` travel into the JSON Schema.
 */

/** A number with a closed range and a unit ('' for ratios). Rejects NaN and the infinities. */
export function quantity(unit: string, range: readonly [number, number], about: string) {
  const error = `a number from ${range[0]} to ${range[1]}${unit ? ` ${unit}` : ''}`
  return z
    .number({ error })
    .min(range[0], { error })
    .max(range[1], { error })
    .meta({ description: about, ...(unit ? { unit } : {}) })
}

/** One of a few words. */
export function oneOf<const T extends readonly [string, ...string[]]>(words: T, about: string) {
  const error = words.length === 1 ? `"${words[0]}"` : `one of ${words.map((word) => `"${word}"`).join(', ')}`
  return z.enum(words as unknown as [T[number], ...T[number][]], { error }).meta({ description: about })
}

/** Free text. */
export const text = (about: string) => z.string({ error: 'text in quotes' }).meta({ description: about })

/** A name that other records refer to. */
export const identifier = () => {
  const error = 'an id of 1 to 64 characters'
  return z
    .string({ error })
    .min(1, { error })
    .max(64, { error })
    .meta({ description: 'Unique among all things of the sitting.' })
}

export const yesOrNo = (about: string) => z.boolean({ error: 'true or false' }).meta({ description: about })

/** Three numbers in one array: x (camera right), y (up), z (towards the camera). */
export function triple(unit: string, range: readonly [number, number], about: string) {
  const number = quantity(unit, range, about)
  return z
    .tuple([number, number, number], { error: `three numbers [x, y, z]${unit ? ` in ${unit}` : ''}` })
    .meta({ description: about })
}

export const point = (about: string) => triple('m', [-30, 30], about)

/** A value from 0 to 1. */
export const share = (about: string) => quantity('', [0, 1], about)
