import type { Lux } from './units'

/**
 * Light that goes to and fro between surfaces adds up as a geometric series, Σ ρᵏ = 1/(1 − ρ).
 * Reflectances 0 ≤ ρ < 1.
 */

/** Indirect illuminance on the wall of a closed cavity in which every bounce spreads evenly: Φρ/(A(1 − ρ)) [Sumpner]. */
export const indirectInCavity = (flux: number, area: number, reflectance: number): Lux =>
  (flux * reflectance) / (area * (1 - reflectance))

/** Share of all light on the wall that has bounced: ρ, as the direct part is Φ/A of Φ/(A(1−ρ)). */
export function indirectShareInCavity(reflectance: number): number {
  const indirect = indirectInCavity(1, 1, reflectance)
  return indirect / (1 + indirect)
}

/** Area of a sphere's wall. */
export const sphereArea = (radius: number): number => 4 * Math.PI * radius ** 2

/** Sphere multiplier: first-bounce light times this is the whole, with a share f of the wall open: ρ/(1 − ρ(1 − f)). */
export const sphereMultiplier = (reflectance: number, portShare: number): number =>
  reflectance / (1 - reflectance * (1 - portShare))

/** Two endless facing planes, light falling on the first: E₀/(1 − ρ₁ρ₂) on it in all. */
export const illuminanceBetweenPlanes = (direct: Lux, first: number, second: number): Lux =>
  direct / (1 - first * second)

/** What two diffusing cloths let through together, light going to and fro between their facing sides: τ₁τ₂/(1 − ρ₁ρ₂). */
export const transmittanceOfTwoCloths = (t1: number, t2: number, r1: number, r2: number): number =>
  (t1 * t2) / (1 - r1 * r2)
