import { type EdgeRim, edgeRim } from '../meter'
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

/** The nose tip's shadow as the reading counts it: the plane across it, the rims in that plane, and the gap. null: as of noseGapM, or the light comes straight along the nose. */
export function noseEdge(posed: Posed, source: RigSource): (EdgeRim & { readonly gapM: number }) | null {
  const gapM = noseGapM(posed, source)
  const rim = edgeRim(source, posed.landmarks.noseTip.position, posed.noseDirection)
  return gapM !== null && rim ? { ...rim, gapM } : null
}
