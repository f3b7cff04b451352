import { fresnelNormal } from './fresnel'

/** Reflectance of skin's surface at normal incidence: n = 1.4, stratum corneum with its film; 1.35 to 1.55 published. */
export const SKIN_F0 = fresnelNormal(1.4)

/** Reflectance of the wet eye at normal incidence: of its tear film, n = 1.336 [schematic eye tables]. */
export const TEAR_FILM_F0 = fresnelNormal(1.336)

/**
 * Absorption and scattering of skin against wavelength in nm (400 to 700), in 1/cm as published [Jacques98]. Fits to
 * a spread of people: melanin varies by a factor of ten between them, baselines by two.
 */

/** Skin without blood or melanin. */
export const skinBaseAbsorption = (nm: number): number => 0.244 + 85.3 * Math.exp(-(nm - 154) / 66.2)
/** Another baseline, from the skin of newborns [Saidi94]. */
export const skinBaseAbsorptionNeonatal = (nm: number): number => 7.84e8 * nm ** -3.255

/** Inside of a melanosome. */
export const melanosomeAbsorption = (nm: number): number => 1.7e12 * nm ** -3.48
/** The older fit. */
export const melanosomeAbsorptionOlder = (nm: number): number => 6.6e11 * nm ** -3.33

/** Epidermis with a share of its volume melanosomes: 0.02 light, 0.13 tan, 0.3 dark skin and more. */
export const epidermisAbsorption = (nm: number, melanosomeShare: number): number =>
  melanosomeShare * melanosomeAbsorption(nm) + (1 - melanosomeShare) * skinBaseAbsorption(nm)

/** Reduced scattering of the dermis: fibres (Mie) and Rayleigh part. */
export const dermisReducedScattering = (nm: number): number => 2e5 * nm ** -1.5 + 2e12 * nm ** -4

/**
 * Share of the light from one side that a rough film mirrors to all sides, from the cosine of its angle: the GGX lobe's own,
 * by the fit of Karis 2014 (Physically Based Shading on Mobile, after Lazarov 2013; coefficients from memory). Within 0.08 of
 * the lobe summed up. A film taken as smooth would mirror far more near grazing, and draw a dark line round every face.
 */
export function filmShare(f0: number, roughness: number, cosine: number): number {
  const from = 1 - roughness
  const a = Math.min(from * from, 2 ** (-9.28 * Math.max(0, cosine))) * from + 0.0425 - 0.0275 * roughness
  return f0 * (1.04 - 0.572 * roughness - 1.04 * a) + 1.04 * a - 0.04 + 0.022 * roughness
}

/** Skin as a film over a matt body: what the film mirrors never reaches the body, and what leaves passes the film again. */
export const filmPass = (f0: number, roughness: number, cosine: number): number => 1 - filmShare(f0, roughness, cosine)

/** Gauss and Legendre's places and weights of four points from 0 to 1. */
const POINTS = [
  [0.0694318442, 0.1739274226],
  [0.3300094782, 0.3260725774],
  [0.6699905218, 0.3260725774],
  [0.9305681558, 0.1739274226],
] as const

/** The same for diffuse light: its mean, weighed by the cosine. */
export const filmPassDiffuse = (f0: number, roughness: number): number =>
  POINTS.reduce((sum, [cosine, weight]) => sum + 2 * weight * cosine * filmPass(f0, roughness, cosine), 0)

/**
 * Radiance of the body under its film per irradiance, 1/sr, reciprocal. albedo: what the body returns of what has passed the
 * film; the film's inner side counts with it, as skin is measured through it. Total with the gloss, see the furnace test:
 * at most 1.
 */
export const underFilm = (albedo: number, f0: number, roughness: number, cosIn: number, cosOut: number): number =>
  ((albedo / Math.PI) * filmPass(f0, roughness, cosIn) * filmPass(f0, roughness, cosOut)) /
  filmPassDiffuse(f0, roughness)
