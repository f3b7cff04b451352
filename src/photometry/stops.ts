import type { Stops } from './units'

/** A stop is a factor of two in light. Positive: more than the reference. Both in the same unit, both > 0. */
export const stopsFromRatio = (ratio: number): Stops => Math.log2(ratio)
export const ratioFromStops = (stops: Stops): number => 2 ** stops
export const stopsBetween = (from: number, to: number): Stops => stopsFromRatio(to / from)
