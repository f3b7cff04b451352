import { INCIDENT_C } from './constants'
import { fNumberFromLuminousExposure, luminousExposureFromFNumber } from './exposure'
import { FOOT_M } from './imperial'
import type { CandelaSeconds, Joules, LumenSeconds, Metres } from './units'

/**
 * Guide number GN = N·d of a flash at ISO 100, d in metres. With H = It/d² and N² = H·S/C, GN² = It·S/C: the guide
 * number is the f-number at one metre, where H is It.
 */
export const guideNumberFromAxialIntensity = (intensity: CandelaSeconds, iso = 100, c = INCIDENT_C): Metres =>
  fNumberFromLuminousExposure(intensity, iso, c)

export const axialIntensityFromGuideNumber = (guideNumber: Metres, iso = 100, c = INCIDENT_C): CandelaSeconds =>
  luminousExposureFromFNumber(guideNumber, iso, c)

export const fNumberFromGuideNumber = (guideNumber: number, distance: number): number => guideNumber / distance
/** From a test: the f-number that was right, and the distance at which it was. Unit as the distance's. */
export const guideNumberFromTest = (fNumber: number, distance: number): number => fNumber * distance

/** Guide numbers go with √S. */
export const guideNumberAtIso = (guideNumber: number, from: number, to: number): number =>
  guideNumber * Math.sqrt(to / from)

/** C behind an old rule of the form GN_ft = √(k·It·S): k·It·S·ft² = It·S/C, so C = 1/(k·ft²). */
export const incidentConstantOfFeetRule = (k: number): number => 1 / (k * FOOT_M ** 2)

/** Luminous energy of a flash from the energy stored and the lamp's efficacy in lm·s per W·s (15 to 45 in practice). */
export const luminousEnergyFromStored = (stored: Joules, efficacy: number): LumenSeconds => stored * efficacy
