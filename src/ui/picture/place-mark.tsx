import { projectToFrame } from '../../camera'
import { type Look, rigSeen } from '../../rig'
import { useDerived } from '../derived'
import { useSession } from '../store'

/** Over the whole picture: a ring round the place of the reading that is pointed at or holds the focus, with its name, as on plan and elevation. */
export function PlaceMark({ look }: { look: Look }) {
  const place = useSession(({ pointedAt, wipe }) => (wipe === null ? pointedAt : null))
  const rig = useDerived((derived) => derived.rig)
  if (!place || !rig || look !== 'camera') return null
  const { view } = rigSeen(rig, look)
  const seen = projectToFrame(place.at, view.frame, view)
  if (!seen || Math.max(Math.abs(seen.x), Math.abs(seen.y)) > 1) return null
  return (
    <i className="place-mark" aria-hidden="true" style={{ left: `${50 + 50 * seen.x}%`, top: `${50 - 50 * seen.y}%` }}>
      <span className={seen.x > 0 ? 'before' : undefined}>{place.name}</span>
    </i>
  )
}
