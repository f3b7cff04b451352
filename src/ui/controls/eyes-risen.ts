import type { Rig } from '../../rig'
import type { Sitting } from '../../sitting'

/** Less than this is no pose but the arithmetic, metres. */
const NOTHING_M = 1e-6

/** By how much their poses have the sitters' eyes higher than at rest, metres, by sitter; none before the rig is there. */
export const eyesRisen = ({ sitters }: Sitting, rig: Rig | null): ReadonlyMap<string, number> =>
  new Map(
    sitters.flatMap(({ id, eyeHeightM }) => {
      const posed = rig?.figures.find((figure) => figure.id === id)?.posed
      const risenM = posed ? posed.eyeMidpoint[1] - eyeHeightM : 0
      return Math.abs(risenM) > NOTHING_M ? [[id, risenM] as const] : []
    }),
  )
