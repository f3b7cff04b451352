import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { firstSitting, type Sitting } from '../../src/sitting'
import { modellingRows } from '../../src/ui/controls/modelling-rows'

const first = firstSitting()
const rowsOf = ({ sources }: Sitting) =>
  modellingRows(sources[0]!).flatMap((row) => (row.kind === 'fold' ? row.rows : []))
function changed(sitting: Sitting, id: string, value: string | number): Sitting {
  const row = rowsOf(sitting).find((one) => one.id === id)
  if (row?.kind === 'choice') return row.change(sitting, String(value))
  if (row?.kind === 'number') return row.change(sitting, Number(value))
  throw new Error(`no row ${id}`)
}

test('a modelling lamp is named, changed, and left out again: the head is as it was', () => {
  const led = changed(first, 'modellingLamp', 'LED')
  expect(led.sources[0]!.head.modelling?.lamp).toBe('LED')
  const full = changed(changed(led, 'modellingW', 60), 'modellingDial', 'full')
  expect(full.sources[0]!.head.modelling).toMatchObject({ lamp: 'LED', powerW: 60, followsDial: false })
  expect(JSON.stringify(changed(full, 'modellingLamp', 'usual'))).toBe(JSON.stringify(first))
})

test('what burns on by itself has none', () => {
  expect(modellingRows({ ...first.sources[0]!, modifier: defaultModifier('led-panel') })).toEqual([])
})
