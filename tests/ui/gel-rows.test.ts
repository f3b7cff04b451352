import { expect, test } from 'vitest'
import { firstSitting, type Sitting, setHead } from '../../src/sitting'
import { gelRows } from '../../src/ui/controls/gel-rows'
import type { Row } from '../../src/ui/controls/model'

const first = firstSitting()
const { id } = first.sources[0]!
const rowsOf = (sitting: Sitting): readonly Row[] => {
  const row = gelRows(sitting.sources[0]!)
  return row.kind === 'fold' ? row.rows : []
}
function changed(sitting: Sitting, rowId: string, value: string | number): Sitting {
  const row = rowsOf(sitting).find((one) => one.id === rowId)
  if (row?.kind === 'choice') return row.change(sitting, String(value))
  if (row?.kind === 'number') return row.change(sitting, Number(value))
  throw new Error(`no row ${rowId}`)
}
const shownBy = (sitting: Sitting, rowId: string) => {
  const row = rowsOf(sitting).find((one) => one.id === rowId)
  return row && 'value' in row ? row.value : undefined
}

test('a gel is put on by its name and taken off again: the head is as it was', () => {
  const warm = changed(first, 'conversion', 'half-cto')
  expect(warm.sources[0]!.head.gelMired).toBe(66)
  expect(shownBy(warm, 'conversion')).toBe('half-cto')
  const red = changed(warm, 'gelColour', 'red')
  expect(shownBy(red, 'gelColour')).toBe('red')
  const dim = changed(red, 'ndStops', 3)
  expect(shownBy(dim, 'ndStops')).toBe(3)
  const bare = changed(changed(changed(dim, 'conversion', 'none'), 'gelColour', 'none'), 'ndStops', 0)
  expect(JSON.stringify(bare)).toBe(JSON.stringify(first))
})

test('what a file has of its own is kept until another is chosen', () => {
  const own = setHead(first, id, { gelMired: 20, gelColour: [0.5, 0.4, 0.3] })
  expect([shownBy(own, 'conversion'), shownBy(own, 'gelColour')]).toEqual(['own', 'own'])
  expect(changed(own, 'conversion', 'own')).toBe(own)
})
