/** Curves through typed points: knots for one number, tubes and brushes along a polyline. Millimetres. */
import { clamp01 } from './solids'

export type Knot = readonly [number, number]
/** x, y, z and a fourth number: a tube's radius, a brush's weight. */
export type CurvePoint = readonly [number, number, number, number]

/** Cubic Hermite through sorted knots with finite-difference slopes; held constant beyond both ends. */
export function spline(knots: readonly Knot[]): (x: number) => number {
  const last = knots.length - 1
  const slopes = knots.map((_, i) => {
    const [x0, y0] = knots[Math.max(0, i - 1)]
    const [x1, y1] = knots[Math.min(last, i + 1)]
    return (y1 - y0) / (x1 - x0)
  })
  return (x) => {
    if (x <= knots[0][0]) return knots[0][1]
    if (x >= knots[last][0]) return knots[last][1]
    let i = 0
    while (x > knots[i + 1][0]) i++
    const h = knots[i + 1][0] - knots[i][0]
    const t = (x - knots[i][0]) / h
    const t2 = t * t
    const t3 = t2 * t
    return (
      knots[i][1] * (2 * t3 - 3 * t2 + 1) +
      slopes[i] * h * (t3 - 2 * t2 + t) +
      knots[i + 1][1] * (3 * t2 - 2 * t3) +
      slopes[i + 1] * h * (t3 - t2)
    )
  }
}

/** The same of a distance from the midline: level there, or both halves meet at an edge. The first knot is at 0. */
export const evenSpline = (knots: readonly Knot[]): ((x: number) => number) =>
  spline([[-knots[1][0], knots[1][1]], ...knots])

/**
 * Catmull-Rom subdivision of a polyline, four numbers a point, flat. The fourth is level at both ends: what is beyond has the end's own,
 * and a slope that breaks off there would show as a fold square to the line.
 */
function resample(points: readonly CurvePoint[], segments: number): Float64Array {
  const last = points.length - 1
  const out = new Float64Array((last * segments + 1) * 4)
  for (let i = 0, o = 0; i < last; i++) {
    const [p0, p1, p2, p3] = [points[Math.max(0, i - 1)], points[i], points[i + 1], points[Math.min(last, i + 2)]]
    for (let s = 0; s < segments; s++) {
      const t = s / segments
      for (let k = 0; k < 4; k++) {
        const [before, after] = [k === 3 && i === 0 ? p2[k] : p0[k], k === 3 && i === last - 1 ? p1[k] : p3[k]]
        const cubic = 3 * (p1[k] - p2[k]) + after - before
        out[o++] = p1[k] + 0.5 * t * (p2[k] - before + t * (2 * before - 5 * p1[k] + 4 * p2[k] - after + t * cubic))
      }
    }
  }
  out.set(points[last], out.length - 4)
  return out
}

/** Nearest point of the polyline: [squared distance, fourth number there]. Reuses its result array. */
function nearestOn(path: Float64Array, x: number, y: number, z: number, out: Float64Array): void {
  out[0] = Number.POSITIVE_INFINITY
  for (let i = 0; i + 4 < path.length; i += 4) {
    const px = x - path[i]
    const py = y - path[i + 1]
    const pz = z - path[i + 2]
    const dx = path[i + 4] - path[i]
    const dy = path[i + 5] - path[i + 1]
    const dz = path[i + 6] - path[i + 2]
    const t = clamp01((px * dx + py * dy + pz * dz) / (dx * dx + dy * dy + dz * dz))
    const ex = px - t * dx
    const ey = py - t * dy
    const ez = pz - t * dz
    const d = ex * ex + ey * ey + ez * ez
    if (d < out[0]) {
      out[0] = d
      out[1] = path[i + 3] + (path[i + 7] - path[i + 3]) * t
    }
  }
}

/** How sharply the nearest part of a soft brush's line counts. */
const SHARP = 3

/**
 * A brush for a bent line that is short beside its own breadth: by the nearest place a stroke breaks where two are equally near. This one
 * takes the integral along the line, which for a straight one is the same; towards its ends it fades by a fifth.
 */
export function softBrush(
  points: readonly CurvePoint[],
  depth: number,
  sigma: number,
): (x: number, y: number, z: number) => number {
  const path = resample(points, 6)
  const narrow = SHARP / (sigma * sigma)
  const pieces: { readonly at: readonly [number, number, number]; readonly share: number }[] = []
  for (let i = 0; i + 4 < path.length; i += 4) {
    const mean = (k: number) => (path[i + k] + path[i + 4 + k]) / 2
    const size = Math.hypot(path[i + 4] - path[i], path[i + 5] - path[i + 1], path[i + 6] - path[i + 2])
    const share = mean(3) ** SHARP * size * Math.sqrt(narrow / Math.PI)
    pieces.push({ at: [mean(0), mean(1), mean(2)], share })
  }
  return (x, y, z) => {
    let sum = 0
    for (const { at, share } of pieces)
      sum += share * Math.exp(-narrow * ((x - at[0]) ** 2 + (y - at[1]) ** 2 + (z - at[2]) ** 2))
    return depth * sum ** (1 / SHARP)
  }
}

/** A line that starts on the midline, with its other half: a soft brush along one half alone meets itself at an edge there. */
export const bothHalves = (points: readonly CurvePoint[]): readonly CurvePoint[] => [
  ...points
    .slice(1)
    .reverse()
    .map(([x, y, z, weight]): CurvePoint => [-x, y, z, weight]),
  ...points,
]

/** Distance to a tube of varying radius. */
export function tube(points: readonly CurvePoint[], segments: number): (x: number, y: number, z: number) => number {
  const path = resample(points, segments)
  return (x, y, z) => {
    let best = Number.POSITIVE_INFINITY
    for (let i = 0; i + 4 < path.length; i += 4) {
      const px = x - path[i]
      const py = y - path[i + 1]
      const pz = z - path[i + 2]
      const dx = path[i + 4] - path[i]
      const dy = path[i + 5] - path[i + 1]
      const dz = path[i + 6] - path[i + 2]
      const t = clamp01((px * dx + py * dy + pz * dz) / (dx * dx + dy * dy + dz * dz))
      const ex = px - t * dx
      const ey = py - t * dy
      const ez = pz - t * dz
      const d = Math.sqrt(ex * ex + ey * ey + ez * ez) - (path[i + 3] + (path[i + 7] - path[i + 3]) * t)
      if (d < best) best = d
    }
    return best
  }
}

/**
 * A soft stroke to add to a field: depth·weight·exp(−d²/σ²) within 2.6 σ of the polyline. Positive depth carves.
 * Strokes, not thin cut tubes, make folds and creases: cut tubes look like scars.
 */
export function brush(
  points: readonly CurvePoint[],
  depth: number,
  sigma: number,
): (x: number, y: number, z: number) => number {
  const path = resample(points, 6)
  const reach = sigma * 2.6
  const low = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]
  const high = low.map((v) => -v)
  for (let i = 0; i < path.length; i++) {
    const k = i % 4
    if (k === 3) continue
    low[k] = Math.min(low[k], path[i] - reach)
    high[k] = Math.max(high[k], path[i] + reach)
  }
  const found = new Float64Array(2)
  return (x, y, z) => {
    if (x < low[0] || x > high[0] || y < low[1] || y > high[1] || z < low[2] || z > high[2]) return 0
    nearestOn(path, x, y, z, found)
    return depth * found[1] * Math.exp(-found[0] / (sigma * sigma))
  }
}
