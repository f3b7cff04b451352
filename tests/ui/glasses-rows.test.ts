import { expect, test } from 'vitest'
import { DEFAULT_GLASSES } from '../../src/figure'
import { EditRefused, firstSitting, readSitting, type Sitting, setGlasses, writeSitting } from '../../src/sitting'
import type { ChoiceRow, NumberRow, Row } from '../../src/ui/controls/model'
import { sheetOf } from '../../src/ui/controls/sheet'

const first = firstSitting()
const rowsOf = (sitting: Sitting): readonly Row[] =>
  sheetOf({ sitting, marks: null, exposure: null }, 'sitter')!.groups.flatMap(({ rows }) => rows)
const row = <R extends Row>(sitting: Sitting, id: string): R => rowsOf(sitting).find((entry) => entry.id === id) as R

test('glasses are chosen by their frame; worn ones have tilt, curve and coating, and are kept as they were', () => {
  const frame = row<ChoiceRow>(first, 'glasses')
  expect(frame.value).toBe('none')
  expect(rowsOf(first).some(({ id }) => id.startsWith('glasses.'))).toBe(false)
  const worn = frame.change(first, 'metal')
  expect(worn.sitters[0].glasses).toEqual({ ...DEFAULT_GLASSES, frame: 'metal' })
  const tipped = row<NumberRow>(worn, 'glasses.tiltDeg').change(worn, 15)
  const flat = row<NumberRow>(tipped, 'glasses.frontCurveD').change(tipped, 0)
  const coated = row<ChoiceRow>(flat, 'glasses.coated').change(flat, 'coated')
  const brown = row<ChoiceRow>(coated, 'glasses').change(coated, 'brown')
  expect(brown.sitters[0].glasses).toEqual({ tiltDeg: 15, frontCurveD: 0, coated: true, frame: 'brown' })
  expect(row<ChoiceRow>(brown, 'glasses').change(brown, 'none').sitters[0].glasses).toBeNull()
})

test('S18 a tilt or curve out of its range is refused with the field', () => {
  for (const change of [{ tiltDeg: 40 }, { frontCurveD: -1 }, { tiltDeg: Number.NaN }])
    expect(() => setGlasses(first, 'sitter', change)).toThrow(EditRefused)
  const bad = { ...first, sitters: [{ ...first.sitters[0], glasses: { ...DEFAULT_GLASSES, tiltDeg: 40 } }] }
  const read = readSitting(JSON.parse(JSON.stringify(bad)))
  expect('problems' in read && read.problems.map(({ path, expected }) => [path, expected])).toEqual([
    ['sitters[0].glasses.tiltDeg', 'a number from -5 to 25 °'],
  ])
})

test('S3, S13 glasses and what is unknown in them survive the file; a file without them is as it was', () => {
  const glasses = { ...DEFAULT_GLASSES, maker: 'unknown field' }
  const worn = { ...first, sitters: [{ ...first.sitters[0], glasses }] }
  const read = readSitting(JSON.parse(writeSitting(worn)))
  expect('sitting' in read && read.sitting.sitters[0].glasses).toEqual(glasses)
  const kept = setGlasses('sitting' in read ? read.sitting : first, 'sitter', { coated: true })
  expect(kept.sitters[0].glasses).toEqual({ ...glasses, coated: true })
  expect(writeSitting(first)).not.toContain('glasses')
})

test('no two rows of the sitter have one name for a screen reader', () => {
  const worn = setGlasses(first, 'sitter', {})
  const names = rowsOf(worn).flatMap((entry) =>
    entry.kind === 'number' || entry.kind === 'choice' ? [entry.named ?? entry.label] : [],
  )
  expect(new Set(names).size).toBe(names.length)
})

test('a curve is typed in dioptres', () => {
  const { quantity } = row<NumberRow>(setGlasses(first, 'sitter', {}), 'glasses.frontCurveD')
  expect(quantity.parse('6.25 D', 'metres')).toEqual({ ok: true, value: 6.25 })
  expect(quantity.format(6.25, 'metres')).toBe('6.25 D')
  expect(quantity.parse('six', 'metres').ok).toBe(false)
})
