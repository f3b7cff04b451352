import { projectToFrame } from '../../camera'
import { edgePlace, type Look, type Rig, rigSeen } from '../../rig'

/** Nearer than this to a side the other half would have nothing to show, percent of the picture's width. */
const MARGIN = 10

/**
 * Where a divider begins, percent of the picture's width: across the edge of the shadow that the edge reading is of, so that each side has a
 * part of it; through the middle of the face where there is none.
 */
export function seamAt(rig: Rig, look: Look): number {
  const { view } = rigSeen(rig, look)
  const [face] = rig.figures
  const place = edgePlace(rig)?.at ?? face.posed.landmarks.noseTip.position
  const seen = projectToFrame(place, view.frame, view)
  const at = seen ? 50 * (1 + seen.x) : 50
  return at < MARGIN || at > 100 - MARGIN ? 50 : at
}
