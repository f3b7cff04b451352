import type { Vec3 } from '../space'
import { type Chromaticity, chromaticityFromXyz } from './chromaticity'
import { PEAK_LUMINOUS_EFFICACY, RADIATION_C1, RADIATION_C2, STEFAN_BOLTZMANN } from './constants'
import { CIE1931, CIE1931_FIRST_NM, CIE1931_STEP_NM } from './data/cie1931'
import type { Kelvin } from './units'

/** Spectral exitance of a black body, W/m³: c₁·λ⁻⁵/(exp(c₂/λT) − 1) [CODATA18]. Wavelength in metres. */
export const planckExitance = (wavelength: number, temperature: Kelvin): number =>
  RADIATION_C1 / (wavelength ** 5 * Math.expm1(RADIATION_C2 / (wavelength * temperature)))

/** ∫ M(λ)·(x̄, ȳ, z̄) dλ as a sum over the observer's table, W/m². */
function planckTristimulus(temperature: Kelvin): Vec3 {
  let [x, y, z] = [0, 0, 0]
  CIE1931.forEach(([xBar, yBar, zBar], i) => {
    const exitance = planckExitance((CIE1931_FIRST_NM + CIE1931_STEP_NM * i) * 1e-9, temperature)
    x += exitance * xBar
    y += exitance * yBar
    z += exitance * zBar
  })
  const step = CIE1931_STEP_NM * 1e-9
  return [x * step, y * step, z * step]
}

/** Where a black body lies in the CIE 1931 diagram. */
export const planckianChromaticity = (temperature: Kelvin): Chromaticity =>
  chromaticityFromXyz(planckTristimulus(temperature))

/** Luminous efficacy of a black body's whole radiation, lm/W: 683.002·∫M·V dλ/(σT⁴). */
export const planckianEfficacy = (temperature: Kelvin): number =>
  (PEAK_LUMINOUS_EFFICACY * planckTristimulus(temperature)[1]) / (STEFAN_BOLTZMANN * temperature ** 4)

/**
 * Cubic fit to the Planckian locus, 1667 to 25 000 K, within 5e-4 of it [Kang02]. A second route to the locus, for
 * checks and shaders; throws outside the range in which it was fitted.
 */
export function planckianChromaticityFitted(temperature: Kelvin): Chromaticity {
  if (!(temperature >= 1667 && temperature <= 25000))
    throw new Error(`photometry.planckianChromaticityFitted: expected 1667 to 25000 K, got ${temperature} K`)
  const u = 1000 / temperature
  const x =
    temperature <= 4000
      ? ((-0.2661239 * u - 0.2343589) * u + 0.8776956) * u + 0.17991
      : ((-3.0258469 * u + 2.1070379) * u + 0.2226347) * u + 0.24039
  if (temperature <= 2222) return [x, ((-1.1063814 * x - 1.3481102) * x + 2.18555832) * x - 0.20219683]
  if (temperature <= 4000) return [x, ((-0.9549476 * x - 1.37418593) * x + 2.09137015) * x - 0.16748867]
  return [x, ((3.081758 * x - 5.8733867) * x + 3.75112997) * x - 0.37001483]
}
