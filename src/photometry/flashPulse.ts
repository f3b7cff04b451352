import { stopsFromRatio } from './stops'
import type { Metres, Seconds, Stops } from './units'

/**
 * A flash taken as a sudden rise and an exponential fall, E = E₀·exp(−t/τ). t₀.₅ is the time above half of the peak,
 * t₀.₁ above a tenth [ISO2827]; a level p is reached at t = τ·ln(1/p).
 */

/** Time to one level over time to another: t₀.₁/t₀.₅ = ln 10/ln 2 = 3.32. Levels in (0, 1). */
export const pulseTimeRatio = (level: number, reference: number): number => Math.log(level) / Math.log(reference)

/** Share of all its light that the pulse has given when it has fallen to a level: 1 − p. */
export const shareGivenAtLevel = (level: number): number => 1 - level

/** Stops (negative) lost to a shutter that closes a time after the start of the pulse: log₂(1 − 2^(−T/t₀.₅)). */
export const shutterCutStops = (tHalf: Seconds, closesAfter: Seconds): Stops =>
  stopsFromRatio(1 - 2 ** (-closesAfter / tHalf))

/** How far a thing travels during a time, m: blur of motion. */
export const travelDuring = (speed: number, time: Seconds): Metres => speed * time
