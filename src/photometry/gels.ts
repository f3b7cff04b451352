import { miredFromKelvin } from './colourTemperature'
import { RADIATION_C2 } from './constants'
import { CIE1931, CIE1931_FIRST_NM, CIE1931_STEP_NM } from './data/cie1931'
import { planckExitance } from './planck'
import type { Kelvin } from './units'

/** Ends of what is seen, metres: there a filter that loses as little as can be loses nothing. */
const RED_END = 700e-9
const BLUE_END = 400e-9

/** A lamp's colour temperature behind a conversion gel. Positive shifts are warmer. */
export const kelvinBehindGel = (lamp: Kelvin, mired: number): Kelvin => 1e6 / (miredFromKelvin(lamp) + mired)

/**
 * Share of a lamp's light that a conversion gel lets through, of 0 to 1. By Wien's law a filter of exp(−c₂·s/λ) turns a glowing
 * body of one temperature into one of another, s in 1/K; it is taken as clear as it can be, at the red end if it warms and at the
 * blue end if it cools. Gels on sale lie some 0.3 stop to either side: common practice, no source.
 */
export function gelPass(lamp: Kelvin, mired: number): number {
  const end = mired > 0 ? RED_END : BLUE_END
  let [sent, passed] = [0, 0]
  CIE1931.forEach(([, y], i) => {
    const wavelength = (CIE1931_FIRST_NM + CIE1931_STEP_NM * i) * 1e-9
    const light = planckExitance(wavelength, lamp) * y
    sent += light
    passed += light * Math.min(1, Math.exp(-RADIATION_C2 * mired * 1e-6 * (1 / wavelength - 1 / end)))
  })
  return passed / sent
}
