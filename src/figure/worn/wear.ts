import type { FigurePart, WornName } from '../types'

/** How the hair is worn, and what covers the head. Names stand in the document. */
export const HAIR_CUTS = ['bald', 'short', 'long'] as const
export type HairCut = (typeof HAIR_CUTS)[number]
/** covering: a cloth over hair, ears and neck, the face open. hat: a crown and a brim. */
export const HEADWEARS = ['none', 'covering', 'hat'] as const
export type Headwear = (typeof HEADWEARS)[number]

export interface Wear {
  readonly hairCut: HairCut
  readonly headwear: Headwear
}

/** As the first sitter comes. */
export const PLAIN_WEAR: Wear = { hairCut: 'short', headwear: 'none' }

/** Parts beside the first sitter's own: each a file of its own, fetched when somebody wears it. */
export const WORN_NAMES = ['longHair', 'covering', 'hat'] as const satisfies readonly WornName[]

/** Their files, beside the first sitter's. */
export const WORN_FILES: Readonly<Record<WornName, string>> = {
  longHair: 'long-hair.glb',
  covering: 'covering.glb',
  hat: 'hat.glb',
}

/** What has been fetched so far. */
export type Wardrobe = Partial<Record<WornName, FigurePart>>

/** The parts that this wear is made of, beside the first sitter's own. A covering hides all hair. */
export const wornParts = ({ hairCut, headwear }: Wear): WornName[] => [
  ...(hairCut === 'long' && headwear !== 'covering' ? (['longHair'] as const) : []),
  ...(headwear === 'none' ? [] : [headwear]),
]

/** Of these, what has not been fetched. */
export const missingParts = (wears: readonly Wear[], wardrobe: Wardrobe): WornName[] => [
  ...new Set(wears.flatMap(wornParts).filter((name) => !wardrobe[name])),
]
