import type { Metres } from '../photometry'

/** Upright framings by name: how much of the sitter the frame is high, metres. Trade habit, no source. */
export const FRAMINGS = {
  'tight head': 0.45,
  'head and shoulders': 0.7,
  'half length': 1,
  'three-quarter': 1.4,
  'full length': 2.1,
} as const
export type FramingName = keyof typeof FRAMINGS
export const FRAMING_NAMES = Object.keys(FRAMINGS) as readonly FramingName[]

/**
 * From the lens to the sitter for a field of that height on a sensor as high as it is held: f·h/s. The picture is a pinhole's, a focal
 * length before the sensor, so this is what it shows; a lens that is moved out to focus takes in f less: f(1 + h/s).
 */
export const distanceForFraming = (name: FramingName, focalLengthMm: number, sensorHeightMm: number): Metres =>
  (focalLengthMm * FRAMINGS[name]) / sensorHeightMm

/** Height of the field of the picture at a distance from the lens: s·u/f. */
export const fieldHeightAt = (distanceM: Metres, focalLengthMm: number, sensorHeightMm: number): Metres =>
  (sensorHeightMm * distanceM) / focalLengthMm

/** The name whose field is within a tenth of this one; null: between names. */
export const framingNamed = (fieldM: Metres): FramingName | null =>
  FRAMING_NAMES.find((name) => Math.abs(fieldM / FRAMINGS[name] - 1) < 0.1) ?? null
