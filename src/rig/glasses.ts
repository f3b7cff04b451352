import { type FigureAsset, type Glasses, wearGlasses } from '../figure'
import { lately } from './lately'

/** Pairs kept for each sitter's figure: those on the set, and some that undo may bring back. */
const kept = lately<FigureAsset>(4)

/** Same text, same pair; none: ''. */
export const glassesKey = (glasses: Glasses | null | undefined): string =>
  glasses ? [glasses.tiltDeg, glasses.frontCurveD, glasses.coated, glasses.frame].join() : ''

/** The figure with its glasses on; for a pair met lately the same record as before, so that whoever goes by identity sees it. */
export function withGlasses(asset: FigureAsset, glasses: Glasses | null | undefined): FigureAsset {
  if (!glasses) return asset
  return kept(asset, glassesKey(glasses), () => wearGlasses(asset, glasses))
}
