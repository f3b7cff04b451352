import { projectToFrame } from '../../camera'
import type { OutlineLine } from '../../readings'
import { keyOf, type Look, rigSeen, type View } from '../../rig'
import { useDerived } from '../derived'
import { useSession } from '../store'

/** Units across the drawing; its height goes by the picture's shape. */
const ACROSS = 1000

/**
 * Over the picture, on demand: the middle of the key's shadow edge on the face, where half of the source is seen, dashed, as nothing ends
 * there; broader round the lit triangle. From where the lens stands, so not over the profile; of two takes in one frame over the right one, which is the set.
 */
export function ShadowEdge({ look }: { look: Look }) {
  const on = useSession((session) => session.outlined)
  const from = useSession((session) => session.wipe?.at ?? 0)
  const rig = useDerived((derived) => derived.rig)
  const lines = useDerived((derived) => derived.outline)
  const key = rig && keyOf(rig)
  if (!on || !rig || !key || !lines || look === 'profile') return null
  const { view } = rigSeen(rig, look)
  const high = (ACROSS * view.sensorHeightMm) / view.sensorWidthMm
  const hasTriangle = lines.some(({ triangle }) => triangle)
  const words = `Middle of the shadow edge of ${key.letter} on the face${hasTriangle ? ', with the lit triangle' : ''}`
  return (
    <svg
      className="shadow-edge"
      style={{ clipPath: `inset(0 0 0 ${from}%)` }}
      viewBox={`0 0 ${ACROSS} ${high}`}
      role="img"
      aria-label={words}
    >
      {['under', 'over'].map((layer) =>
        lines.map((line) => (
          <path
            key={keyFor(line)}
            className={line.triangle ? `${layer} triangle` : layer}
            d={pathOf(line, view, high)}
          />
        )),
      )}
    </svg>
  )
}

const keyFor = ({ points: [[x, y, z]] }: OutlineLine): string => `${x} ${y} ${z}`

function pathOf({ points }: OutlineLine, view: View, high: number): string {
  const places = points.flatMap((point) => {
    const at = projectToFrame(point, view.frame, view)
    return at ? [`${(((1 + at.x) / 2) * ACROSS).toFixed(1)} ${(((1 - at.y) / 2) * high).toFixed(1)}`] : []
  })
  return places.length > 1 ? `M${places.join('L')}` : ''
}
