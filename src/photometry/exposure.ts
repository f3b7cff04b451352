import { INCIDENT_C, REFLECTED_K } from './constants'
import type { Lux, LuxSeconds, Nits, Seconds, Stops } from './units'

/**
 * The exposure equations of ISO 2720 [ISO2720]: a meter promises that luminous exposure H (or luminance × time L·t) is
 * right for f-number N at ISO S when
 *     N² = H·S/C   (incident, C in lx·s)      N² = L·t·S/K   (reflected, K in cd·s/m²)
 * Flash and continuous light take the same route, since H is already the integral over time. H, N, S > 0.
 */
export const fNumberFromLuminousExposure = (h: LuxSeconds, iso: number, c = INCIDENT_C): number =>
  Math.sqrt((h * iso) / c)

export const luminousExposureFromFNumber = (fNumber: number, iso: number, c = INCIDENT_C): LuxSeconds =>
  (c * fNumber * fNumber) / iso

/** EV = log₂(N²/t): 0 at f/1 and 1 s. */
export const exposureValue = (fNumber: number, shutter: Seconds): Stops => Math.log2((fNumber * fNumber) / shutter)

/** Light that calls for an EV at ISO 100: 2^EV = E·S/C. */
export const illuminanceFromEv100 = (ev: Stops, c = INCIDENT_C): Lux => (2 ** ev * c) / 100
export const luminanceFromEv100 = (ev: Stops, k = REFLECTED_K): Nits => (2 ** ev * k) / 100

/** The same light at another speed: one stop more for each doubling of S. */
export const evAtIso = (ev100: Stops, iso: number): Stops => ev100 + Math.log2(iso / 100)

/** f/16 at t = 1/S, in EV at ISO 100 whatever S is: log₂(16²·S) − log₂(S/100). */
export const SUNNY_16_EV100: Stops = exposureValue(16, 1 / 100)

/**
 * Lights on one place add as luminous exposure, and H ∝ N² (above): so their f-numbers add in squares.
 * An empty list is darkness: 0.
 */
export const fNumberOfAll = (fNumbers: readonly number[]): number => Math.hypot(...fNumbers)

/** Reflectance at which a reflected and an incident reading agree: L = ρE/π in both equations gives ρ = πK/C. */
export const reflectanceWhereMetersAgree = (k: number, c: number): number => (Math.PI * k) / c

/** By how much a spot reading off a matt card asks for less exposure than the incident reading beside it. */
export const spotOverIncident = (reflectance: number, k = REFLECTED_K, c = INCIDENT_C): Stops =>
  Math.log2(reflectance / reflectanceWhereMetersAgree(k, c))
