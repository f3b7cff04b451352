/**
 * How light rises across a penumbra: the share of a uniform source that shows over a straight edge, as a function of
 * t from −1 (none) to 1 (all), t = 2x/w with w the full width. It is the area of the source on one side of a line,
 * exact for a source that is small against its distance. For a source whose luminance varies see crossProfile.
 */
export type SourceOutline = 'disc' | 'square' | 'diamond'

const SHARE: Readonly<Record<SourceOutline, (t: number) => number>> = {
  /** Circular segment. */
  disc: (t) => 1 / 2 + (t * Math.sqrt(1 - t * t) + Math.asin(t)) / Math.PI,
  /** Sides along the edge. */
  square: (t) => (1 + t) / 2,
  /** A square turned by 45°; its width across the edge is the diagonal. */
  diamond: (t) => (t < 0 ? (1 + t) ** 2 / 2 : 1 - (1 - t) ** 2 / 2),
}

/** Steepest slope, at the middle, per full width: 4/π, 1, 2. From f′(0) of each, times 2 as t = 2x/w. */
const SLOPE: Readonly<Record<SourceOutline, number>> = { disc: 4 / Math.PI, square: 1, diamond: 2 }

export const visibleShare = (outline: SourceOutline, t: number): number => SHARE[outline](Math.max(-1, Math.min(1, t)))

export const steepestSlope = (outline: SourceOutline): number => SLOPE[outline]

/**
 * Width between the levels 1 − p and p as a share of the full width, ½ < p < 1. The profile is odd about its middle,
 * so this is t where f(t) = p, found by halving to machine precision.
 */
export function widthShareBetween(outline: SourceOutline, level: number): number {
  let [low, high] = [0, 1]
  for (let step = 0; step < 53; step++) {
    const t = (low + high) / 2
    if (SHARE[outline](t) < level) low = t
    else high = t
  }
  return (low + high) / 2
}
