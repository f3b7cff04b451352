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
  shadow: guessed(0.7, 'stop'),
  backdrop: guessed(0.3, 'stop'),
  angle: guessed(3, '°'),
  length: guessed(0.05, 'm'),
} as const

/** ±25 % is also what a sitter's family cannot tell apart; written as finely as the width itself. */
export const edgeBand = (millimetres: number): Band =>
  guessed(millimetres < 5 ? Math.max(0.1, Math.round(millimetres * 2.5) / 10) : Math.round(millimetres / 4), 'mm')
