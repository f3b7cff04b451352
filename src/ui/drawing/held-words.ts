import { type PlaceLandmarks, type Sitting, sourcePlace, thingById } from '../../sitting'
import { formatAngle, formatLength, type LengthUnits } from '../values'
import type { InHand } from './drawing-view'
import { isRemote } from './moves'

/**
 * What a source that is dragged over the plan keeps, what that changes, and which keys keep the other: told as long as it is in
 * the hand. A stand slides, so the height is kept and the angle goes with the distance; a typed tape keeps the angle. Null: of anything else.
 */
export function heldWords(
  held: InHand,
  now: Sitting,
  marks: PlaceLandmarks,
  units: LengthUnits,
): { readonly kept: string; readonly keys: string } | null {
  const { target, plane, keepsAngle, before } = held
  if (target.type !== 'source' || plane.kind !== 'plan' || isRemote(before, target.id)) return null
  const [was, is] = [before, now].map((sitting) => {
    const source = thingById(sitting, 'sources', target.id)
    const up = sourcePlace(source, sitting.camera, marks).elevationDeg
    return { up: formatAngle(up, ['up', 'down']), height: formatLength(source.centreM[1], units) }
  }) as [{ up: string; height: string }, { up: string; height: string }]
  return keepsAngle
    ? { kept: `angle kept, ${is.height} high`, keys: 'Shift snaps' }
    : { kept: `height kept, ${is.up}`, keys: `Alt keeps ${was.up}, Shift snaps` }
}
