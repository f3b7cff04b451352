import { sobol } from '../space'
import { BATCH } from './layouts'

/**
 * The points that a batch draws, at most `most`: evenly spaced along the panels' rows, all points once in a round. Offsets
 * follow the van der Corput order, so that any two, four or eight batches are evenly spaced too.
 */
export function pointsInTurn<T>(points: readonly T[], batch: number, most: number = BATCH): readonly T[] {
  const turns = 2 ** Math.ceil(Math.log2(Math.max(1, points.length / most)))
  const turn = Math.floor(sobol(batch % turns, 0) * turns)
  return points.filter((_, i) => i % turns === turn)
}
