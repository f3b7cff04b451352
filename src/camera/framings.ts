import type { Metres } from '../photometry'
import { framingDistance } from './framing'

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

/** From the lens to the sitter for a field of that height on a sensor as high as it is held: f(1 + h/s). */
export const distanceForFraming = (name: FramingName, focalLengthMm: number, sensorHeightMm: number): Metres =>
  framingDistance(focalLengthMm, 1000 * FRAMINGS[name], sensorHeightMm) / 1000

/** Height of the field at a distance from the lens: s(u/f − 1), the inverse of the above. */
export const fieldHeightAt = (distanceM: Metres, focalLengthMm: number, sensorHeightMm: number): Metres =>
  sensorHeightMm * (distanceM / focalLengthMm - 1 / 1000)

/** The name whose field is within a tenth of this one; null: between names. */
export const framingNamed = (fieldM: Metres): FramingName | null =>
  FRAMING_NAMES.find((name) => Math.abs(fieldM / FRAMINGS[name] - 1) < 0.1) ?? null
