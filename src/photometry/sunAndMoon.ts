/** Apparent sizes that set a shadow's edge out of doors. Lengths in km. */

/** International mile, exact. */
export const MILE_KM = 1.609344
export const kilometresFromMiles = (miles: number): number => miles * MILE_KM

export const MOON_DIAMETER_KM = 3474.8
export const MOON_DISTANCE_KM = 384400
