import { describe, expect, test } from 'vitest'
import { AVERAGE_SHAPE, SHAPE_FIELD_NAMES, SHAPE_FIELDS, SHAPE_PRESET_NAMES, SHAPE_PRESETS } from '../../src/figure'
import {
  addSitter,
  checkSitting,
  firstSitting,
  type Problem,
  readSitting,
  removeThing,
  type Sitting,
  setSitterAge,
  setSitterShape,
  shapeOf,
  sittingJsonSchema,
  writeSitting,
} from '../../src/sitting'
import { refusal } from './refusal'

const first = firstSitting()
const withShape = (shape: unknown): unknown => ({ ...first, sitters: [{ ...first.sitters[0], shape }] })
const shapeIn = (sitting: Sitting) => shapeOf(sitting.sitters[0])
const problemsOf = (value: unknown): readonly Problem[] => {
  const result = readSitting(value)
  return 'problems' in result ? result.problems : []
}

describe('S2 the shape in a file', () => {
  test('left out it is the average sitter, and nothing is written', () => {
    expect(shapeIn(first)).toEqual(AVERAGE_SHAPE)
    expect(writeSitting(first)).not.toContain('"shape"')
  })
  test.each(SHAPE_PRESET_NAMES)('%s is written and read as it was', (preset) => {
    const shaped = setSitterShape(first, 'sitter', preset)
    expect(readSitting(writeSitting(shaped))).toEqual({ sitting: shaped })
    expect(shapeIn(shaped)).toEqual(SHAPE_PRESETS[preset])
  })
  test.each(SHAPE_FIELD_NAMES)(
    '%s is refused beyond both ends and where it is missing, each time with its path',
    (name) => {
      const { range, unit } = SHAPE_FIELDS[name]
      const { [name]: _, ...missing } = AVERAGE_SHAPE
      for (const shape of [{ ...missing, [name]: range[0] - 0.1 }, { ...missing, [name]: range[1] + 0.1 }, missing]) {
        const [problem, ...more] = problemsOf(withShape(shape))
        expect(more).toEqual([])
        expect(problem).toMatchObject({
          rule: 'S2',
          path: `sitters[0].shape.${name}`,
          expected: `a number from ${range[0]} to ${range[1]}${unit && ` ${unit}`}`,
          got: name in shape ? String(shape[name as keyof typeof shape]) : 'nothing',
        })
        expect(problem.advice).toMatch(/\.$/)
      }
      for (const end of range) expect(problemsOf(withShape({ ...AVERAGE_SHAPE, [name]: end }))).toEqual([])
    },
  )
  test('a word in place of it is refused', () => {
    expect(problemsOf(withShape('broad'))).toMatchObject([{ path: 'sitters[0].shape', got: '"broad"' }])
  })
  test('S3 fields that nobody knows survive reading, editing and writing', () => {
    const strange = { ...AVERAGE_SHAPE, 'x-ears': { lobe: [1, null] } }
    const read = readSitting(withShape(strange))
    if ('problems' in read) throw new Error('not read')
    const edited = setSitterAge(setSitterShape(read.sitting, 'sitter', 'broad'), 'sitter', 12)
    expect(JSON.parse(writeSitting(edited)).sitters[0].shape['x-ears']).toEqual(strange['x-ears'])
  })
  test('the JSON Schema has the ranges and units of the table, and does not require a shape', () => {
    const { $defs } = sittingJsonSchema() as { $defs: Record<string, { properties: object; required: string[] }> }
    expect($defs.Sitter.required).not.toContain('shape')
    expect($defs.Shape.required).toEqual(SHAPE_FIELD_NAMES)
    expect($defs.Shape.properties).toMatchObject({ noseBridgeMm: { minimum: 1, maximum: 13, unit: 'mm' } })
  })
})

describe('S16 edits of the shape', () => {
  test('one length changes, the rest of sitter and set stays', () => {
    const edited = setSitterShape(first, 'sitter', { noseProtrusionMm: 25 })
    expect(shapeIn(edited)).toEqual({ ...AVERAGE_SHAPE, noseProtrusionMm: 25 })
    const { shape: _, ...sitter } = edited.sitters[0]
    expect(sitter).toEqual(first.sitters[0])
    expect(edited.sources).toBe(first.sources)
    expect(first.sitters[0]).not.toHaveProperty('shape')
  })
  test('a preset takes every field, whatever was dialled before', () => {
    const dialled = setSitterShape(first, 'sitter', { jawWidthMm: 90 })
    expect(shapeIn(setSitterShape(dialled, 'sitter', 'deepSet'))).toEqual(SHAPE_PRESETS.deepSet)
  })
  test('age moves the lengths with it, and back', () => {
    const young = shapeIn(setSitterAge(first, 'sitter', 7))
    for (const name of SHAPE_FIELD_NAMES) expect(young[name], name).toBeCloseTo(SHAPE_PRESETS.child[name], 9)
    const grown = shapeIn(setSitterAge(setSitterAge(first, 'sitter', 7), 'sitter', 18))
    for (const name of SHAPE_FIELD_NAMES) expect(grown[name], name).toBeCloseTo(AVERAGE_SHAPE[name], 9)
  })
  test('out of its range it is refused, with field, expectation, finding and advice, and nothing is pulled in', () => {
    expect(refusal(() => setSitterShape(first, 'sitter', { headBreadthMm: 200 }))).toEqual({
      rule: 'S16',
      path: 'sitters[0].shape.headBreadthMm',
      expected: '132 to 166 mm',
      got: '200',
      advice: 'Start from one of the presets.',
    })
    expect(refusal(() => setSitterAge(first, 'sitter', 40)).path).toMatch(/^sitters\[0\]\.shape\./)
    // A nose that is long for a grown person would be too long for a child by the same proportion.
    const nosy = setSitterShape(setSitterAge(first, 'sitter', 7), 'sitter', { noseProtrusionMm: 25 })
    expect(refusal(() => setSitterAge(nosy, 'sitter', 18)).path).toBe('sitters[0].shape.noseProtrusionMm')
  })
})

describe('a second sitter', () => {
  test('stands beside the first, like them, and can be taken away', () => {
    const { sitting: two, id } = addSitter(setSitterShape(first, 'sitter', 'broad'))
    expect(checkSitting(two)).toEqual([])
    const [one, other] = two.sitters
    expect(other.shape).toBe(one.shape)
    expect(other.id).toBe(id)
    // Farther apart than both are broad: no shoulder stands in another.
    expect(Math.hypot(other.xM - one.xM, other.zM - one.zM)).toBeGreaterThan(0.5)
    expect(removeThing(two, id).sitters).toEqual([one])
  })
  test('stands where no panel stands', () => {
    const [panel] = first.panels
    const moved = { ...first, panels: [{ ...panel, centreM: [0.5, 1.2, 0] as const }] }
    expect(addSitter(moved).sitting.sitters[1].xM).toBeLessThan(0)
  })
  test('has a shape of its own', () => {
    const { sitting: two, id } = addSitter(first)
    const shaped = setSitterShape(two, id, 'child')
    expect(shaped.sitters[0]).toBe(two.sitters[0])
    expect(shapeOf(shaped.sitters[1])).toEqual(SHAPE_PRESETS.child)
    expect(refusal(() => setSitterShape(two, id, { neckGirthMm: 10 })).path).toBe('sitters[1].shape.neckGirthMm')
  })
})
