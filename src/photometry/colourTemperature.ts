import type { Chromaticity } from './chromaticity'
import type { Kelvin } from './units'

/** Reciprocal megakelvin: equal steps look about equally large, and a filter shifts every lamp by the same number. */
export const miredFromKelvin = (temperature: Kelvin): number => 1e6 / temperature

/** Shift that a filter needs to turn one temperature into another; positive: warmer. */
export const miredShift = (from: Kelvin, to: Kelvin): number => miredFromKelvin(to) - miredFromKelvin(from)

/** Correlated colour temperature from x, y: a cubic about the epicentre (0.3320, 0.1858), good to 2 K near 2856 to 6500 K [McCamy92]. */
export function kelvinFromChromaticity([x, y]: Chromaticity): Kelvin {
  const n = (x - 0.332) / (0.1858 - y)
  return ((449 * n + 3525) * n + 6823.3) * n + 5520.33
}
