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
 * Skin as a film over a matt body: what its film mirrors never reaches the body, and what leaves the body passes the film
 * again. 1 − F, Schlick's F, from the cosine of the angle to the normal; the film taken as smooth here, its gloss apart.
 */
export const filmPass = (f0: number, cosine: number): number => (1 - f0) * (1 - (1 - Math.max(0, cosine)) ** 5)

/** The same for diffuse light: 1 minus Schlick's mean, F₀ + (1 − F₀)/21. */
export const filmPassDiffuse = (f0: number): number => ((1 - f0) * 20) / 21

/**
 * Radiance of the body under its film per irradiance, 1/sr, reciprocal. albedo: what the body returns of what has passed the
 * film; the film's inner side counts with it, as skin is measured through it. Total with the gloss, see the furnace test:
 * at most 1.
 */
export const underFilm = (albedo: number, f0: number, cosIn: number, cosOut: number): number =>
  ((albedo / Math.PI) * filmPass(f0, cosIn) * filmPass(f0, cosOut)) / filmPassDiffuse(f0)
