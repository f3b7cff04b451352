/** Nodes and weights on [0, 1] of the n-point Gauss–Legendre rule (Newton on Pₙ from Tricomi's first guess). */
export function gaussLegendre(n: number): readonly { readonly x: number; readonly weight: number }[] {
  return Array.from({ length: n }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5))
    let slope = 1
    for (let step = 0; step < 8; step++) {
      let [previous, p] = [1, x]
      for (let k = 2; k <= n; k++) [previous, p] = [p, ((2 * k - 1) * x * p - (k - 1) * previous) / k]
      slope = (n * (x * p - previous)) / (x * x - 1)
      x -= p / slope
    }
    return { x: (1 - x) / 2, weight: 1 / ((1 - x * x) * slope * slope) }
  })
}

export interface DiscNode {
  /** On the unit disc. */
  readonly x: number
  readonly y: number
  /** All weights add up to 1: the rule is a mean over the disc. */
  readonly weight: number
}

/** Mean over the unit disc: Gauss in r², equal steps in angle, each ring turned by half a step against the last. */
export function discRule(rings: number, spokes: number): readonly DiscNode[] {
  return gaussLegendre(rings).flatMap(({ x: rSquared, weight }, ring) =>
    Array.from({ length: spokes }, (_, k) => {
      const angle = (2 * Math.PI * (k + (ring % 2) / 2)) / spokes
      const r = Math.sqrt(rSquared)
      return { x: r * Math.cos(angle), y: r * Math.sin(angle), weight: weight / spokes }
    }),
  )
}
