import type { Radians } from './units'

/** Reflection at a smooth dielectric, from air; n is the relative index, > 1. Unpolarised light. */

/** At normal incidence: ((n − 1)/(n + 1))². */
export const fresnelNormal = (n: number): number => ((n - 1) / (n + 1)) ** 2

/** Mean of the two polarisations [BornWolf] §1.5.2. */
export function fresnel(n: number, incidence: Radians): number {
  const cosI = Math.cos(incidence)
  const cosT = Math.sqrt(1 - (Math.sin(incidence) / n) ** 2)
  const s = (cosI - n * cosT) / (cosI + n * cosT)
  const p = (n * cosI - cosT) / (n * cosI + cosT)
  return (s * s + p * p) / 2
}

/** Schlick's fit F₀ + (1 − F₀)(1 − cos θ)⁵ [Schlick94]. At n = 1.4 up to 0.046 high near grazing, 0.014 low at 60°. */
export const fresnelSchlick = (f0: number, incidence: Radians): number => f0 + (1 - f0) * (1 - Math.cos(incidence)) ** 5

/** Where the p part vanishes: atan n. */
export const brewsterAngle = (n: number): Radians => Math.atan(n)

/** Reflectance for diffuse light from outside: the mean of F over the half-space, cosine weighted [Walsh26]. */
export function fresnelDiffuse(n: number): number {
  const n2 = n * n
  return (
    1 / 2 +
    ((n - 1) * (3 * n + 1)) / (6 * (n + 1) ** 2) +
    ((n2 * (n2 - 1) ** 2) / (n2 + 1) ** 3) * Math.log((n - 1) / (n + 1)) -
    (2 * n ** 3 * (n2 + 2 * n - 1)) / ((n2 + 1) * (n2 * n2 - 1)) +
    ((8 * n2 * n2 * (n2 * n2 + 1)) / ((n2 + 1) * (n2 * n2 - 1) ** 2)) * Math.log(n)
  )
}

/** The same from inside, total reflection included: radiance is squeezed by n², so 1 − (1 − R)/n². */
export const fresnelDiffuseInside = (n: number): number => 1 - (1 - fresnelDiffuse(n)) / (n * n)
