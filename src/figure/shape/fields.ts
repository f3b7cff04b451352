/**
 * What a sitter's shape is: lengths that the finished sitter has, in millimetres, and two proportions that no length names.
 * One table gives unit, range, usual range, default and meaning of each; validation, controls and tests read it.
 */
export interface ShapeField {
  readonly label: string
  readonly unit: 'mm' | 'years' | ''
  /** Hard limits, both allowed. */
  readonly range: readonly [number, number]
  /** The first sitter's. */
  readonly default: number
  readonly step: number
  readonly meaning: string
}

const field = (
  label: string,
  unit: ShapeField['unit'],
  range: readonly [number, number],
  standard: number,
  step: number,
  meaning: string,
): ShapeField => ({ label, unit, range, default: standard, step, meaning })

export const SHAPE_FIELDS = {
  headBreadthMm: field('Head breadth', 'mm', [132, 166], 149.2, 0.5, 'Greatest breadth of the skull over the ears'),
  headLengthMm: field('Head length', 'mm', [168, 214], 193.9, 0.5, 'From between the brows to the back of the skull'),
  faceLengthMm: field('Face length', 'mm', [94, 136], 120, 0.5, 'From the root of the nose to under the chin'),
  eyeDepthMm: field('Eye depth', 'mm', [7, 18], 13, 0.1, 'How far the cornea lies behind the brow: more is deep-set'),
  noseBridgeMm: field('Nose bridge', 'mm', [1, 13], 8, 0.1, 'How far the root of the nose stands before the cornea'),
  noseProtrusionMm: field('Nose protrusion', 'mm', [14.8, 27], 20.4, 0.1, 'From the base of the nose to its tip'),
  jawWidthMm: field('Jaw width', 'mm', [78, 124], 101.2, 0.5, 'Between the angles of the jaw, over the skin'),
  lipFullnessMm: field('Lips', 'mm', [10, 25], 16.8, 0.1, 'Height of the red of both lips at the midline'),
  shoulderBreadthMm: field('Shoulder breadth', 'mm', [250, 540], 456, 1, 'Across both upper arms'),
  neckGirthMm: field('Neck girth', 'mm', [230, 440], 380, 1, 'Circumference of the neck half-way up'),
  masculinity: field(
    'Feminine to masculine',
    '',
    [-1, 1],
    0,
    0.05,
    'Brow ridge, forehead, chin, cheeks, throat and slope of the shoulders: −1 feminine, 1 masculine',
  ),
  ageYears: field(
    'Age',
    'years',
    [7, 18],
    18,
    0.5,
    'Proportions of a child of that age where no length names them; 18 is every adult',
  ),
} as const satisfies Record<string, ShapeField>

export type ShapeFieldName = keyof typeof SHAPE_FIELDS
export type FigureShape = Readonly<Record<ShapeFieldName, number>>
export const SHAPE_FIELD_NAMES = Object.keys(SHAPE_FIELDS) as ShapeFieldName[]

/** The first sitter, as assets/sitter.glb holds it. */
export const AVERAGE_SHAPE = Object.fromEntries(
  SHAPE_FIELD_NAMES.map((name) => [name, SHAPE_FIELDS[name].default]),
) as FigureShape

/** A shape that cannot be made. where: a field, or 'lengths' where no single one is at fault. */
export class ShapeError extends Error {
  constructor(
    readonly where: string,
    readonly expected: string,
    readonly got: string,
    readonly remedy: string,
  ) {
    super(`shape.${where}: expected ${expected}, got ${got}; ${remedy}`)
    this.name = 'ShapeError'
  }
}

/** Throws ShapeError for the first field that is missing or outside its range. */
export function checkShape(shape: FigureShape): void {
  for (const name of SHAPE_FIELD_NAMES) {
    const { range, unit } = SHAPE_FIELDS[name]
    const value: unknown = shape[name]
    if (typeof value === 'number' && value >= range[0] && value <= range[1]) continue
    const expected = `${range[0]} to ${range[1]}${unit && ` ${unit}`}`
    throw new ShapeError(name, expected, String(value), 'start from one of the presets')
  }
}

/** 1 at seven years, 0 from eighteen on. */
export function childhood(ageYears: number): number {
  const { range, default: grown } = SHAPE_FIELDS.ageYears
  return (grown - ageYears) / (grown - range[0])
}
