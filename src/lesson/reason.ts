import type { Reading } from '../readings'
import { type Readings, rightChoices, withUnit } from './judge'
import { readingName } from './reading-names'
import type { Answer, Condition } from './types'

/**
 * Why a choice is right, in the readings that it is judged by: 'edge of the nose shadow: octa 60 cm has 13 mm, dish 18 cm has 3.8 mm'. A choice
 * that is right where the other is not has that one's. Empty: not all is read yet.
 */
export function reasonOf({ choices }: Extract<Answer, { kind: 'choice' }>, readings: Readings): string {
  const right = choices[rightChoices(choices, readings)?.[0] ?? -1]
  if (!right) return ''
  const holds = right.holds.length > 0 ? right.holds : choices.flatMap((choice) => choice.holds)
  return [...new Set(holds.map((condition) => readWords(condition, readings)))].join('; ')
}

function readWords({ set, minus, reading: id, says }: Condition, readings: Readings): string {
  const read = [set, minus].flatMap((name) =>
    name === undefined ? [] : [{ name, found: readingOf(name, id, readings) }],
  )
  const named = read.find(({ found }) => found !== undefined)
  const values = read.map(({ name, found }) => `${name} has ${found ? withUnit(found.text, found.unit) : 'nothing'}`)
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
