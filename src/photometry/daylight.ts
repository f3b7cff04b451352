import type { Chromaticity } from './chromaticity'
import type { Kelvin } from './units'

/** Limits of the CIE daylight locus. */
export const DAYLIGHT_RANGE_K = [4000, 25000] as const

/** CIE daylight locus [CIE15], 4000 to 25 000 K. Throws outside it. */
export function daylightChromaticity(temperature: Kelvin): Chromaticity {
  if (!(temperature >= DAYLIGHT_RANGE_K[0] && temperature <= DAYLIGHT_RANGE_K[1]))
    throw new Error(`photometry.daylightChromaticity: expected 4000 to 25000 K, got ${temperature} K`)
  const u = 1000 / temperature
  const x =
    temperature <= 7000
      ? ((-4.607 * u + 2.9678) * u + 0.09911) * u + 0.244063
      : ((-2.0064 * u + 1.9018) * u + 0.24748) * u + 0.23704
  return [x, (-3 * x + 2.87) * x - 0.275]
}
