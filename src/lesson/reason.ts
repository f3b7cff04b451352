import type { Reading } from '../readings'
import { type Readings, rightChoices, timesWords, withUnit } from './judge'
import { readingName } from './reading-names'
import type { Answer, Condition } from './types'

/**
 * Why a choice is right, in the readings that it is judged by: 'edge of the nose shadow: 3.7 mm with dish 18 cm, 13 mm with octa 60 cm'. A choice
 * that is right where the other is not has that one's. Each reading is named once, with every state once. order: of the states, as their pictures
 * stand. Empty: not all is read yet.
 */
export function reasonOf(
  { choices }: Extract<Answer, { kind: 'choice' }>,
  readings: Readings,
  order: readonly string[] = [],
): string {
  const right = choices[rightChoices(choices, readings)?.[0] ?? -1]
  if (!right) return ''
  const holds = right.holds.length > 0 ? right.holds : choices.flatMap((choice) => choice.holds)
  const nameOf = ({ reading, says = '' }: Condition) => `${reading} ${says}`
  return [...new Set(holds.map(nameOf))]
    .map((name) => holds.filter((condition) => nameOf(condition) === name))
    .map((of) => readWords(of, readings, order))
    .join('; ')
}

/** One reading, of all the states that it is held against. */
function readWords(holds: readonly Condition[], readings: Readings, order: readonly string[]): string {
  const { reading: id, says } = holds[0]!
  const place = (name: string) => order.indexOf(name)
  const names = [...new Set(holds.flatMap(({ set, minus }) => [set, minus].filter((name) => name !== undefined)))]
  const read = names
    .toSorted((a, b) => place(a) - place(b))
    .map((name) => ({ name, found: readingOf(name, id, readings) }))
  const named = read.find(({ found }) => found !== undefined)
  const title = says ?? (named ? nameIn(readings(named.name)!, named.found!) : id)
  return `${title}: ${timesAll(holds, id, readings) ?? read.map(({ name, found }) => `${foundWords(found)} with ${name}`).join(', ')}`
}
const foundWords = (found: Reading | undefined): string => (found ? withUnit(found.text, found.unit) : 'none')

/** Nobody knows a steradian by sight: of what is counted in it is told how many times another's it is. null: it is counted in something else. */
function timesAll(holds: readonly Condition[], id: string, readings: Readings): string | null {
  const times = holds.flatMap(({ set, minus }) => {
    const [a, b] = [set, minus].map((name) => (name === undefined ? undefined : readingOf(name, id, readings)))
    if (a?.unit !== 'sr' || !b) return []
    const least = timesWords(a, b)
    return least === null ? [] : [{ set, words: `${least} as much as with ${minus}` }]
  })
  return times.length < holds.length ? null : `with ${times[0]!.set} ${times.map(({ words }) => words).join(', ')}`
}

/** A letter tells lamps apart: where there is but one, it is the lamp. */
function nameIn(all: readonly Reading[], reading: Reading): string {
  const letters = new Set(all.flatMap(({ id }) => /^source\.(\w)\./.exec(id)?.[1] ?? []))
  const [letter] = letters
  const name = readingName(reading)
  if (letters.size !== 1) return name
  return name.replace(` by ${letter}`, '').replace(new RegExp(`\\b${letter}\\b`), 'the lamp')
}

const readingOf = (set: string, id: string, readings: Readings) => readings(set)?.find((reading) => reading.id === id)
