import type { Cloth, Rgb } from '../photometry'
import type { Finish } from './solids'

/** Reflectances and roughnesses: common practice, no source. r is the roughness of the tables, α = r². */
const REFLECTING = { forward: 0, forwardExponent: 1 }

/**
 * Sheen fitted so that loss and spread meet practice: plain matt 0.8 comes out 0.3 stop darker and 12° wider. Only the matt
 * part feeds the exchange inside the canopy: light traced through it is then met within 0.03 stop, against +0.03 with both.
 */
export const WHITE_SATIN: Cloth = { ...REFLECTING, diffuse: 0.65, specular: 0.2, roughness: 0.55, exchange: 0.65 }
export const WHITE_MATT: Cloth = { ...REFLECTING, diffuse: 0.8, specular: 0, roughness: 1, exchange: 0.8 }

export const BACKED_WHITE = { satin: WHITE_SATIN, matt: WHITE_MATT }
/** Without its black outside the same weave lets a quarter through: common practice, no source. */
export const UNBACKED_WHITE: Readonly<Record<'satin' | 'matt', Cloth>> = {
  satin: { ...WHITE_SATIN, diffuse: 0.5, specular: 0.15, exchange: 0.5 },
  matt: { ...WHITE_MATT, diffuse: 0.62, exchange: 0.62 },
}
export const THROUGH_WHITE: Cloth = { ...REFLECTING, diffuse: 0.25, specular: 0, roughness: 1, exchange: 0 }

/** Mean reflectance of metallised cloth: common practice, no source. */
const SILVER = 0.88
/** Metallised cloth, first bounce only. ±0.05 in r is ±0.45 stop at a portrait distance. */
export const silver = (roughness: number): Cloth => ({
  ...REFLECTING,
  diffuse: 0,
  specular: SILVER,
  roughness,
  exchange: 0,
})

const TRANSLUCENT = { transmittance: 0.6, reflectance: 0.3 }
/** 20° half width. */
const FORWARD_EXPONENT = 11

/** The far side of a translucent cloth; forwardShare of what passes keeps its direction. */
export const translucentFront = (forwardShare: number): Cloth => ({
  diffuse: TRANSLUCENT.transmittance * (1 - forwardShare),
  specular: 0,
  roughness: 1,
  forward: TRANSLUCENT.transmittance * forwardShare,
  forwardExponent: FORWARD_EXPONENT,
  exchange: TRANSLUCENT.reflectance,
})

/** The lamp's side of the same cloth. */
export const TRANSLUCENT_BACK: Cloth = {
  ...REFLECTING,
  diffuse: TRANSLUCENT.reflectance,
  specular: 0,
  roughness: 1,
  exchange: TRANSLUCENT.reflectance,
}

/** What a cloth gives back of other light, as matt: sheen and all. */
export const mattOf = ({ diffuse, specular }: Cloth): Finish => ({ kind: 'matt', albedo: grey(diffuse + specular) })
/** The metallised cloth of that roughness in other light. */
export const silverFinish = (roughness: number): Finish => ({ kind: 'metal', f0: grey(SILVER), roughness })

/** Front cloth and lining of a one-cloth box, as its own light is solved with: common practice, no source. */
export const BOX_CLOTH = { transmittance: 0.55, reflectance: 0.35, lining: 0.85 }

export const grey = (reflectance: number): Rgb => [reflectance, reflectance, reflectance]
export const BLACK: Rgb = [0.04, 0.04, 0.04]
export const DARK_METAL: Rgb = [0.1, 0.1, 0.1]
export const WHITE_CLOTH: Rgb = [0.3, 0.3, 0.3]
