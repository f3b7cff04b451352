import type { Metres } from './units'

/** International foot and mile, both exact: guide numbers and hyperfocal tables are still printed in feet. */
export const FOOT_M: Metres = 0.3048
const MILE_KM = 1.609344

export const feetFromMetres = (metres: Metres): number => metres / FOOT_M
export const kilometresFromMiles = (miles: number): number => miles * MILE_KM
