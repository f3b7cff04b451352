import { keyOf, type Rig } from '../rig'
import { distance } from '../space'
import { noseEdge } from './nose-gap'

/** What makes the edge of the nose shadow: two rays from the rims of the key past the nose tip to the cheek. */
export interface EdgeRays {
  /** Of both rays against the light from the middle of the key, tangents in the plane square to the edge. */
  readonly low: number
  readonly high: number
  /** From the nose tip back to the cheek along the light, metres. */
  readonly gapM: number
  /** From the nose tip to the middle of the lit face, metres; null: as far as the sun. */
  readonly distanceM: number | null
}

/** null: there is no key, or its light throws no nose shadow forward. */
export function edgeRaysOf(rig: Pick<Rig, 'sources' | 'figures'>): EdgeRays | null {
  const key = keyOf(rig)
  const posed = rig.figures[0]?.posed
  if (!key || !posed || key.remote?.kind === 'around') return null
  const edge = noseEdge(posed, key)
  if (!edge) return null
  const { low, high, gapM } = edge
  const tip = posed.landmarks.noseTip.position
  return { low, high, gapM, distanceM: key.remote ? null : distance(tip, key.frame.origin) }
}

/** Width of the edge square to the light, metres (similar triangles: the angle before the nose is the one behind it). */
export const edgeWidthM = ({ low, high, gapM }: EdgeRays): number => gapM * (high - low)
