import { directionToLocal, directionToWorld, type Frame, pointToLocal, pointToWorld, type Vec3 } from '../../space'

/** A lens of a pair of glasses: a spherical cap within an outline, no mesh. Both its surfaces are taken as this one. */
export interface SpectacleLens {
  /** Origin on the front surface at the middle of the outline; x to the sitter's left, y up, z out of the surface there. */
  readonly frame: Frame
  /** Of the front surface, 1/m; 0 is flat. */
  readonly curvature: number
  readonly halfWidthM: number
  readonly halfHeightM: number
}

/** Both lenses of a pair of glasses, in the head's frame or in the world. */
export interface LensPair {
  /** The sitter's own left and right. */
  readonly left: SpectacleLens
  readonly right: SpectacleLens
  readonly coated: boolean
  /** Between the lenses, where the frame sits on the nose: it tilts about the lenses' x direction through here. */
  readonly pivot: Vec3
  /** Unit, to the sitter's left. */
  readonly axis: Vec3
}

/** Of the outline |x / (a(1 + t·y/b))|ᵖ + |y/b|ᵖ = 1: rounded, a little narrower below. The picture's twin has the same two. */
export const OUTLINE_POWER = 2.6
export const OUTLINE_TAPER = 0.1

type Size = Pick<SpectacleLens, 'halfWidthM' | 'halfHeightM'>

/** Below 1 within the outline, 1 on it. x, y: of the lens's own frame, metres. */
export function outlineLevel({ halfWidthM, halfHeightM }: Size, x: number, y: number): number {
  const v = y / halfHeightM
  const u = x / (halfWidthM * (1 + OUTLINE_TAPER * v))
  return Math.abs(u) ** OUTLINE_POWER + Math.abs(v) ** OUTLINE_POWER
}

/** The outline's point at an angle from +x towards +y, radians; it goes round once in 2π. */
export function outlineAt({ halfWidthM, halfHeightM }: Size, angle: number): readonly [number, number] {
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  const r = (Math.abs(c) ** OUTLINE_POWER + Math.abs(s) ** OUTLINE_POWER) ** (-1 / OUTLINE_POWER)
  return [halfWidthM * (1 + OUTLINE_TAPER * s * r) * c * r, halfHeightM * s * r]
}

/** How far the front surface lies behind its middle, at a point of the lens's frame, metres. */
export function sagOf({ curvature }: Pick<SpectacleLens, 'curvature'>, x: number, y: number): number {
  const squared = x * x + y * y
  return (curvature * squared) / (1 + Math.sqrt(1 - curvature * curvature * squared))
}

/** World point and outward unit normal of the front surface above a point of the lens's plane. */
export function onLens(lens: SpectacleLens, x: number, y: number): { readonly point: Vec3; readonly normal: Vec3 } {
  const local: Vec3 = [x, y, -sagOf(lens, x, y)]
  const { frame, curvature } = lens
  return {
    point: pointToWorld(frame, local),
    normal: directionToWorld(frame, [curvature * local[0], curvature * local[1], 1 + curvature * local[2]]),
  }
}

/** Nearer to its start a way has left the lens rather than met it. */
const LEAST_SHARE = 1e-4

/**
 * Where the straight way from one point to another passes the lens: its share of the way (0 to 1), and the unit normal on the
 * outer side; null: past it. The sphere is c·p² + 2z = 0, which stays good to c = 0. A way that grazes the bulge and
 * leaves it again is met once.
 */
export function meetLens(
  lens: SpectacleLens,
  from: Vec3,
  to: Vec3,
): { readonly share: number; readonly normal: Vec3 } | null {
  const { frame, curvature: c } = lens
  const o = pointToLocal(frame, from)
  const d = directionToLocal(frame, [to[0] - from[0], to[1] - from[1], to[2] - from[2]])
  const a = c * (d[0] * d[0] + d[1] * d[1] + d[2] * d[2])
  const b = c * (o[0] * d[0] + o[1] * d[1] + o[2] * d[2]) + d[2]
  const e = c * (o[0] * o[0] + o[1] * o[1] + o[2] * o[2]) + 2 * o[2]
  const inner = b * b - a * e
  if (inner < 0) return null
  const root = Math.sqrt(inner)
  const share = d[2] < 0 ? e / (root - b) : -e / (root + b)
  if (!(share > LEAST_SHARE && share < 1)) return null
  const [x, y, z] = [o[0] + share * d[0], o[1] + share * d[1], o[2] + share * d[2]]
  // The far side of the ball has its normal turned away from the lens's axis.
  if (1 + c * z <= 0 || outlineLevel(lens, x, y) > 1) return null
  return { share, normal: directionToWorld(frame, [c * x, c * y, 1 + c * z]) }
}
