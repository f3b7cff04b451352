/**
 * View factors F₁₂ between finite surfaces: the share of the flux leaving 1, evenly bright and matt, that reaches 2
 * [Incropera] table 13.2; [Howell] C-11, C-14, C-41. Arguments in ratios, all > 0. Some printed tables of these are
 * wrong (0.2353 for X = 1, Y = 2; 0.276 for W = 2, H = 1): the closed forms are right, and integration agrees.
 */

/** Opposite, aligned rectangles, sides X and Y in units of their gap. */
export function viewFactorParallel(x: number, y: number): number {
  const [x2, y2] = [1 + x * x, 1 + y * y]
  return (
    (2 / (Math.PI * x * y)) *
    (Math.log((x2 * y2) / (x2 + y2 - 1)) / 2 +
      x * Math.sqrt(y2) * Math.atan(x / Math.sqrt(y2)) +
      y * Math.sqrt(x2) * Math.atan(y / Math.sqrt(x2)) -
      x * Math.atan(x) -
      y * Math.atan(y))
  )
}

/** Rectangles at right angles with a common edge; depths W of the one that sends and H of the other, in units of the edge. */
export function viewFactorPerpendicular(w: number, h: number): number {
  const [w2, h2] = [w * w, h * h]
  const both = h2 + w2
  const logs =
    Math.log(((1 + w2) * (1 + h2)) / (1 + both)) +
    w2 * Math.log((w2 * (1 + both)) / ((1 + w2) * both)) +
    h2 * Math.log((h2 * (1 + both)) / ((1 + h2) * both))
  const angles = w * Math.atan(1 / w) + h * Math.atan(1 / h) - Math.sqrt(both) * Math.atan(1 / Math.sqrt(both))
  return (angles + logs / 4) / (Math.PI * w)
}

/** Coaxial parallel discs of radii r₁ (sends) and r₂, h apart. */
export function viewFactorDiscs(r1: number, r2: number, h: number): number {
  const x = 1 + (h * h + r2 * r2) / (r1 * r1)
  return (x - Math.sqrt(x * x - 4 * (r2 / r1) ** 2)) / 2
}

/** From and to, along one axis. */
export type Span = readonly [number, number]

/**
 * Rectangles anywhere in two planes at right angles that meet in the line of y: 1 spans x, y in the one plane, 2 spans
 * η (along y) and ξ in the other; every x, ξ ≥ 0 [Howell] C-16:
 *     F₁₂ = 1/A₁·ΣΣΣΣ (−1)^(i+j+k+l)·G,  G = (D·√C·atan(D/√C) − ¼(C − D²)·ln(C + D²))/2π,  C = x² + ξ², D = y − η.
 * With a corner in the line both terms of G vanish where C = D = 0.
 */
export function viewFactorPerpendicularOffset(x: Span, y: Span, eta: Span, xi: Span): number {
  let sum = 0
  for (const i of ENDS)
    for (const j of ENDS)
      for (const k of ENDS)
        for (const l of ENDS) sum += (-1) ** (i + j + k + l) * cornerTerm(x[i] ** 2 + xi[l] ** 2, y[j] - eta[k])
  return sum / ((x[1] - x[0]) * (y[1] - y[0]))
}
const ENDS = [0, 1] as const

function cornerTerm(c: number, d: number): number {
  const squared = c + d * d
  if (squared === 0) return 0
  const side = Math.sqrt(c)
  return (d * side * Math.atan2(d, side) - ((c - d * d) * Math.log(squared)) / 4) / (2 * Math.PI)
}
