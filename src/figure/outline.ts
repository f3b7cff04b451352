/** Outlines of a posed figure for drawings: cuts through it and silhouettes of it. World metres. */
import { cross, dot, lerp, normalize, subtract, type Vec3 } from '../space'
import type { PartName, PosedFigure, PosedPart } from './types'

export interface CutPlane {
  readonly point: Vec3
  /** Unit. */
  readonly normal: Vec3
}

/** Closed polylines where the plane cuts the parts named, one a loop, each part cut by itself; first point not repeated. */
export function sectionThrough(
  figure: PosedFigure,
  plane: CutPlane,
  parts: readonly PartName[] = ['skin', 'hair'],
): Vec3[][] {
  return figure.parts.filter((part) => parts.includes(part.name)).flatMap((part) => loopsOf(part, plane))
}

/** The head cut level at the nose tip. */
export const sectionAtNose = (figure: PosedFigure): Vec3[][] =>
  sectionThrough(figure, { point: figure.landmarks.noseTip.position, normal: [0, 1, 0] })

function loopsOf({ mesh: { positions, indices } }: PosedPart, { point, normal }: CutPlane): Vec3[][] {
  const n = positions.length / 3
  const vertex = (v: number): Vec3 => [positions[v * 3], positions[v * 3 + 1], positions[v * 3 + 2]]
  const heights = Float64Array.from({ length: n }, (_, v) => dot(subtract(vertex(v), point), normal))
  // A vertex on the plane counts as above it, so every triangle is crossed on two edges or on none.
  const above = (v: number) => heights[v] >= 0
  const edgeKey = (a: number, b: number) => (a < b ? a * n + b : b * n + a)
  /** Crossed edge → the next one: faces wind outwards, so every triangle is crossed in the same sense. */
  const next = new Map<number, number>()
  for (let t = 0; t < indices.length; t += 3) {
    let [enter, leave] = [-1, -1]
    for (let k = 0; k < 3; k++) {
      const [a, b] = [indices[t + k], indices[t + ((k + 1) % 3)]]
      if (above(a) === above(b)) continue
      if (above(a)) enter = edgeKey(a, b)
      else leave = edgeKey(a, b)
    }
    if (enter >= 0) next.set(enter, leave)
  }
  const crossing = (key: number): Vec3 => {
    const [a, b] = [Math.floor(key / n), key % n]
    return lerp(vertex(a), vertex(b), heights[a] / (heights[a] - heights[b]))
  }
  return chains(next).map((keys) => keys.map(crossing))
}

/** The cycles of a successor map. */
function chains(next: Map<number, number>): number[][] {
  const loops: number[][] = []
  const seen = new Set<number>()
  for (const start of next.keys()) {
    const loop: number[] = []
    for (let at: number | undefined = start; at !== undefined && !seen.has(at); at = next.get(at)) {
      seen.add(at)
      loop.push(at)
    }
    if (loop.length > 2) loops.push(loop)
  }
  return loops
}

/** Horizontal and height: metres along the viewer's right, and above the floor. */
export type ProfilePoint = readonly [number, number]

/**
 * Silhouette seen along a horizontal direction: at each height the outermost points, as one closed polyline, up the viewer's
 * left and down the right. Horizontal coordinates run to the viewer's right from the world origin. Exact where the outline has no
 * overhang (a nose and a chin have one of a few millimetres, seen from the side).
 */
export function profileOutline(
  figure: PosedFigure,
  lookingAlong: Vec3,
  { parts = ['skin', 'hair', 'garment'] as readonly PartName[], stepM = 0.003 } = {},
): ProfilePoint[] {
  const right = normalize(cross(lookingAlong, [0, 1, 0]))
  const least = new Map<number, number>()
  const most = new Map<number, number>()
  for (const { name, mesh } of figure.parts) {
    if (!parts.includes(name)) continue
    const { positions: p, indices } = mesh
    const across = (v: number) => p[v * 3] * right[0] + p[v * 3 + 2] * right[2]
    for (let i = 0; i < indices.length; i++) {
      const a = indices[i]
      const b = indices[i % 3 === 2 ? i - 2 : i + 1]
      const [low, high] = p[a * 3 + 1] < p[b * 3 + 1] ? [a, b] : [b, a]
      const [from, to] = [p[low * 3 + 1], p[high * 3 + 1]]
      for (let level = Math.ceil(from / stepM); level * stepM <= to; level++) {
        const t = to > from ? (level * stepM - from) / (to - from) : 0
        const x = across(low) + (across(high) - across(low)) * t
        if (!(x >= (least.get(level) ?? Number.POSITIVE_INFINITY))) least.set(level, x)
        if (!(x <= (most.get(level) ?? Number.NEGATIVE_INFINITY))) most.set(level, x)
      }
    }
  }
  const levels = [...least.keys()].sort((a, b) => a - b)
  const at =
    (side: Map<number, number>) =>
    (level: number): ProfilePoint => [side.get(level) as number, level * stepM]
  return [...levels.map(at(least)), ...levels.reverse().map(at(most))]
}
