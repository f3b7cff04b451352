import type { Candela, Lux, Nits, Radians } from './units'

/** Luminance of a matt surface: L = ρE/π, since π·L leaves it into the half-space. */
export const luminanceFromIlluminance = (illuminance: Lux, reflectance: number): Nits =>
  (reflectance * illuminance) / Math.PI

/** Flux of a flat Lambertian panel, one side: Φ = π·L·A, lm. */
export const fluxFromLuminance = (luminance: Nits, area: number): number => Math.PI * luminance * area
/** Luminance that a panel needs for a flux. */
export const luminanceFromFlux = (flux: number, area: number): Nits => flux / (Math.PI * area)
/** Its intensity along the normal, L·A. */
export const axialIntensityFromLuminance = (luminance: Nits, area: number): Candela => luminance * area

/** Flux of a source alike in all directions: 4π·I, lm. */
export const fluxOfIsotropic = (intensity: Candela): number => 4 * Math.PI * intensity
export const intensityOfIsotropic = (flux: number): Candela => flux / (4 * Math.PI)

/** Flux of I₀·cosⁿθ over its half-space: 2π·I₀/(n+1), lm. */
export const fluxFromCosinePower = (axialIntensity: Candela, exponent: number): number =>
  (2 * Math.PI * axialIntensity) / (exponent + 1)
/** Angle from the axis at which I₀·cosⁿθ has fallen to a share of I₀. */
export const cosinePowerAngle = (exponent: number, share: number): Radians => Math.acos(share ** (1 / exponent))
