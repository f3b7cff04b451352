import { formatNearestThird } from '../camera'
import { feetFromMetres, ratioFromStops } from '../photometry'
import type { Head } from '../sitting'
import { BANDS } from './bands'
import type { Band } from './types'

export type Units = 'metres' | 'feet'

const MINUS = '−'

/** A number at so many decimals with a true minus sign; what rounds to nothing has no sign. */
export function figure(value: number, digits = 0): string {
  const rounded = Math.abs(value).toFixed(digits)
  return value < 0 && Number(rounded) !== 0 ? `${MINUS}${rounded}` : rounded
}

/** The same with a plus sign where it is more. */
export const signed = (value: number, digits = 1): string => {
  const text = figure(value, digits)
  return value > 0 && Number(text) !== 0 ? `+${text}` : text
}

/** A length as a tape shows it: metres to the centimetre, or feet and inches to the half inch. Without the unit 'm'. */
export function lengthText(metres: number, units: Units): string {
  if (units === 'metres') return figure(metres, 2)
  const halves = Math.round(feetFromMetres(Math.abs(metres)) * 24)
  const feet = Math.floor(halves / 24)
  const inches = Math.floor((halves % 24) / 2)
  const half = halves % 2 === 1 ? '½' : ''
  const whole = half && inches === 0 ? '' : `${inches}`
  return `${metres < 0 ? MINUS : ''}${feet}′ ${whole}${half}″`
}

export const lengthUnit = (units: Units): string => (units === 'metres' ? 'm' : '')
export const lengthPhrase = (metres: number, units: Units): string =>
  units === 'metres' ? `${lengthText(metres, units)} m` : lengthText(metres, units)

/** A short length: centimetres, or inches to the half inch. */
export const shortPhrase = (metres: number, units: Units): string =>
  units === 'metres' ? `${figure(metres * 100)} cm` : lengthText(metres, units).replace('0′ ', '')
/** A band in metres, in the units of the tape. */
export const inTape = (band: Band, units: Units): Band =>
  units === 'metres'
    ? band
    : { ...band, plusMinus: Math.max(0.5, Math.round(feetFromMetres(band.plusMinus) * 24) / 2), unit: 'in' }
/** How well a length is known. */
export const lengthBand = (units: Units): Band => inTape(BANDS.length, units)

/** Camera left or right, in words: positive is right. */
export const side = (signedValue: number): string => (signedValue >= 0 ? 'camera right' : 'camera left')
/** The same for an angle round from a line: under half a degree it has no side. */
export const roundTo = (degrees: number): string => (Math.abs(degrees) < 0.5 ? 'straight on' : `to ${side(degrees)}`)

/** 'f/9': what the camera's dial can do. */
export const dialStop = formatNearestThird

/** '1/160 s', '0.5 s'. */
export const shutterText = (seconds: number): string =>
  seconds < 0.4 ? `1/${figure(1 / seconds)} s` : `${figure(seconds, 1)} s`

/**
 * A power as a flash head's dial writes it: the nearest full step and the tenths from it, full, 1/2, 1/8 − 0.1, 1/32 + 0.2. One way
 * for fields, readings and the sheet; over full: full + 1.2. stops: 0 is full.
 */
export function dialFraction(stops: number): string {
  const tenths = Math.round(stops * 10)
  const whole = Math.min(0, Math.round(tenths / 10))
  const rest = tenths - 10 * whole
  const name = whole === 0 ? 'full' : `1/${2 ** -whole}`
  return rest === 0 ? name : `${name} ${rest > 0 ? '+' : MINUS} ${(Math.abs(rest) / 10).toFixed(1)}`
}

/** Of a dial in numbers, at full: common practice, no source. */
const DIAL_TOP = 10

/** A power as the dial of this head writes it: 1/4 − 0.3, 7.7, or 92 J. */
export function dialOf(
  { dialStyle, dialTop = DIAL_TOP, energyJ }: Pick<Head, 'dialStyle' | 'dialTop' | 'energyJ'>,
  stops: number,
): string {
  if (dialStyle === 'numbers') return figure(dialTop + stops, 1)
  if (dialStyle !== 'joules') return dialFraction(stops)
  const joules = energyJ * ratioFromStops(stops)
  return `${figure(joules, joules < 10 ? 1 : 0)} J`
}

const SOFTNESS = ['hard', 'crisp', 'medium', 'soft', 'very soft'] as const
/** By the apparent size: common practice, no source (under 6° hard … over 50° very soft). */
function softnessAt(degrees: number): number {
  if (degrees < 6) return 0
  if (degrees < 15) return 1
  if (degrees < 30) return 2
  return degrees <= 50 ? 3 : 4
}

/** How soft a source looks, by its apparent size. */
export const softness = (degrees: number): string => SOFTNESS[softnessAt(degrees)]

/** The same with its place among all: 'medium (3 of 5, hard to very soft)'. */
export const softnessOfAll = (degrees: number): string =>
  `${softness(degrees)} (${softnessAt(degrees) + 1} of ${SOFTNESS.length}, ${SOFTNESS[0]} to ${SOFTNESS.at(-1)})`

const LANDMARK_WORDS: Readonly<Record<string, string>> = {
  chin: 'the chin',
  noseTip: 'the nose',
  foreheadCentre: 'the forehead',
  cheekLeft: 'the cheek at camera right',
  cheekRight: 'the cheek at camera left',
  earLeft: 'the ear at camera right',
  earRight: 'the ear at camera left',
  crown: 'the crown',
  backOfHead: 'the back of the head',
  sternalNotch: 'the throat',
  shoulderLeft: 'the shoulder at camera right',
  shoulderRight: 'the shoulder at camera left',
}
/** Places of the sitter that an aim is named after. The sitter's own left is camera right when facing the lens. */
export const AIM_LANDMARKS = Object.keys(LANDMARK_WORDS)
export const landmarkWords = (name: string): string => LANDMARK_WORDS[name] ?? name

const COUNTS = ['', '', 'two', 'three', 'four', 'five', 'six']

/** Things by their word, each kind once: 'the white panel', 'two white panels'. */
export function counted(words: readonly string[]): readonly string[] {
  return [...new Set(words)].map((word) => {
    const count = words.filter((other) => other === word).length
    return count === 1 ? `the ${word}` : `${COUNTS[count] ?? count} ${word}s`
  })
}
