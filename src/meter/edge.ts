import { arrivals, type CrossProfile, crossProfile } from '../photometry'
import type { RigSource } from '../rig'
import { addScaled, directionToLocal, dot, normalize, pointToLocal, subtract, type Vec3 } from '../space'
import type { Quality } from './arrivals'
import { outlineInWorld } from './outline'

/** The plane in which a shadow's edge is cut square to itself, and where the lit face's outline ends in it. */
export interface EdgeRim {
  /** Unit, world, from the edge to the centre of the lit face. */
  readonly axis: Vec3
  /** Unit, square to the axis. */
  readonly across: Vec3
  /** Tangents across, from the axis, between which all of the lit face is. */
  readonly low: number
  readonly high: number
}

/**
 * How wide a source is from a shadow-casting edge, measured across that edge as a tangent (width over distance), so that
 * times the gap between edge and receiver it is the width of the shadow's edge on a surface that faces the source.
 */
export interface EdgeSpread extends Pick<EdgeRim, 'axis' | 'across'> {
  /** From outline to outline: nothing of the source hidden … all hidden. */
  readonly full: number
  /** Between the places where 10 % and 90 % of the light is hidden, from the luminance that the edge sees. */
  readonly tenToNinety: number
  /** Tangent across, from the axis, below which a share (0 to 1) of the light comes. */
  slopeAt(share: number): number
  /** Share of the light that a blocker hides at most, from its width over the gap. */
  hiddenBy(width: number): number
}

/** Grid of the profile: 10 to 90 % stands to 1 %, in a draft to 3 %. */
const PROFILE_GRID: Readonly<Record<Quality, number>> = { settled: 40, draft: 20, sketch: 20 }

/**
 * A straight edge hides the source like a blind: what has gone by when the blind stands at x is the cumulative share of
 * the light with smaller x. `lean`: some direction along which the blocker juts out; its part square to the axis is
 * across. null: the blocker juts out straight at the source, or the source sends nothing this way.
 */
export function edgeSpread(source: RigSource, edge: Vec3, lean: Vec3, quality: Quality = 'settled'): EdgeSpread | null {
  const front = frontOf(source)
  const rim = edgeRim(source, edge, lean)
  if (!front || !rim) return null
  const { axis, across } = rim
  const place = pointToLocal(front.frame, edge)
  if (arrivals(front.emission, place, 4).length === 0) return null
  const profile = crossProfile(front.emission, place, directionToLocal(front.frame, across), PROFILE_GRID[quality])
  return {
    axis,
    across,
    full: rim.high - rim.low,
    tenToNinety: profile.tenToNinetyPerGap,
    slopeAt: profile.slopeAt,
    hiddenBy: (width) => hiddenShare(profile, width),
  }
}

/** `lean` as in edgeSpread. null: the blocker juts out straight at the source. */
export function edgeRim(source: RigSource, edge: Vec3, lean: Vec3): EdgeRim | null {
  const front = frontOf(source)
  const axes = edgeAxes(source.frame.origin, edge, lean)
  if (!front || !axes) return null
  const { axis, across } = axes
  const slopes = outlineInWorld(front.frame, front.emission.surface)
    .map((p) => subtract(p, edge))
    .map((p) => dot(p, across) / dot(p, axis))
  return { axis, across, low: Math.min(...slopes), high: Math.max(...slopes) }
}

/** Of light from a place past an edge; null: the blocker juts out straight at it. */
export function edgeAxes(from: Vec3, edge: Vec3, lean: Vec3): Pick<EdgeRim, 'axis' | 'across'> | null {
  const axis = normalize(subtract(from, edge))
  const square = addScaled(lean, axis, -dot(lean, axis))
  return dot(square, square) < 1e-8 ? null : { axis, across: normalize(square) }
}

const frontOf = ({ emitters }: RigSource) => emitters.find(({ part }) => part === 'front')

/** Largest share of the light that a blocker of this width (as a tangent) hides, taken in the middle of the light. */
function hiddenShare({ slopeAt }: CrossProfile, width: number): number {
  let [low, high] = [0, 1]
  for (let step = 0; step < 12; step++) {
    const share = (low + high) / 2
    if (slopeAt(0.5 + share / 2) - slopeAt(0.5 - share / 2) < width) low = share
    else high = share
  }
  return (low + high) / 2
}

/**
 * How much an edge stretches on a receiver that doesn't face the source. A step w across the light lands where
 * w·across + s·axis lies in the surface, so its length is w·√(1 + (across·n / axis·n)²): 1/cos i when the edge runs
 * square to the plane of incidence, 1 when it runs in it.
 */
export function stretchOnSurface({ axis, across }: EdgeSpread, normal: Vec3): number {
  return Math.hypot(1, dot(across, normal) / dot(axis, normal))
}
