import { type IntensityTable, wholeCircle } from '../photometry'
import {
  checkAscending,
  checkCounts,
  checkLit,
  checkSize,
  numberIn,
  PhotometricFileError,
  type PhotometricLamp,
} from './photometric'
import { fromCrossAngles } from './photometric-types'

const FOOT_M = 0.3048
const HIGHEST = 1e9
const NAME_KEYS = ['LUMINAIRE', 'LUMCAT', 'MANUFAC']

/**
 * Reads an IES LM-63 file (editions 1986 to 2019): keywords, TILT, any photometric type, feet or metres, absolute or by lamp
 * lumens. Throws PhotometricFileError, which says where, what was expected and found, and what to do.
 */
export function readIes(text: string): PhotometricLamp {
  checkSize(text)
  const lines = text.split(/\r\n|\r|\n/)
  const tiltAt = lines.findIndex((line) => /^\s*TILT\s*=/i.test(line))
  if (tiltAt < 0)
    throw new PhotometricFileError('the head', 'a line TILT=', 'none', 'Is this an IES LM-63 file? Its name ends .ies.')
  const notes: string[] = []
  const words = new Words(lines.slice(tiltAt + 1).join(' '))
  const tilt = tiltFactor(lines[tiltAt]!, words, notes)
  const lamps = words.next('number of lamps', [1, 10_000], true)
  const lumens = words.next('lumens per lamp', [-1, HIGHEST])
  const multiplier = words.next('candela multiplier', [1e-9, HIGHEST])
  const angleCount = words.next('number of vertical angles', [1, 10_000], true)
  const planeCount = words.next('number of horizontal angles', [1, 10_000], true)
  checkCounts('the table', planeCount, angleCount)
  const type = words.next('photometric type', [1, 3], true)
  const metres = words.next('unit of length', [1, 2], true) === 1 ? FOOT_M : 1
  const [width, length, height] = ['width', 'length', 'height'].map((side) => words.next(side, [-1000, 1000]) * metres)
  const ballast = words.next('ballast factor', [1e-6, 1000])
  words.next('ballast-lamp factor', [0, HIGHEST])
  words.next('input watts', [0, HIGHEST])
  const list = (what: string, count: number, range: readonly [number, number]) =>
    Array.from({ length: count }, (_, i) => words.next(`${what} ${i + 1} of ${count}`, range))
  const angles = list('vertical angle', angleCount, type === 1 ? [0, 180] : [-90, 90])
  const planes = list('horizontal angle', planeCount, type === 1 ? [0, 360] : [-180, 180])
  checkAscending('vertical angles', angles)
  checkAscending('horizontal angles', planes)
  const scale = multiplier * ballast * tilt
  const candela = planes.map((plane) =>
    list(`intensity in plane ${plane}°,`, angleCount, [0, HIGHEST]).map((v) => v * scale),
  )
  checkLit('the table', candela)
  if (words.left > 0) notes.push(`${words.left} more words after the table were not read.`)
  if (height !== 0) notes.push('The luminous opening is taken as flat.')
  return {
    name: nameOf(lines.slice(0, tiltAt)),
    table: tableOf(type, planes, angles, candela),
    opening: openingOf(width!, length!),
    lampFluxLm: lumens < 0 ? null : lumens * lamps,
    notes,
  }
}

/** Words of the numeric part, one after another, wherever lines break. */
class Words {
  private readonly words: readonly string[]
  private at = 0
  constructor(text: string) {
    this.words = text.split(/[\s,]+/).filter((word) => word !== '')
  }
  get left(): number {
    return this.words.length - this.at
  }
  next(what: string, range: readonly [number, number], whole = false): number {
    return numberIn(what, this.words[this.at++], range, whole)
  }
}

/** How much of its light the lamp gives in the luminaire's own position; INCLUDE: the factor for a tilt of 0°. */
function tiltFactor(line: string, words: Words, notes: string[]): number {
  const value = line.slice(line.indexOf('=') + 1).trim()
  if (/^NONE$/i.test(value)) return 1
  if (!/^INCLUDE$/i.test(value)) {
    notes.push(`The tilt factors are in another file (${value.slice(0, 40)}); the lamp is taken as upright.`)
    return 1
  }
  words.next('lamp to luminaire geometry', [1, 3], true)
  const count = words.next('number of tilt angles', [1, 1000], true)
  const read = (what: string, range: readonly [number, number]) =>
    Array.from({ length: count }, (_, i) => words.next(`${what} ${i + 1} of ${count}`, range))
  const angles = read('tilt angle', [0, 180])
  const factors = read('tilt factor', [1e-6, 1000])
  checkAscending('tilt angles', angles)
  return factors[0]!
}

/** [LUMINAIRE] some words: the first of the keys that has any. */
function nameOf(head: readonly string[]): string {
  for (const key of NAME_KEYS) {
    const line = head.find((one) => one.trim().toUpperCase().startsWith(`[${key}]`))
    const words = line?.slice(line.indexOf(']') + 1).trim()
    if (words) return words.slice(0, 80)
  }
  return 'measured lamp'
}

function tableOf(
  type: number,
  planes: readonly number[],
  angles: readonly number[],
  candela: readonly (readonly number[])[],
): IntensityTable {
  if (type !== 1) return fromCrossAngles(type === 2 ? 'B' : 'A', planes, angles, candela)
  const whole = wholeCircle(planes, candela)
  if (whole) return { ...whole, anglesDeg: angles }
  const reach = `${planes[0]}° to ${planes[planes.length - 1]}°`
  throw new PhotometricFileError('horizontal angles', '0°, 0° to 90°, 180° or 360°, or 90° to 270°', reach)
}

/** Negative sides are round ones; width runs across the plane of 0°. Since 2002; before, round openings had two alike. */
function openingOf(width: number, length: number): PhotometricLamp['opening'] {
  const isRound = width < 0 || length < 0
  const [w, l] = [Math.abs(width), Math.abs(length)]
  return isRound
    ? { shape: 'disc', widthM: Math.max(w, l), lengthM: Math.max(w, l) }
    : { shape: 'rectangle', widthM: w, lengthM: l }
}
