import { type PlaceLandmarks, type Sitting, type Source, type Stop, sourcePlace, stopAt } from '../../sitting'
import { useMarksNow } from '../derived'
import { setSession, useSession, useSittingNow } from '../store'
import { formatAngle } from '../values'
import { halfFaceOf, type InHand } from './drawing-view'
import { isRemote } from './moves'

/**
 * Beside the word Plan: what a drag over the plan keeps of the source that is selected, its angle up or its height, to choose; while
 * it is in the hand, that and what goes with the hand, in numbers. And what it is up against.
 */
export function StandAngle({ held }: { held: InHand | null }) {
  const sitting = useSittingNow()
  const marks = useMarksNow()
  const selected = useSession((session) => session.selected)
  const keepsHeight = useSession((session) => session.keepsHeight)
  const source = sitting.sources.find(({ id }) => id === selected)
  if (!marks || !source || isRemote(sitting, source.id)) return null
  const against = stopAt(source, halfFaceOf({ type: 'source', id: source.id }), sitting, marks)
  if (held)
    return (
      held.target.type === 'source' &&
      held.plane.kind === 'plan' && <Kept {...{ held, source, sitting, marks, against }} />
    )
  return (
    <>
      {/* biome-ignore lint/a11y/useSemanticElements: two words in a line of text are no fieldset */}
      <span role="group" aria-label={`a drag on the plan keeps of ${source.letter}`}>
        <span className="keeps">
          <span className="keys">a drag </span>keeps<span className="keys"> its</span>
        </span>
        {([false, true] as const).map((height) => (
          <button
            key={String(height)}
            type="button"
            className="word under"
            aria-pressed={keepsHeight === height}
            title={height ? HEIGHT_TITLE : ANGLE_TITLE}
            onClick={() => setSession({ keepsHeight: height })}
          >
            {height ? (
              'height'
            ) : (
              <>
                angle<span className="whom"> up</span>
              </>
            )}
          </button>
        ))}
      </span>
      {against && <span className="against">{AGAINST[against]}</span>}
    </>
  )
}

const ANGLE_TITLE =
  'nearer and farther it shines as steeply as before: its stand goes up and down with it; round it goes once the hand clearly does; Alt held keeps the height'
const HEIGHT_TITLE =
  'its stand is slid over the floor as it is: nearer it shines more steeply; Alt held keeps the angle up'

const AGAINST: Readonly<Record<Stop, string>> = {
  ceiling: 'at the ceiling',
  floor: 'at the floor',
  face: 'at the face',
}
const UP = ['up', 'down'] as const
const SIDES = ['right', 'left'] as const

interface KeptProps {
  readonly held: InHand
  readonly source: Source
  readonly sitting: Sitting
  readonly marks: PlaceLandmarks
  readonly against: Stop | null
}

/** On the elevation's title, of a source in the hand there. */
export function Against({ held }: { held: InHand }) {
  const sitting = useSittingNow()
  const marks = useMarksNow()
  const { target } = held
  const source = target.type === 'source' && sitting.sources.find(({ id }) => id === target.id)
  const against = source && marks ? stopAt(source, halfFaceOf(target), sitting, marks) : null
  return against && <span className="against">{AGAINST[against]}</span>
}

/** Of a source in the hand: what is kept, and by which key something else is; what goes with the hand stands on the drawing. */
function Kept({ held, source, sitting, marks, against }: KeptProps) {
  const { elevationDeg, azimuthFromLensDeg } = sourcePlace(source, sitting.camera, marks)
  const [kept, other] = held.keepsAngle ? [formatAngle(elevationDeg, UP), 'height'] : ['height', 'angle up']
  const round = held.keepsRound ? `, ${formatAngle(azimuthFromLensDeg, SIDES)}` : ''
  const keys = `; Alt: ${other}, ${held.keepsRound ? '' : 'Ctrl: round, '}Shift snaps`
  return (
    <>
      {`${kept}${round} kept`}
      {against ? `, ${AGAINST[against]}` : <span className="keys">{keys}</span>}
    </>
  )
}
