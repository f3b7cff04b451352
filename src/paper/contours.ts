import type { Point2 } from './types'

/** Where a field sampled in the middles of square cells crosses one half: polylines in columns and rows, closed or to the edge. */
export function contours(field: Float32Array, side: number): Point2[][] {
  const next = new Map<number, { readonly to: number; readonly from: Point2; readonly end: Point2 }>()
  const value = (column: number, row: number) => field[row * side + column]
  /** Crossing of a cell's edge: 0 top, 1 right, 2 bottom, 3 left of the square between four middles. */
  const crossing = (column: number, row: number, edge: number): { readonly key: number; readonly at: Point2 } => {
    const [c, r] = [edge === 1 ? column + 1 : column, edge === 2 ? row + 1 : row]
    const level = edge % 2 === 0
    const [a, b] = [value(c, r), level ? value(c + 1, r) : value(c, r + 1)]
    const t = (0.5 - a) / (b - a)
    return { key: 2 * (r * side + c) + (level ? 0 : 1), at: level ? [c + t, r] : [c, r + t] }
  }
  for (let row = 0; row < side - 1; row++)
    for (let column = 0; column < side - 1; column++)
      for (const [enter, leave] of strokes(value, column, row)) {
        const [a, b] = [crossing(column, row, enter), crossing(column, row, leave)]
        next.set(a.key, { to: b.key, from: a.at, end: b.at })
      }
  return chains(next)
}

/** Edges by which the line comes into a square and leaves it, the fuller side at its right hand. */
function strokes(value: (column: number, row: number) => number, c: number, r: number): (readonly [number, number])[] {
  const corners = [value(c, r), value(c + 1, r), value(c + 1, r + 1), value(c, r + 1)]
  const full = corners.map((corner) => corner >= 0.5)
  const enters: number[] = []
  const leaves: number[] = []
  for (let edge = 0; edge < 4; edge++) {
    const [before, after] = [full[edge], full[(edge + 1) % 4]]
    if (!before && after) leaves.push(edge)
    if (before && !after) enters.push(edge)
  }
  if (enters.length < 2) return enters.map((enter, i) => [enter, leaves[i]] as const)
  // Two full corners across from each other: joined where the middle is full.
  const joined = corners.reduce((sum, corner) => sum + corner, 0) >= 2
  return enters.map((enter) => [enter, (enter + (joined ? 1 : 3)) % 4] as const)
}

type Step = { readonly to: number; readonly from: Point2; readonly end: Point2 }

function chains(next: ReadonlyMap<number, Step>): Point2[][] {
  const led = new Set([...next.values()].map(({ to }) => to))
  // Lines that come in from the edge first; what is left are rings.
  const starts = [...[...next.keys()].filter((key) => !led.has(key)), ...next.keys()]
  const seen = new Set<number>()
  const lines: Point2[][] = []
  for (const start of starts) {
    if (seen.has(start)) continue
    const points: Point2[] = []
    let key = start
    let step = next.get(key)
    while (step && !seen.has(key)) {
      seen.add(key)
      points.push(step.from)
      key = step.to
      const after = next.get(key)
      if (!after || seen.has(key)) points.push(step.end)
      step = after
    }
    lines.push(points)
  }
  return lines
}

/** Each point moved to the mean of itself, twice, and its neighbours; ends stay, a ring closes on itself. */
export function eased(points: readonly Point2[]): Point2[] {
  const last = points.length - 1
  const ring = last > 2 && Math.hypot(points[0][0] - points[last][0], points[0][1] - points[last][1]) < 1e-9
  return points.map((p, i) => {
    if (!ring && (i === 0 || i === last)) return p
    const before = points[i === 0 ? last - 1 : i - 1]
    const after = points[i === last ? 1 : i + 1]
    return [(before[0] + 2 * p[0] + after[0]) / 4, (before[1] + 2 * p[1] + after[1]) / 4]
  })
}
