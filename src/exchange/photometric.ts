import type { IntensityTable } from '../photometry'

/** A measured luminaire, out of an IES LM-63 or EULUMDAT file. */
export interface PhotometricLamp {
  readonly name: string
  readonly table: IntensityTable
  /** The luminous opening, square to its axis: length in the plane of 0°, width across it. Round: both its diameter. A point: 0 by 0. */
  readonly opening: { readonly shape: 'rectangle' | 'disc'; readonly widthM: number; readonly lengthM: number }
  /** Of the lamps in it, lm; null: the intensities are absolute. */
  readonly lampFluxLm: number | null
  /** What was taken for granted in reading it, in words for the photographer. */
  readonly notes: readonly string[]
}

/** What is wrong with a photometric file: where, what was expected and found, what to do. */
export class PhotometricFileError extends Error {
  constructor(
    readonly where: string,
    readonly expected: string,
    readonly got: string,
    readonly advice = 'Ask the maker for the file again, or take another one.',
  ) {
    super(`${where}: expected ${expected}, got ${got}. ${advice}`)
    this.name = 'PhotometricFileError'
  }
}

/** Larger files are no luminaires. */
const LARGEST_CHARACTERS = 4_000_000
const MOST_ENTRIES = 400_000

export function checkSize(text: string): void {
  if (text.length > LARGEST_CHARACTERS)
    throw new PhotometricFileError('the file', `at most ${LARGEST_CHARACTERS} characters`, String(text.length))
}

export function checkCounts(where: string, planes: number, angles: number): void {
  if (planes * angles > MOST_ENTRIES)
    throw new PhotometricFileError(where, `at most ${MOST_ENTRIES} intensities`, `${planes} × ${angles}`)
}

/** A number in a range; whole: without a fraction. */
export function numberIn(
  where: string,
  text: string | undefined,
  [low, high]: readonly [number, number],
  whole = false,
): number {
  const trimmed = (text ?? '').trim()
  const value = trimmed === '' ? Number.NaN : Number(trimmed)
  const isRight = Number.isFinite(value) && value >= low && value <= high && !(whole && !Number.isInteger(value))
  if (isRight) return value
  const got = text === undefined ? 'the end of the file' : JSON.stringify(trimmed.slice(0, 40))
  throw new PhotometricFileError(where, `a ${whole ? 'whole ' : ''}number from ${low} to ${high}`, got)
}

export function checkAscending(where: string, values: readonly number[]): void {
  const at = values.findIndex((value, i) => i > 0 && !(value > values[i - 1]!))
  if (at >= 0) throw new PhotometricFileError(where, 'angles that ascend', `${values[at - 1]}° and then ${values[at]}°`)
}

export function checkLit(where: string, candela: readonly (readonly number[])[]): void {
  if (!candela.some((row) => row.some((value) => value > 0)))
    throw new PhotometricFileError(where, 'some intensity above 0 cd', 'none')
}
