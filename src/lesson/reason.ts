import type { Reading } from '../readings'
import { type Readings, rightChoices, withUnit } from './judge'
import { readingName } from './reading-names'
import type { Answer, Condition } from './types'

/**
 * Why a choice is right, in the readings that it is judged by: 'edge of the nose shadow: 3.7 mm with dish 18 cm, 13 mm with octa 60 cm'. A choice
 * that is right where the other is not has that one's. order: of the states, as their pictures stand. Empty: not all is read yet.
 */
export function reasonOf(
  { choices }: Extract<Answer, { kind: 'choice' }>,
  readings: Readings,
  order: readonly string[] = [],
): string {
  const right = choices[rightChoices(choices, readings)?.[0] ?? -1]
  if (!right) return ''
  const holds = right.holds.length > 0 ? right.holds : choices.flatMap((choice) => choice.holds)
  return [...new Set(holds.map((condition) => readWords(condition, readings, order)))].join('; ')
}

function readWords({ set, minus, reading: id, says }: Condition, readings: Readings, order: readonly string[]): string {
  const place = (name: string | undefined) => order.indexOf(name ?? '')
  const read = [set, minus]
    .toSorted((a, b) => place(a) - place(b))
    .flatMap((name) => (name === undefined ? [] : [{ name, found: readingOf(name, id, readings) }]))
  const named = read.find(({ found }) => found !== undefined)
  const values = read.map(({ name, found }) => `${found ? withUnit(found.text, found.unit) : 'none'} with ${name}`)
  return `${says ?? (named ? nameIn(readings(named.name)!, named.found!) : id)}: ${values.join(', ')}`
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
