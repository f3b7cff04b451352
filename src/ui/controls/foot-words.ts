import { modifierKind } from '../../gear'
import { fixedPointsOf, tapesTo } from '../../paper'
import { type Rig, standingOf } from '../../rig'
import type { Sitting } from '../../sitting'
import { formatLength, formatLengthTowards, type LengthUnits } from '../values'

/** Where the stand of a source stands by two tapes along the floor, as the printed sheet has it; null: it has none. */
export function footWords(sitting: Sitting, rig: Rig | null, id: string | null, units: LengthUnits): string | null {
  const source = rig?.sources.find((one) => one.id === id)
  const kind = sitting.sources.find((one) => one.id === id)?.modifier.kind
  if (!rig || !source || source.remote || !kind || modifierKind(kind).onCamera) return null
  const { foot, pivot } = standingOf(sitting, rig.view, source)
  const { fromXM, fromZM, offM } = tapesTo(fixedPointsOf(sitting), [foot[0], foot[2]])
  const off = formatLengthTowards(offM, units, ['right', 'left'])
  return `${pivot ? 'Boom stand' : 'Stand'} on the floor: ${formatLength(fromXM, units)} from X, ${formatLength(fromZM, units)} from Z, ${off} of their line.`
}
