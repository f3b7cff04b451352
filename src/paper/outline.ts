import type { Vec3 } from '../space'
import type { Bounds, Point2 } from './types'

/** World point onto the plane of a drawing. */
export type Projection = (p: Vec3) => Point2

export const planProjection: Projection = (p) => [p[0], p[2]]

/** Onto the vertical plane through the y axis along a horizontal unit direction. */
export const elevationProjection =
  (alongX: number, alongZ: number): Projection =>
  (p) => [p[0] * alongX + p[2] * alongZ, -p[1]]

/** Convex hull, counter-clockwise as the plane counts (monotone chain, Andrew 1979). */
export function convexHull(points: readonly Point2[]): Point2[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1])
  const half = (ordered: readonly Point2[]): Point2[] => {
    const chain: Point2[] = []
    for (const p of ordered) {
      while (chain.length >= 2 && turn(chain[chain.length - 2], chain[chain.length - 1], p) <= 0) chain.pop()
      chain.push(p)
    }
    chain.pop()
    return chain
  }
  return [...half(sorted), ...half(sorted.reverse())]
}

const turn = (o: Point2, a: Point2, b: Point2): number => (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])

export function boundsOf(points: readonly Point2[], marginM: number): Bounds {
  const xs = points.map((p) => p[0])
  const ys = points.map((p) => p[1])
  return {
    minX: Math.min(...xs) - marginM,
    minY: Math.min(...ys) - marginM,
    maxX: Math.max(...xs) + marginM,
    maxY: Math.max(...ys) + marginM,
  }
}
