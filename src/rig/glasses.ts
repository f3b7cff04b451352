import { type FigureAsset, type Glasses, wearGlasses } from '../figure'

/** Pairs kept for each sitter's figure: those on the set, and some that undo may bring back. */
const KEPT = 4
const known = new WeakMap<FigureAsset, Map<string, FigureAsset>>()

/** Same text, same pair; none: ''. */
export const glassesKey = (glasses: Glasses | null | undefined): string =>
  glasses ? [glasses.tiltDeg, glasses.frontCurveD, glasses.coated, glasses.frame].join() : ''

/** The figure with its glasses on; for a pair met lately the same record as before, so that whoever goes by identity sees it. */
export function withGlasses(asset: FigureAsset, glasses: Glasses | null | undefined): FigureAsset {
  if (!glasses) return asset
  const pairs = known.get(asset) ?? new Map<string, FigureAsset>()
  known.set(asset, pairs)
  const key = glassesKey(glasses)
  const worn = pairs.get(key) ?? wearGlasses(asset, glasses)
  // Last in the order of insertion is the last used.
  pairs.delete(key)
  pairs.set(key, worn)
  if (pairs.size > KEPT) pairs.delete([...pairs.keys()][0])
  return worn
}
