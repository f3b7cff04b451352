import {
  type FigureShape,
  SHAPE_FIELD_NAMES,
  SHAPE_FIELDS,
  SHAPE_PRESETS,
  type ShapeFieldName,
  type ShapePresetName,
} from '../../figure'
import { shapeFault } from '../../rig'
import { EditRefused, type Sitter, type Sitting, setSitterAge, setSitterShape, shapeOf } from '../../sitting'
import { useDerivedNow } from '../derived'
import { quantities } from '../values'
import { choice, fold, number, type Row } from './model'

const PRESET_WORDS: Readonly<Record<ShapePresetName, string>> = {
  average: 'Average',
  narrow: 'Narrow face',
  broad: 'Broad face',
  deepSet: 'Deep-set eyes',
  shallowSet: 'Shallow eyes',
  lowBridge: 'Low bridge',
  highBridge: 'High bridge',
  feminine: 'Feminine',
  masculine: 'Masculine',
  child: 'Child, 7 years',
}
const PRESETS = Object.entries(PRESET_WORDS).map(([value, label]) => ({ value, label }))
/** What is shown where no preset has these lengths; it cannot be chosen. */
const DIALLED = { value: '', label: 'As dialled' }

/** Short words for the rows, in their order; the table's own stand beside them in full. */
const MEASURES: readonly (readonly [Exclude<ShapeFieldName, 'ageYears'>, string])[] = [
  ['headBreadthMm', 'breadth'],
  ['headLengthMm', 'length'],
  ['faceLengthMm', 'face'],
  ['jawWidthMm', 'jaw'],
  ['eyeDepthMm', 'eyes'],
  ['noseBridgeMm', 'bridge'],
  ['noseProtrusionMm', 'nose'],
  ['lipFullnessMm', 'lips'],
  ['neckGirthMm', 'neck'],
  ['shoulderBreadthMm', 'shoulder breadth'],
  ['masculinity', 'feminine to masculine'],
]

/** Steps of a tenth add up to 8.100000000000001. */
const rounded = (value: number): number => Number(value.toFixed(3))
const CLOSE = 1e-6

const presetOf = (shape: FigureShape): string =>
  PRESETS.find(({ value }) =>
    SHAPE_FIELD_NAMES.every((name) => Math.abs(shape[name] - SHAPE_PRESETS[value as ShapePresetName][name]) < CLOSE),
  )?.value ?? DIALLED.value

/** Throws EditRefused where the lengths together would fold the skin: only the loaded figure can tell. */
function makeable(sitting: Sitting): Sitting {
  const { asset } = useDerivedNow.getState()
  const fault = asset && shapeFault(sitting, asset)
  if (fault) throw new EditRefused(fault)
  return sitting
}

/** A ready shape, the age, and every length behind one word. */
export function shapeRows(sitter: Sitter): Row[] {
  const shape = shapeOf(sitter)
  const preset = presetOf(shape)
  const lengths = MEASURES.map(([name, label]) => {
    const { range, step, unit, label: full } = SHAPE_FIELDS[name]
    return number(name, {
      label,
      named: full.toLowerCase(),
      quantity: quantities.plain(unit, step),
      value: shape[name],
      range,
      change: (sitting, value) => makeable(setSitterShape(sitting, sitter.id, { [name]: rounded(value) })),
    })
  })
  const { range, step, unit } = SHAPE_FIELDS.ageYears
  return [
    choice('shape', {
      label: 'shape',
      value: preset,
      choices: preset === DIALLED.value ? [DIALLED, ...PRESETS] : PRESETS,
      change: (sitting, value) => setSitterShape(sitting, sitter.id, value as ShapePresetName),
    }),
    number('age', {
      label: 'age',
      takesAlong: 'measures in proportion',
      quantity: quantities.plain(unit, step),
      value: shape.ageYears,
      range,
      change: (sitting, value) => makeable(setSitterAge(sitting, sitter.id, rounded(value))),
    }),
    fold('measures', 'measures', lengths),
  ]
}
