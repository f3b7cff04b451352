/**
 * Sitters of every preset against measured people: means and standard deviations from shared/check-values.json, by id
 * (ANT-A2: ANSUR II 2012; ANT-NI: NIOSH 2003; each record names its source). A sitter passes within one deviation.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import {
  AVERAGE_SHAPE,
  type FigureAsset,
  SHAPE_PRESET_NAMES,
  SHAPE_PRESETS,
  type ShapeFieldName,
  type ShapePresetName,
  shapeFigure,
} from '../../src/figure'
import * as m from './mesh-callipers'
import { asset as first } from './sculpture'

const sitters = Object.fromEntries(
  SHAPE_PRESET_NAMES.map((name) => [name, shapeFigure(first, SHAPE_PRESETS[name])]),
) as Record<ShapePresetName, FigureAsset>

interface Spread {
  readonly mean: number
  readonly sd: number
}
interface PublishedRecord {
  readonly id: string
  readonly expected: { readonly female: Spread; readonly male: Spread }
}
const published = new Map(
  (JSON.parse(readFileSync('shared/check-values.json', 'utf8')) as PublishedRecord[]).map((r) => [r.id, r.expected]),
)
function people(id: string, sex: 'female' | 'male'): Spread {
  const record = published.get(id)
  if (!record) throw new Error(`no record ${id} in shared/check-values.json`)
  return record[sex]
}

type Measure = (asset: FigureAsset) => number
const across =
  (name: m.Place): Measure =>
  (asset) =>
    2 * m.place(asset, name)[0]
const between =
  (a: Parameters<typeof m.place>[1], b: Parameters<typeof m.place>[1]): Measure =>
  (asset) =>
    m.gap(m.place(asset, a), m.place(asset, b))
const below =
  (upper: Parameters<typeof m.place>[1], lower: Parameters<typeof m.place>[1]): Measure =>
  (asset) =>
    m.place(asset, upper)[1] - m.place(asset, lower)[1]
const headGirth: Measure = (asset) => m.girth(asset, m.place(asset, 'overEars')[1])
/** Half-way up, where the neck widens by 3 mm in each millimetre downwards. */
const neckGirth: Measure = (asset) =>
  m.girth(asset, (m.place(asset, 'throat')[1] + m.place(asset, 'neckSide')[1] + m.place(asset, 'nape')[1]) / 3)
/** Over the cloth, which is up to 4 mm thick. */
const shoulders: Measure = (asset) => m.breadthOf(asset, 'garment', -320, -180) - 6

const DIMENSIONS: readonly (readonly [what: string, id: string, measure: Measure])[] = [
  ['head length', 'ANT-A2-headlength', between('glabella', 'opisthocranion')],
  ['head length', 'ANT-NI-HEADLTH', between('glabella', 'opisthocranion')],
  ['head breadth', 'ANT-A2-headbreadth', across('euryon')],
  ['head breadth', 'ANT-NI-HEADBR', across('euryon')],
  ['head circumference', 'ANT-A2-headcircumference', headGirth],
  ['bizygomatic breadth', 'ANT-A2-bizygomaticbreadth', across('zygion')],
  ['bizygomatic breadth', 'ANT-NI-BIZYGOBR', across('zygion')],
  ['face length', 'ANT-A2-mentonsellionlength', between('sellion', 'menton')],
  ['face length', 'ANT-NI-MENSELL', between('sellion', 'menton')],
  ['interpupillary breadth', 'ANT-A2-interpupillarybreadth', between('pupilLeft', 'pupilRight')],
  ['tragion below vertex', 'ANT-A2-tragiontopofhead', below('vertex', 'tragion')],
  ['eye below vertex', 'ANT-A2-D-sitting-eye', below('vertex', 'pupilLeft')],
  ['cervicale below vertex', 'ANT-A2-D-stature-cervicale', below('vertex', 'cervicale')],
  ['neck pit below vertex', 'ANT-A2-D-stature-suprasternale', below('vertex', 'sternalNotch')],
  ['neck circumference', 'ANT-A2-neckcircumference', neckGirth],
  ['shoulder breadth', 'ANT-A2-bideltoidbreadth', shoulders],
  ['minimum frontal breadth', 'ANT-NI-MINFRBR', across('frontotemporale')],
  ['nose breadth', 'ANT-NI-NOSEBR', across('alare')],
  ['lip length', 'ANT-NI-LIPLTH', across('cheilion')],
  ['nose height', 'ANT-NI-SUBNASAL', between('sellion', 'subnasale')],
  ['nose protrusion', 'ANT-NI-NOSEPRO', between('subnasale', 'noseTip')],
]

/** No survey of the breadth over both ears is at hand: common practice of those who draw heads, no source. */
test('average: from ear to ear it is 172 to 192 mm', () => {
  const breadth = m.breadthOf(sitters.average, 'skin', -50, 30)
  expect(breadth).toBeGreaterThan(172)
  expect(breadth).toBeLessThan(192)
})

test.each(DIMENSIONS)('average: %s lies within one deviation of women or men, or between (%s)', (_, id, measure) => {
  const [women, men] = [people(id, 'female'), people(id, 'male')]
  expect(measure(sitters.average)).toBeGreaterThan(Math.min(women.mean - women.sd, men.mean - men.sd))
  expect(measure(sitters.average)).toBeLessThan(Math.max(women.mean + women.sd, men.mean + men.sd))
})

