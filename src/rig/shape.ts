import {
  AVERAGE_SHAPE,
  type FigureAsset,
  type FigureShape,
  SHAPE_FIELD_NAMES,
  ShapeError,
  shapeFigure,
} from '../figure'
import { type Problem, type Sitting, shapeProblem } from '../sitting'
import { lately } from './lately'

/** Shapes kept of each first sitter: those on the set, and some that undo may bring back. 1 MB each. */
const KEPT = 8
const kept = lately<FigureAsset>(KEPT)

/** Same text, same shape; undefined: the average. */
export const shapeKey = (shape: FigureShape = AVERAGE_SHAPE): string =>
  SHAPE_FIELD_NAMES.map((name) => shape[name]).join()

/**
 * The first sitter in another shape; for a shape met lately the same record as before, so that whoever goes by identity
 * (clusters, proxies, trees) makes nothing anew. Throws ShapeError for lengths that no head can have together.
 */
export function shapedFigure(asset: FigureAsset, shape: FigureShape = AVERAGE_SHAPE): FigureAsset {
  return kept(asset, shapeKey(shape), () => shapeFigure(asset, shape))
}

/** What is wrong with a sitter whose lengths no one head can have together, which only the figure can tell; null: nothing. */
export function shapeFault({ sitters }: Pick<Sitting, 'sitters'>, asset: FigureAsset): Problem | null {
  for (const [i, { shape }] of sitters.entries())
    try {
      shapedFigure(asset, shape)
    } catch (error) {
      if (!(error instanceof ShapeError)) throw error
      return shapeProblem(error, `sitters[${i}]`)
    }
  return null
}
