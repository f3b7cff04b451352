import type { Lux, Nits, Radians } from './units'

/**
 * The traditional overcast sky, three times as bright at the zenith as at the horizon [CIES011] (16th sky):
 * L(γ) = Lz·(1 + 2 sin γ)/3 at elevation γ. Its integrals: horizontal ∫L sinγ dω = 7π/9·Lz; vertical, without
 * ground, (π/6 + 4/9)·Lz.
 */
export const overcastLuminance = (zenith: Nits, elevation: Radians): Nits =>
  (zenith * (1 + 2 * Math.sin(elevation))) / 3
export const overcastHorizontal = (zenith: Nits): Lux => ((7 * Math.PI) / 9) * zenith
export const overcastVertical = (zenith: Nits): Lux => (Math.PI / 6 + 4 / 9) * zenith
/** Elevation at which it has its cosine-weighted mean luminance, 7/9 of the zenith's: sin γ = 2/3. */
export const OVERCAST_MEAN_ELEVATION: Radians = Math.asin(2 / 3)

/** Light that wide ground of a reflectance sends onto an upright surface: half of its ρE. */
export const groundOnVertical = (reflectance: number, horizontal: Lux): Lux => (reflectance * horizontal) / 2
