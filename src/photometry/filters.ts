import { stopsFromRatio } from './stops'
import type { Stops } from './units'

/** Optical density D = −log₁₀ of transmittance or reflectance. */
export const factorFromDensity = (density: number): number => 10 ** -density
export const densityFromFactor = (factor: number): number => -Math.log10(factor)

/** Loss, positive: log₂(1/T). */
export const lossFromTransmittance = (transmittance: number): Stops => -stopsFromRatio(transmittance)
/** A density of 0.3 is 0.997 stop, called one. */
export const lossFromDensity = (density: number): Stops => lossFromTransmittance(factorFromDensity(density))
