import type { Vec3 } from '../space'
import { degrees } from '../space'
import type { Degrees } from './units'

/** Individual typology angle of a skin's L*a*b*: atan((L* − 50)/b*), degrees [Chardon91]. b* > 0, as skin has. */
export const ita = ([lightness, , b]: Vec3): Degrees => degrees(Math.atan((lightness - 50) / b))

/** Bands of it with the lower limit of each, lightest first [Chardon91], [DelBino13]. */
export const ITA_BANDS = [
  { name: 'very light', above: 55 },
  { name: 'light', above: 41 },
  { name: 'intermediate', above: 28 },
  { name: 'tan', above: 10 },
  { name: 'brown', above: -30 },
  { name: 'dark', above: Number.NEGATIVE_INFINITY },
] as const

export type ItaBand = (typeof ITA_BANDS)[number]['name']

/** A tone a band, lightest first, and one from the far end of the last band, which is as broad as all the others. */
export type SkinTone = ItaBand | 'very dark'
export const SKIN_TONES: readonly [SkinTone, ...SkinTone[]] = [
  'very light',
  'light',
  'intermediate',
  'tan',
  'brown',
  'dark',
  'very dark',
]
