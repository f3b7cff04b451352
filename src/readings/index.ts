/**
 * readings: every number as a record with unit, band, place and reason. In: a sitting, its rig and a ray caster over
 * the rig's bodies; out: readings, cautions, and what re-exposure does. solve: how many stops give an f-number.
 */

export { sharpFrom } from './camera'
export * from './compare'
export { differenceReasons } from './compare-reasons'
export * from './edge-cut'
export { type EdgeRays, edgeRaysOf, edgeWidthM } from './edge-rays'
export { GRID_PLACES, type GridAnswer, type GridInput, gridSteps } from './grid'
export * from './half-room'
export type { IndirectStore } from './light-table'
export { litOutline, type OutlineLine } from './lit-outline'
export { type HiddenMeters, hiddenMeters } from './meters-seen'
export { type MovedInput, movedSteps, OFFS, type Off, type Shifts, type ShiftsById, shiftWords } from './moved'
export { noseEdge, noseGapM } from './nose-gap'
export type { Pattern } from './pattern'
export { stopsForFNumber } from './power'
export * from './settled'
export * from './solve'
export type { Exposure } from './stage'
export * from './take-readings'
export * from './types'
export {
  dialFraction,
  dialOf,
  dialStop,
  figure,
  landmarkWords,
  lengthText,
  roundTo,
  side,
  signed,
  softness,
  type Units,
} from './words'
