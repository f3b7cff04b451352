import { type RigFigure, type RigSource, shadowCheek } from '../rig'
import { dot, normalize, subtract } from '../space'

type Posed = RigFigure['posed']

/** Least cosine at which skin still counts as lit: beyond it the face turns away and throws no edge of its own. */
export const GRAZING = 0.05

/**
 * How far the cheek lies behind the nose tip along the light, metres: b of w = W·b/a, in the reading and in the drawing
 * beside it. null: the light comes from behind, or that cheek is turned away from it.
 */
export function noseGapM(posed: Posed, source: RigSource): number | null {
  const tip = posed.landmarks.noseTip.position
  const towards = normalize(subtract(source.frame.origin, tip))
  const { position, normal } = posed.landmarks[shadowCheek(posed, towards)]
  const gap = dot(subtract(tip, position), towards)
  return dot(towards, posed.noseDirection) > 0 && dot(normal, towards) >= GRAZING && gap > 0 ? gap : null
}
