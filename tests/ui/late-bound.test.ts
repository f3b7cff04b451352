import { expect, test } from 'vitest'
import { EditRefused, firstSitting, type Sitting } from '../../src/sitting'
import { lateBound, seenOf } from '../../src/ui/controls/late-bound'
import type { NumberRow, Row } from '../../src/ui/controls/model'
import { sheetOf } from '../../src/ui/controls/sheet'
import { swapKind } from '../../src/ui/controls/swap-kind'
import { thingsOf } from '../../src/ui/controls/words'

const marks = null
const rowsOf = (sitting: Sitting, id: string): readonly Row[] =>
  sheetOf({ sitting, marks, exposure: null }, id)!.groups.flatMap(({ rows }) => rows)
const ids = (sitting: Sitting) => thingsOf(sitting).map(({ id }) => id)
const isNumber = (row: Row): row is NumberRow => row.kind === 'number'
/** The sitting after a change, or null where it refuses. */
const after = (row: NumberRow, sitting: Sitting, value: number): Sitting | null => {
  try {
    return row.change(sitting, value)
  } catch (fault) {
    if (fault instanceof EditRefused) return null
    throw fault
  }
}

test('a row of the same sitting is seen alike, whatever is rebuilt; a new value is seen, be it of another thing beside it', () => {
  const first = firstSitting()
  for (const id of ids(first)) {
    const [rows, again] = [rowsOf(first, id), rowsOf(first, id)]
    expect(again.map((row) => seenOf({ row }))).toEqual(rows.map((row) => seenOf({ row })))
    for (const row of rows.filter(isNumber))
      expect(seenOf({ row: { ...row, value: row.value + row.quantity.step } })).not.toBe(seenOf({ row }))
  }
})

test('a row that was drawn before does what the latest of its kind does: each number of each thing, from an older sheet', () => {
  const first = firstSitting()
  const source = first.sources[0]!.id
  const now = swapKind(first, source, 'strip')
  let asked = 0
  for (const id of ids(first)) {
    const latest = new Map(rowsOf(now, id).map((row) => [row.id, row]))
    for (const old of rowsOf(first, id).filter(isNumber)) {
      const row = latest.get(old.id)
      if (!row || !isNumber(row)) continue
      const drawn = lateBound<NumberRow>(old, () => row)
      const value = (row.usual[0] + row.usual[1]) / 2
      expect(drawn.value).toBe(old.value)
      expect(drawn.quantity.format(value, 'feet')).toBe(row.quantity.format(value, 'feet'))
      expect(after(drawn, now, value)).toEqual(after(row, now, value))
      asked++
    }
  }
  expect(asked).toBeGreaterThan(20)
})

test('what is late is asked when it is called, at any depth, and lists stay lists', () => {
  let now = { fold: [{ say: (word: string) => `old ${word}` }], words: ['a', 'b'] }
  const late = lateBound(now, () => now)
  now = { fold: [{ say: (word) => `new ${word}` }], words: ['c'] }
  expect(late.fold[0]!.say('one')).toBe('new one')
  expect(late.words).toEqual(['a', 'b'])
})
