import { AVERAGE_SHAPE, type FigureAsset, type FigureShape, SHAPE_FIELD_NAMES, shapeFigure } from '../figure'

/** Shapes kept of each first sitter: those on the set, and some that undo may bring back. Some 2 MB each. */
const KEPT = 8
const known = new WeakMap<FigureAsset, Map<string, FigureAsset>>()

/** Same text, same shape; undefined: the average. */
export const shapeKey = (shape: FigureShape = AVERAGE_SHAPE): string =>
  SHAPE_FIELD_NAMES.map((name) => shape[name]).join()

/**
 * The first sitter in another shape; for a shape met lately the same record as before, so that whoever goes by identity
 * (clusters, proxies, trees) makes nothing anew. Throws ShapeError for lengths that no head can have together.
 */
export function shapedFigure(asset: FigureAsset, shape: FigureShape = AVERAGE_SHAPE): FigureAsset {
  const shapes = known.get(asset) ?? new Map<string, FigureAsset>()
  known.set(asset, shapes)
  const key = shapeKey(shape)
  const shaped = shapes.get(key) ?? shapeFigure(asset, shape)
  // Last in the order of insertion is the last used.
  shapes.delete(key)
  shapes.set(key, shaped)
  if (shapes.size > KEPT) shapes.delete([...shapes.keys()][0])
  return shaped
}
