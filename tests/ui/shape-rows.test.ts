import { readFileSync } from 'node:fs'
import { afterEach, describe, expect, test } from 'vitest'
import { readFigureAsset, SHAPE_PRESETS } from '../../src/figure'
import { addSitter, EditRefused, firstSitting, type Sitting, setSitterShape, shapeOf } from '../../src/sitting'
import type { ChoiceRow, FoldRow, NumberRow, Row } from '../../src/ui/controls/model'
import { sheetOf } from '../../src/ui/controls/sheet'
import { setDerived } from '../../src/ui/derived'

const first = firstSitting()
const rowsOf = (sitting: Sitting, id = 'sitter'): readonly Row[] =>
  sheetOf({ sitting, marks: null, exposure: null }, id)!.groups.flatMap(({ rows }) => rows)
const row = <R extends Row>(sitting: Sitting, id: string): R => rowsOf(sitting).find((entry) => entry.id === id) as R
const measure = (sitting: Sitting, id: string): NumberRow =>
  row<FoldRow>(sitting, 'measures').rows.find((entry) => entry.id === id) as NumberRow
const shapeIn = (sitting: Sitting) => shapeOf(sitting.sitters[0])

afterEach(() => setDerived({ asset: null }))

describe('the build of the sitter in hand', () => {
  test('a ready shape is chosen by its word, and shown as long as no length was dialled', () => {
    const shape = row<ChoiceRow>(first, 'shape')
    expect(shape.value).toBe('average')
    expect(shape.choices.map(({ label }) => label)).toEqual([
      'Average',
      'Narrow face',
      'Broad face',
      'Deep-set eyes',
      'Shallow eyes',
      'Low bridge',
      'High bridge',
      'Feminine',
      'Masculine',
      'Child, 7 years',
    ])
    const broad = shape.change(first, 'broad')
    expect(shapeIn(broad)).toEqual(SHAPE_PRESETS.broad)
    expect(row<ChoiceRow>(broad, 'shape').value).toBe('broad')
    const dialled = measure(broad, 'noseBridgeMm').change(broad, 3)
    expect(row<ChoiceRow>(dialled, 'shape').choices.map(({ label }) => label)).toContain('As dialled')
    expect(row<ChoiceRow>(dialled, 'shape').value).toBe('')
    expect(row<ChoiceRow>(broad, 'shape').choices.map(({ label }) => label)).not.toContain('As dialled')
  })
  test('age takes the lengths along, and at seven years the average sitter is the child', () => {
    const young = row<NumberRow>(first, 'age').change(first, 7)
    expect(row<ChoiceRow>(young, 'shape').value).toBe('child')
    expect(() => row<NumberRow>(first, 'age').change(first, 19)).toThrow(EditRefused)
  })
  test('a step of a slider leaves no float dust in the document', () => {
    expect(shapeIn(measure(first, 'eyeDepthMm').change(first, 8.100000000000001)).eyeDepthMm).toBe(8.1)
  })
  test('lengths that no head can have together are refused in place, once the figure is there to tell', () => {
    // A child's proportions under a grown person's lengths.
    const torn = setSitterShape(first, 'sitter', { ageYears: 7 })
    const dial = () => measure(torn, 'jawWidthMm').change(torn, 100)
    expect(dial).not.toThrow()
    setDerived({ asset: readFigureAsset(readFileSync('assets/sitter.glb')) })
    expect(dial).toThrow(EditRefused)
  })
  test('no two rows of the sitter have one name for a screen reader', () => {
    const open = rowsOf(first).flatMap((entry) => (entry.kind === 'fold' ? entry.rows : [entry]))
    const names = open.map((entry) => ('named' in entry && entry.named) || ('label' in entry && entry.label))
    expect(new Set(names).size).toBe(names.length)
  })
})

test('a second sitter has rows of their own, and a place that can be moved; the first one stays', () => {
  const { sitting: two, id } = addSitter(first)
  const ids = (of: string) => rowsOf(two, of).map((entry) => entry.id)
  expect(ids(id)).toEqual(expect.arrayContaining(['xM', 'zM', 'shape']))
  expect(ids('sitter')).not.toContain('xM')
  const shape = rowsOf(two, id).find((entry) => entry.id === 'shape') as ChoiceRow
  const shaped = shape.change(two, 'child')
  expect(shaped.sitters[0]).toBe(two.sitters[0])
  expect(shaped.sitters[1].shape).toEqual(SHAPE_PRESETS.child)
  expect(sheetOf({ sitting: two, marks: null, exposure: null }, id)!.title).toBe('sitter 2')
})
