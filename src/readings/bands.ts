import { degrees } from '../space'
import type { Band } from './types'

/**
 * One standard deviation of a prediction before any calibration: trade's error budget, common practice, no source.
 * After one reading per lamp and modifier the absolute figure falls to 0.3, measured.
 */
const guessed = (plusMinus: number, unit: string): Band => ({ plusMinus, unit, basis: 'guessed' })

export const BANDS = {
  exposure: guessed(0.7, 'stop'),
  /** A guide number from the maker takes the lamp's own doubt out, not the modifier's. */
  exposurePublished: { plusMinus: 0.5, unit: 'stop', basis: 'published' } as Band,
  /** After one real reading of head and modifier together. */
  exposureMeasured: { plusMinus: 0.3, unit: 'stop', basis: 'measured' } as Band,
  /** Of what modelling lamps give: lumens by watts and their place in the head, common practice, no source. */
  modelling: guessed(1, 'stop'),
  ratio: guessed(0.4, 'stop'),
  /** From cheek to cheek by one source: its falloff alone, which only its distance and face are in. */
  falloff: guessed(0.1, 'stop'),
  /** EV 6 to 7 of rooms lit to live in. */
  roomLight: guessed(0.5, 'stop'),
  shadow: guessed(0.7, 'stop'),
  backdrop: guessed(0.3, 'stop'),
  angle: guessed(3, '°'),
  /** Curve, coating and fit of glasses: ±10 to 15°, trade habit, no source. */
  glare: guessed(10, '°'),
  length: guessed(0.05, 'm'),
} as const

/** How well a lamp's colour is known, mired, and how far people and stands are off the tape, metres: common practice, no source. */
export const LAMP_MIRED = 10
const TAPE_M = 0.05

/** One digit: two would pretend. */
const rough = (value: number): number => Number(value.toPrecision(1))
const share = (value: number, of: number, unit: string): Band => guessed(rough(Math.abs(value) * of), unit)

/** ±25 % is also what a sitter's family cannot tell apart; written as finely as the width itself. */
export const edgeBand = (millimetres: number): Band =>
  guessed(millimetres < 5 ? Math.max(0.1, Math.round(millimetres * 2.5) / 10) : Math.round(millimetres / 4), 'mm')

/** Of what goes as a power of a distance that is taped: so many times the tape's own share of it. */
export const tapeBand = (value: number, distanceM: number, unit: string, power = 1): Band =>
  share(value, (power * TAPE_M) / Math.max(TAPE_M, distanceM), unit)

/** Of an angle seen from so far off. */
export const sightBand = (distanceM: number): Band =>
  guessed(rough(degrees(Math.atan(TAPE_M / Math.max(TAPE_M, distanceM)))), '°')

/** Light that goes past or into a thing, by half a stop: shares under a half are off by a third or so. */
export const spillBand = (value: number, unit: '%' | 'sr'): Band =>
  guessed(Math.max(unit === '%' ? 1 : 0.1, rough(0.3 * value)), unit)

/** Of a colour temperature: as well as the lamps are known. */
export const kelvinBand = (kelvin: number): Band => guessed(rough((LAMP_MIRED * kelvin ** 2) / 1e6), 'K')

/** Of a picture's code: what the backdrop's own band does to it. */
export const codeBand = (codeAt: (stops: number) => number): Band =>
  guessed(Math.max(1, Math.round((codeAt(BANDS.backdrop.plusMinus) - codeAt(-BANDS.backdrop.plusMinus)) / 2)), 'of 255')

/**
 * How long a flash lasts: not known, 1/300 to 1/2000 s; at full, as its maker says; at another dial by a law between two such times.
 * Trade habit, no source.
 */
export const durationBand = (millimetres: number, basis: 'not known' | 'at full' | 'at the dial'): Band => {
  const of = { 'not known': 0.6, 'at full': 0.2, 'at the dial': 0.3 }[basis]
  return { plusMinus: rough(of * millimetres), unit: 'mm', basis: basis === 'not known' ? 'guessed' : 'published' }
}

/** Of where a catchlight lies: half of the angle's band on a cornea of 8 mm, mm; and what that is round the clock, minutes. */
export const CATCHLIGHT_MM = 0.2
export const catchlightBand = guessed(CATCHLIGHT_MM, 'mm')
export const clockBand = (offMiddleMm: number): Band =>
  guessed(Math.min(360, Math.max(5, Math.round((2 * degrees(Math.atan2(CATCHLIGHT_MM, offMiddleMm))) / 5) * 5)), 'min')
