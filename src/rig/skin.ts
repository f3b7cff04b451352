import type { FrameKind, PartName, StrandKind } from '../figure'
import { HAIR_ROUGHNESS, linearFromLab, type Rgb, type SkinTone } from '../photometry'
import type { Sitter } from '../sitting'
import type { StrandCoat } from './types'

/**
 * Colour of the sitter's parts: linear sRGB reflectance, D65.
 *
 * Skin goes by ITA° bands; one CIELAB colour stands for each. Measured: intermediate is the mean of 600 people over 12
 * sites [Han06]; brown, dark and very dark have L* and b* of three of the five cluster centroids of 120 faces [IADR09]. Those
 * were taken at nose tip and lip and are red (a* 17, 17.2, 14.6), where a cheek is not: facial redness is the same in the four
 * groups of [Xiao17], so their a* is that of intermediate skin with the +1.5 of a face over the body's mean, less where
 * hardly any light comes back; from memory, ±3. Not measured: very light, light and tan take L* from an ITA in their band, with
 * a* and b* as the ordering of published surveys has it (lighter skin is less yellow); from memory, ±3 units.
 */
export const SKIN_LAB: Readonly<Record<SkinTone, readonly [number, number, number]>> = {
  'very light': [70.8, 10, 14.2],
  light: [66.7, 10.3, 16.2],
  intermediate: [61.7462, 9.5618, 17.0778],
  tan: [56.2, 11.5, 18],
  brown: [52.5, 11.5, 18.9],
  dark: [37.7, 11, 14.7],
  'very dark': [26.7, 9, 14.7],
}

/**
 * Roughness r (α = r²) of the skin's gloss: powdered 0.6, usual 0.45, oily 0.2. Measured faces have been fitted with slopes of 0.2
 * to 0.35 for α, from memory: the matt half of the dial; a film of oil or sweat is smoother, practice, no citable source.
 */
export const skinRoughness = (shine: number): number => 0.6 - 0.4 * shine

/** Sclera: brighter looks like glass. Practice, no citable source. */
const EYE: Rgb = [0.32, 0.288, 0.265]

/** Iris, mid brown, under the light that the cornea throws together on it; practice, no citable source. */
export const IRIS: Rgb = [0.055, 0.028, 0.014]

/** Diffuse reflectance of hair seen as a mass, highlights apart; practice, no citable source. */
const HAIR: Readonly<Record<Sitter['hair'], Rgb>> = {
  dark: [0.03, 0.021, 0.016],
  brown: [0.09, 0.053, 0.032],
  fair: [0.34, 0.25, 0.145],
  grey: [0.31, 0.3, 0.285],
}

/** Plastic by its colour, gloss apart; wire by what it reflects straight on, as steel does. Practice, no citable source. */
const FRAMES: Readonly<Record<FrameKind, Rgb>> = {
  dark: [0.012, 0.012, 0.013],
  brown: [0.075, 0.034, 0.016],
  metal: [0.58, 0.56, 0.53],
}

/** Polished plastic, or drawn wire, whose roughness is negative as that of all metals. Practice, no citable source. */
export const frameRoughness = ({ glasses }: Pick<Sitter, 'glasses'>): number =>
  glasses?.frame === 'metal' ? -0.3 : 0.25

/** Cotton in white, mid grey and black; practice, no citable source. */
const CLOTHES: Readonly<Record<Sitter['clothes'], Rgb>> = {
  white: [0.76, 0.76, 0.75],
  grey: [0.2, 0.205, 0.215],
  black: [0.035, 0.035, 0.036],
}

export const sitterAlbedo = (
  sitter: Pick<Sitter, 'skin' | 'hair' | 'clothes' | 'headwearTone' | 'glasses'>,
): Readonly<Record<PartName, Rgb>> => ({
  skin: linearFromLab(SKIN_LAB[sitter.skin]),
  eyeLeft: EYE,
  eyeRight: EYE,
  hair: HAIR[sitter.hair],
  garment: CLOTHES[sitter.clothes],
  headwear: CLOTHES[sitter.headwearTone ?? 'grey'],
  glasses: FRAMES[sitter.glasses?.frame ?? 'dark'],
})

/** Lashes of fair and grey people are darker than their hair, and brows in between, of its hue; practice, no citable source. */
const LASH: Rgb = [0.018, 0.014, 0.012]
const BROW_SHADE = 0.3
/** Of the hair, for single hairs stand in less of their own shadow than streaks of it. Practice, no citable source. */
const STREAKS = 0.75
/** The same where hairs thin out on the skin, short and close to it under the rest. By eye. */
const FRINGE = 0.5

/** Of a wisp's root in the mass, by what lies over it. By eye. */
const ROOT_SHADE = 0.85
/** Hairs of a brow differ in tone. By eye. */
const BROW_TONES = [0.55, 1.05] as const
/** Strands of a head differ in tone, and in how deep they lie among others. By eye. */
const WISP_TONES = [0.8, 1.3] as const

const mixed = (a: Rgb, b: Rgb, share: number): Rgb => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
  a[2] + (b[2] - a[2]) * share,
]

/** Moist and shaded by what hangs over it. The lobe of a wet edge stands for a meniscus that bends through all directions between lid and ball. */
const WET = { tint: [0.27, 0.19, 0.175], roughness: 0.58 } as const

export function strandCoats(sitter: Pick<Sitter, 'skin' | 'hair'>): Readonly<Record<StrandKind, StrandCoat>> {
  const [hair, skin] = [HAIR[sitter.hair], linearFromLab(SKIN_LAB[sitter.skin])]
  const single: StrandCoat = {
    albedo: [hair[0] * STREAKS, hair[1] * STREAKS, hair[2] * STREAKS],
    roughness: HAIR_ROUGHNESS,
  }
  const lash: StrandCoat = { albedo: mixed(LASH, hair, 0.12), roughness: 0 }
  return {
    lash,
    lashLine: { ...lash, between: 0.6 },
    brow: {
      albedo: [hair[0] * BROW_SHADE, hair[1] * BROW_SHADE, hair[2] * BROW_SHADE],
      roughness: 0,
      laidIn: 'brow',
      tones: BROW_TONES,
    },
    hairline: { albedo: [hair[0] * FRINGE, hair[1] * FRINGE, hair[2] * FRINGE], roughness: 0, laidIn: 'hairline' },
    wisp: { ...single, rootShade: ROOT_SHADE, tones: WISP_TONES },
    tear: {
      albedo: [skin[0] * WET.tint[0], skin[1] * WET.tint[1], skin[2] * WET.tint[2]],
      roughness: WET.roughness,
      between: 1,
    },
  }
}
