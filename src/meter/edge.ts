import type { RigSource } from '../rig'
import { addScaled, dot, normalize, subtract, type Vec3 } from '../space'
import { fineArrivals } from './arrivals'
import { outlineInWorld } from './outline'

/**
 * How wide a source is from a shadow-casting edge, measured across that edge as a tangent (width over distance), so that
 * times the gap between edge and receiver it is the width of the shadow's edge on a surface that faces the source.
 */
export interface EdgeSpread {
  /** Unit, world, from the edge to the centre of the lit face. */
  readonly axis: Vec3
  /** Unit, square to the axis. */
  readonly across: Vec3
  /** From outline to outline: nothing of the source hidden … all hidden. */
  readonly full: number
  /** Between the places where 10 % and 90 % of the light is hidden, from the luminance that the edge sees. */
  readonly tenToNinety: number
}

/**
 * A straight edge hides the source like a blind: what has gone by when the blind stands at x is the cumulative share of
 * the light with smaller x. `lean`: some direction along which the blocker juts out; its part square to the axis is across.
 */
export function edgeSpread(source: RigSource, edge: Vec3, lean: Vec3, receiver: Vec3): EdgeSpread | null {
  const axis = normalize(subtract(source.frame.origin, edge))
  const square = addScaled(lean, axis, -dot(lean, axis))
  if (dot(square, square) < 1e-8) return null
  const across = normalize(square)
  const place = (direction: Vec3) => dot(direction, across) / dot(direction, axis)
  const pieces = fineArrivals(source, edge)
    .map(({ direction, strength }) => ({
      x: place(direction),
      weight: strength * Math.max(0, dot(direction, receiver)),
    }))
    .filter(({ weight }) => weight > 0)
  if (pieces.length === 0) return null
  const front = source.emitters.filter(({ part }) => part === 'front')
  const rim = front.flatMap(({ frame, emission }) =>
    outlineInWorld(frame, emission.surface).map((p) => place(subtract(p, edge))),
  )
  return {
    axis,
    across,
    full: Math.max(...rim) - Math.min(...rim),
    tenToNinety: quantile(pieces, 0.9) - quantile(pieces, 0.1),
  }
}

/** Place below which a share of the weight lies; each piece counted half before and half after its own place. */
export function quantile(pieces: readonly { readonly x: number; readonly weight: number }[], share: number): number {
  const sorted = [...pieces].sort((a, b) => a.x - b.x)
  const goal = share * sorted.reduce((sum, { weight }) => sum + weight, 0)
  let before = 0
  let last = { x: sorted[0].x, at: 0 }
  for (const { x, weight } of sorted) {
    const at = before + weight / 2
    if (at >= goal) return at === last.at ? x : last.x + ((x - last.x) * (goal - last.at)) / (at - last.at)
    last = { x, at }
    before += weight
  }
  return sorted[sorted.length - 1].x
}

/**
 * How much an edge stretches on a receiver that doesn't face the source. A step w across the light lands where
 * w·across + s·axis lies in the surface, so its length is w·√(1 + (across·n / axis·n)²): 1/cos i when the edge runs
 * square to the plane of incidence, 1 when it runs in it.
 */
export function stretchOnSurface({ axis, across }: EdgeSpread, normal: Vec3): number {
  return Math.hypot(1, dot(across, normal) / dot(axis, normal))
}
