import { cosinePowerAngle, fluxFromCosinePower } from '../lambert'
import type { Degrees, Metres, Steradians } from '../units'

/** What stands behind a cloth: an evenly bright disc whose intensity falls as cosⁿ, per cd·s of the head in its 65° dish. */
export interface Lamp {
  readonly radiusM: Metres
  readonly exponent: number
  readonly axialIntensity: number
}

/** Full angle at half power → n of I ∝ cosⁿθ: cosⁿ(beam/2) = 1/2. */
export const exponentFromBeam = (beamDeg: Degrees): number =>
  Math.log(0.5) / Math.log(Math.cos((beamDeg * Math.PI) / 360))

export const fluxOf = (lamp: Lamp): Steradians => fluxFromCosinePower(lamp.axialIntensity, lamp.exponent)

/** The standard dish: half power at 65° (n 4.070), opening 18 cm, axial intensity 1 by definition of the unit. */
export const STANDARD_DISH: Lamp = { radiusM: 0.09, exponent: exponentFromBeam(65), axialIntensity: 1 }
/** 1.239 sr. */
export const STANDARD_FLUX: Steradians = fluxOf(STANDARD_DISH)

/** Share of the tube's flux that the standard dish throws out: common practice, no source. */
export const DISH_EFFICIENCY = 0.75

/** The same flux through a dish of another beam. */
export function equalFluxDish(beamDeg: Degrees, radiusM: Metres): Lamp {
  const exponent = exponentFromBeam(beamDeg)
  return { radiusM, exponent, axialIntensity: STANDARD_FLUX / fluxFromCosinePower(1, exponent) }
}

/** The tube without a dish gives all its flux. */
export const BARE_DOME_FLUX: Steradians = STANDARD_FLUX / DISH_EFFICIENCY

/** Where the beam has fallen to a tenth: 55.4° for the 65° dish. */
export const tenthAngle = (exponent: number): number => cosinePowerAngle(exponent, 0.1)

/** Shaft distance from the apex at which the beam (to a tenth) just reaches the rim: s* = h + (D/2)/tan β. */
export const fillingShaft = (diameterM: Metres, depthM: Metres, exponent: number): Metres =>
  depthM + diameterM / 2 / Math.tan(tenthAngle(exponent))