describe.each([
  ['feminine', 'female'],
  ['masculine', 'male'],
] as const)('%s', (preset, sex) => {
  test.each(DIMENSIONS)('%s lies within one deviation of the mean (%s)', (_, id, measure) => {
    const { mean, sd } = people(id, sex)
    expect(Math.abs(measure(sitters[preset]) - mean)).toBeLessThan(sd)
  })

  /** Lean like the average sitter's (see anthropometry.test.ts). */
  test('jaw width lies within 1.5 deviations (NIOSH)', () => {
    const { mean, sd } = people('ANT-NI-BIGONLBR', sex)
    expect(Math.abs(across('gonion')(sitters[preset]) - mean)).toBeLessThan(1.5 * sd)
  })
})

/** Breadth over length of the head, and the jaw, within two deviations of somebody: unusual, not impossible. */
test.each(['narrow', 'broad'] as const)('%s: within two deviations of women or men', (preset) => {
  for (const [what, id, measure] of DIMENSIONS) {
    const [women, men] = [people(id, 'female'), people(id, 'male')]
    expect(measure(sitters[preset]), what).toBeGreaterThan(Math.min(women.mean - 2 * women.sd, men.mean - 2 * men.sd))
    expect(measure(sitters[preset]), what).toBeLessThan(Math.max(women.mean + 2 * women.sd, men.mean + 2 * men.sd))
  }
})

test('narrow and broad lie more than two deviations of head breadth apart (ANSUR II)', () => {
  const apart = across('euryon')(sitters.broad) - across('euryon')(sitters.narrow)
  expect(apart).toBeGreaterThan(2 * people('ANT-A2-headbreadth', 'male').sd)
})

/**
 * Children of about seven, mean and what is accepted either side, mm. From memory: growth tables of head and face (Farkas
 * 1994) and of children's body sizes (Snyder 1977); no record in check-values.
 */
const CHILDREN: readonly (readonly [what: string, measure: Measure, mean: number, within: number])[] = [
  ['head length', between('glabella', 'opisthocranion'), 180, 6],
  ['head breadth', across('euryon'), 141, 5],
  ['head circumference', headGirth, 520, 16],
  ['bizygomatic breadth', across('zygion'), 117, 5],
  ['jaw width', across('gonion'), 87, 5],
  ['face length', between('sellion', 'menton'), 101, 5],
  ['nose height', between('sellion', 'subnasale'), 43, 3.5],
  ['nose protrusion', between('subnasale', 'noseTip'), 15.5, 2],
  ['nose breadth', across('alare'), 29.5, 3],
  ['lip length', across('cheilion'), 44, 3.5],
  ['inner canthi', across('innerCanthus'), 29.5, 3],
  ['outer canthi', across('outerCanthus'), 81, 4],
  ['interpupillary breadth', between('pupilLeft', 'pupilRight'), 55, 3],
  ['neck circumference', neckGirth, 272, 15],
  ['shoulder breadth', shoulders, 306, 18],
]
test.each(CHILDREN)('child: %s is that of about seven years', (_, measure, mean, within) => {
  expect(Math.abs(measure(sitters.child) - mean)).toBeLessThan(within)
})

test('a child has a small face under a large cranium, and large eyes in it', () => {
  const ratio = (a: Measure, b: Measure) => [a(sitters.child) / b(sitters.child), a(first) / b(first)]
  const [faceOfChild, faceOfAdult] = ratio(between('sellion', 'menton'), between('glabella', 'opisthocranion'))
  expect(faceOfChild).toBeLessThan(0.93 * faceOfAdult)
  const lids: Measure = (asset) => (across('outerCanthus')(asset) - across('innerCanthus')(asset)) / 2
  const [eyesOfChild, eyesOfAdult] = ratio(lids, between('sellion', 'menton'))
  expect(eyesOfChild).toBeGreaterThan(1.05 * eyesOfAdult)
  const neck = below('menton', 'sternalNotch')
  const [neckOfChild, neckOfAdult] = ratio(neck, between('sellion', 'menton'))
  expect(neckOfChild).toBeLessThan(0.85 * neckOfAdult)
})

const NAMED: readonly (readonly [ShapeFieldName, Measure, number])[] = [
  ['headBreadthMm', across('euryon'), 0.5],
  ['headLengthMm', between('glabella', 'opisthocranion'), 0.5],
  ['faceLengthMm', between('sellion', 'menton'), 0.5],
  ['eyeDepthMm', (a) => m.place(a, 'glabella')[2] - m.place(a, 'pupilLeft')[2], 0.3],
  ['noseBridgeMm', (a) => m.place(a, 'sellion')[2] - m.place(a, 'pupilLeft')[2], 0.3],
  ['noseProtrusionMm', between('subnasale', 'noseTip'), 0.3],
  ['jawWidthMm', across('gonion'), 0.5],
  ['lipFullnessMm', between('upperLip', 'lowerLip'), 0.5],
  // Of the cloth over them, whose folds shrink with a child.
  ['shoulderBreadthMm', shoulders, 6.5],
  // Round the mesh's own coarse facets: 2 % of a neck.
  ['neckGirthMm', neckGirth, 8],
]
test.each(SHAPE_PRESET_NAMES)('%s: differs from the first sitter by the lengths that its shape names', (preset) => {
  for (const [name, measure, within] of NAMED) {
    const named = SHAPE_PRESETS[preset][name] - AVERAGE_SHAPE[name]
    expect(Math.abs(measure(sitters[preset]) - measure(first) - named), name).toBeLessThan(within)
  }
})
