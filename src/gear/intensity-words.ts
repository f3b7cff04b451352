import type { IntensityTable } from '../photometry'
import { wordOf } from './fields'
import type { Modifier, Problem } from './types'

/** A table of intensities as plain words in a document: numbers with a space between them, planes of candela with a semicolon. */
export const TABLE_ROWS = {
  planesDeg: 'Planes of the table, ° from 0 to 360, ascending',
  anglesDeg: 'Angles from the axis, °, ascending within 0 to 180',
  candela: 'Intensities, cd: an angle after the other, planes apart by ;',
} as const
type RowName = keyof typeof TABLE_ROWS

/** Room for the largest table at eight characters a number. */
export const MOST_ENTRIES = 100_000
export const MOST_CHARACTERS = 8 * MOST_ENTRIES
const BRIGHTEST_CD = 1e9

/** Six digits: a millionth of a value. */
const shortest = (value: number): string => String(Number(value.toPrecision(6)))
const row = (values: readonly number[]): string => values.map(shortest).join(' ')

export const tableWords = ({ planesDeg, anglesDeg, candela }: IntensityTable): Readonly<Record<RowName, string>> => ({
  planesDeg: row(planesDeg),
  anglesDeg: row(anglesDeg),
  candela: candela.map(row).join('; '),
})

const numbers = (words: string): readonly number[] =>
  words
    .trim()
    .split(/\s+/)
    .map((word) => (/^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(word) ? Number(word) : Number.NaN))

const rows = (words: string): readonly (readonly number[])[] => words.split(';').map(numbers)

/** Of a modifier without tableProblems. */
export const tableOf = (modifier: Modifier): IntensityTable => ({
  planesDeg: numbers(wordOf(modifier, 'planesDeg')),
  anglesDeg: numbers(wordOf(modifier, 'anglesDeg')),
  candela: rows(wordOf(modifier, 'candela')),
})

/** What a field's length can't say. */
export function tableProblems(modifier: Modifier, path: string): readonly Problem[] {
  const { planesDeg, anglesDeg, candela } = tableOf(modifier)
  const say = (name: RowName, expected: string, got: string): readonly Problem[] => [
    { path: `${path}.${name}`, expected, got, advice: 'Read the lamp from its file again.' },
  ]
  const isRound = planesDeg[0] === 0 && planesDeg[planesDeg.length - 1] === 360
  if (!isRound || !ascends(planesDeg)) return say('planesDeg', 'angles that ascend from 0 to 360°', told(planesDeg))
  if (anglesDeg.length < 2 || !ascends(anglesDeg) || anglesDeg[0]! < 0 || anglesDeg[anglesDeg.length - 1]! > 180)
    return say('anglesDeg', 'two or more angles that ascend within 0 to 180°', told(anglesDeg))
  const entries = planesDeg.length * anglesDeg.length
  if (entries > MOST_ENTRIES)
    return say('candela', `at most ${MOST_ENTRIES} intensities`, `${planesDeg.length} × ${anglesDeg.length}`)
  if (candela.length !== planesDeg.length)
    return say('candela', `${planesDeg.length} planes, one for each of planesDeg`, `${candela.length}`)
  const short = candela.findIndex((values) => values.length !== anglesDeg.length)
  if (short >= 0)
    return say('candela', `${anglesDeg.length} intensities in plane ${planesDeg[short]}°`, `${candela[short]!.length}`)
  const wrong = candela.findIndex((values) => !values.every((value) => value >= 0 && value <= BRIGHTEST_CD))
  if (wrong >= 0)
    return say(
      'candela',
      `numbers from 0 to ${BRIGHTEST_CD} cd`,
      `plane ${planesDeg[wrong]}°: ${told(candela[wrong]!)}`,
    )
  if (!candela.some((values) => values.some((value) => value > 0)))
    return say('candela', 'some intensity above 0 cd', 'none')
  const ends = candela[0]!.findIndex((value, i) => value !== candela[candela.length - 1]![i])
  if (ends >= 0)
    return say('candela', 'the same intensities in the planes of 0° and 360°', `others at ${anglesDeg[ends]}°`)
  return []
}

const ascends = (values: readonly number[]): boolean => values.every((value, i) => i === 0 || value > values[i - 1]!)

const told = (values: readonly number[]): string => {
  const words = values.slice(0, 6).map((value) => (Number.isNaN(value) ? 'no number' : String(value)))
  return `${words.join(' ')}${values.length > 6 ? ' …' : ''}`
}
