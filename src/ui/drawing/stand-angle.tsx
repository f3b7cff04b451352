import { atAngleUp, type PlaceLandmarks, type Sitting, sourcePlace, steeperBy, thingById } from '../../sitting'
import { useMarksNow } from '../derived'
import { edit, useHistory, useSession, useSittingNow } from '../store'
import { formatAngle, formatLength, type LengthUnits } from '../values'
import { WALK_WORD } from '../walk/orbit'
import type { InHand } from './drawing-view'
import { isRemote } from './moves'

/** On the plan's title: what a source in the hand keeps; and after a drag that changed its angle, a word that takes the old one up again. */
export function StandAngle({ held }: { held: InHand | null }) {
  const sitting = useSittingNow()
  const marks = useMarksNow()
  const units = useSession((session) => session.units)
  if (!marks) return null
  const keeps = held && heldWords(held, sitting, marks, units)
  if (keeps)
    return (
      <>
        {keeps.kept}
        <span className="keys">; {keeps.keys}</span>
      </>
    )
  return held ? null : <AngleAgain sitting={sitting} marks={marks} />
}

const UP = ['up', 'down'] as const

/** Right after a drag over the plan, until the next step. */
function AngleAgain({ sitting, marks }: { sitting: Sitting; marks: PlaceLandmarks }) {
  const step = useHistory(({ past }) => past.at(-1))
  const id = useSession(({ selected }) => selected)
  if (!step?.gesture?.startsWith('drag ')) return null
  const [was, is] = [step.state, sitting].map(({ sources }) => sources.find((source) => source.id === id))
  if (!was || !is || steeperBy(step.state, sitting, is.id, marks) === null) return null
  const [before, now] = [was, is].map((source) => sourcePlace(source, sitting.camera, marks).elevationDeg)
  const again = atAngleUp(sitting, is.id, before!, marks)
  if (!again) return null
  const angle = formatAngle(before!, UP)
  return (
    <>
      <span className="keys">{`height kept, ${formatAngle(now!, UP)}`}</span>
      <button
        type="button"
        className="word under"
        title={`raises or lowers ${is.letter} where it stands to the angle that it had`}
        onClick={() => {
          document.getElementById(WALK_WORD)?.focus()
          edit(`${is.letter} to ${angle} again`, () => again)
        }}
      >
        {`keep ${angle}`}
      </button>
    </>
  )
}

/**
 * What a source that is dragged over the plan keeps, what that changes, and which keys keep the other: told as long as it is in
 * the hand. A stand slides, so the height is kept and the angle goes with the distance; a typed tape keeps the angle. Null: of anything else.
 */
function heldWords(
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
    return { up: formatAngle(up, UP), height: formatLength(source.centreM[1], units) }
  }) as [{ up: string; height: string }, { up: string; height: string }]
  return keepsAngle
    ? { kept: `angle kept, ${is.height} high`, keys: 'Shift snaps' }
    : { kept: `height kept, ${is.up}`, keys: `Alt keeps ${was.up}, Shift snaps` }
}
