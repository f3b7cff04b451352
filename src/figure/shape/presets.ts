/** Ready shapes, named by what they show. Sources beside the figures in tests/figure/presets.test.ts. */
import {
  AVERAGE_SHAPE,
  checkShape,
  childhood,
  type FigureShape,
  SHAPE_FIELD_NAMES,
  SHAPE_FIELDS,
  type ShapeFieldName,
} from './fields'

const like = (changes: Partial<FigureShape>): FigureShape => ({ ...AVERAGE_SHAPE, ...changes })

export const SHAPE_PRESETS = {
  average: AVERAGE_SHAPE,
  narrow: like({ headBreadthMm: 141, headLengthMm: 200, faceLengthMm: 125, jawWidthMm: 95, shoulderBreadthMm: 440 }),
  broad: like({
    headBreadthMm: 159,
    headLengthMm: 188,
    faceLengthMm: 115,
    jawWidthMm: 113,
    neckGirthMm: 400,
    shoulderBreadthMm: 480,
  }),
  deepSet: like({ eyeDepthMm: 17, noseBridgeMm: 11 }),
  shallowSet: like({ eyeDepthMm: 9.6, noseBridgeMm: 5.5 }),
  lowBridge: like({ noseBridgeMm: 3, noseProtrusionMm: 18.9 }),
  highBridge: like({ noseBridgeMm: 11.5, noseProtrusionMm: 23 }),
  feminine: like({
    headBreadthMm: 147.5,
    headLengthMm: 189.5,
    faceLengthMm: 114,
    eyeDepthMm: 11,
    noseBridgeMm: 7,
    noseProtrusionMm: 19,
    jawWidthMm: 98.5,
    lipFullnessMm: 18.5,
    shoulderBreadthMm: 430,
    neckGirthMm: 332,
    masculinity: -1,
  }),
  masculine: like({
    headBreadthMm: 154,
    headLengthMm: 199,
    faceLengthMm: 123,
    eyeDepthMm: 14.5,
    noseBridgeMm: 9,
    noseProtrusionMm: 21,
    jawWidthMm: 112,
    lipFullnessMm: 15.5,
    shoulderBreadthMm: 506,
    neckGirthMm: 396,
    masculinity: 1,
  }),
  child: like({
    headBreadthMm: 141,
    headLengthMm: 180,
    faceLengthMm: 101,
    eyeDepthMm: 9.5,
    noseBridgeMm: 4,
    noseProtrusionMm: 16,
    jawWidthMm: 86,
    lipFullnessMm: 13,
    shoulderBreadthMm: 306,
    neckGirthMm: 272,
    ageYears: 7,
  }),
} as const satisfies Record<string, FigureShape>

export type ShapePresetName = keyof typeof SHAPE_PRESETS
export const SHAPE_PRESET_NAMES = Object.keys(SHAPE_PRESETS) as ShapePresetName[]

/**
 * The same person at another age, 7 to 18 years: every length in the proportion that it has between the child and the average
 * sitter. Throws ShapeError for an age outside that range.
 */
export function atAge(shape: FigureShape, ageYears: number): FigureShape {
  const { child } = SHAPE_PRESETS
  const share = (name: ShapeFieldName, age: number) => 1 + (child[name] / AVERAGE_SHAPE[name] - 1) * childhood(age)
  const lengths = SHAPE_FIELD_NAMES.filter((name) => SHAPE_FIELDS[name].unit === 'mm')
  const aged = {
    ...shape,
    ageYears,
    ...Object.fromEntries(
      lengths.map((name) => [name, (shape[name] * share(name, ageYears)) / share(name, shape.ageYears)]),
    ),
  }
  checkShape(aged)
  return aged
}
