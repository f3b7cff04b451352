/** Outlines of a posed figure for drawings: cuts through it and silhouettes of it. World metres. */
import { dot, lerp, type Vec3 } from '../space'
import { coarseEdges } from './coarse'
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

function loopsOf(part: PosedPart, { point, normal }: CutPlane): Vec3[][] {
  const { indices } = part.mesh
  const level = dot(point, normal)
  const heights = part.heightsAlong(normal)
  const n = heights.length
  for (let v = 0; v < n; v++) heights[v] -= level
  const edgeKey = (a: number, b: number) => (a < b ? a * n + b : b * n + a)
  /** Crossed edge → the next one: faces wind outwards, so every triangle is crossed in the same sense. */
  const next = new Map<number, number>()
  for (let t = 0; t < indices.length; t += 3) {
    // A vertex on the plane counts as above it, so every triangle is crossed on two edges or on none.
    const above = heights[indices[t]] >= 0
    if (heights[indices[t + 1]] >= 0 === above && heights[indices[t + 2]] >= 0 === above) continue
    let [enter, leave] = [-1, -1]
    for (let k = 0; k < 3; k++) {
      const [a, b] = [indices[t + k], indices[t + ((k + 1) % 3)]]
      if (heights[a] >= 0 === heights[b] >= 0) continue
      if (heights[a] >= 0) enter = edgeKey(a, b)
      else leave = edgeKey(a, b)
    }
    next.set(enter, leave)
  }
  const crossing = (key: number): Vec3 => {
    const [a, b] = [Math.floor(key / n), key % n]
    return lerp(part.pointAt(a), part.pointAt(b), heights[a] / (heights[a] - heights[b]))
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

/** Metres across and along. */
export type ProfilePoint = readonly [number, number]

export interface OutlineOptions {
  readonly parts?: readonly PartName[]
  /** From level to level. */
  readonly stepM?: number
}
const WHOLE: readonly PartName[] = ['skin', 'hair', 'garment', 'headwear']

/**
 * At each level along a direction the outermost points across it (both unit, square to each other), as one closed
 * polyline: up the lesser side, over the top, down the greater, and round the bottom. Of the coarse triangles, which lie
 * within 2 mm of the fine ones; an overhang (a nose and a chin have one of a few millimetres) is filled.
 */
export function silhouette(
  figure: PosedFigure,
  across: Vec3,
  along: Vec3,
  { parts = WHOLE, stepM = 0.003 }: OutlineOptions = {},
): ProfilePoint[] {
  const { placed, first, count, levels, over, under } = levelled(figure, along, parts, stepM)
  const span = emptySpan(first, count)
  for (const { coarse, edges, y } of placed) widen(span, edges, heightsOf(coarse, across), y)
  const at =
    (side: Float64Array) =>
    (i: number): ProfilePoint => [side[i], (first + i) * stepM]
  const [up, down] = [levels.map(at(span.least)), levels.map(at(span.most)).reverse()]
  const seen = ({ points, heights }: End): ProfilePoint[] => points.map((p, i) => [dot(p, across), heights[i]])
  const top = cap([up[up.length - 1], ...seen(over), down[0]], 1)
  const bottom = cap([up[0], ...seen(under), down[down.length - 1]], -1)
  return [...up, ...top, ...down, ...bottom.reverse()]
}

/** What of a silhouette is the same from every side. */
interface Levelled {
  readonly placed: readonly { readonly coarse: PosedPart['coarse']; readonly edges: Uint32Array; readonly y: Steps }[]
  /** Of `count` levels the first, in steps; and those that something meets, counted from it. */
  readonly first: number
  readonly count: number
  readonly levels: readonly number[]
  /** Past the last level and before the first. */
  readonly over: End
  readonly under: End
}

/** Vertices of an end, and how high along they are, m. */
interface End {
  readonly points: readonly Vec3[]
  readonly heights: readonly number[]
}

const kept = new WeakMap<PosedPart, Map<string, { readonly named: readonly PosedPart[]; readonly known: Levelled }>>()

/** Kept by the parts, as a drawing goes round the figure with the hand, and a top stays where it is while the head turns. */
function levelled(figure: PosedFigure, along: Vec3, parts: readonly PartName[], stepM: number): Levelled {
  const named = figure.parts.filter(({ name }) => parts.includes(name))
  const ofFirst = kept.get(named[0]) ?? new Map()
  kept.set(named[0], ofFirst)
  const key = [along, parts, stepM].join()
  const before = ofFirst.get(key)
  if (before && named.every((part, i) => part === before.named[i])) return before.known
  const known = level(named, along, stepM)
  ofFirst.set(key, { named, known })
  return known
}

function level(named: readonly PosedPart[], along: Vec3, stepM: number): Levelled {
  const placed = named.map(({ coarse, part }) => ({
    coarse,
    edges: coarseEdges(part),
    y: inSteps(heightsOf(coarse, along), stepM),
  }))
  const first = Math.min(...placed.map(({ y }) => y.lowest))
  const count = Math.max(...placed.map(({ y }) => y.highest)) - first
  const met = emptySpan(first, count)
  for (const { edges, y } of placed) widen(met, edges, y.height, y)
  const levels = [...met.least.keys()].filter((i) => met.least[i] <= met.most[i])
  // A flat crown may end just past its last level, far inside the one before: its hull begins there.
  if (levels.length > 2) levels.pop()
  const all = named.map((part) => part.heightsAlong(along))
  const end = (i: number, way: 1 | -1): End => {
    const ends = named.map((part, k) => verticesBeyond(part, all[k], (first + i) * stepM, way))
    return { points: ends.flatMap(({ points }) => points), heights: ends.flatMap(({ heights }) => heights) }
  }
  return { placed, first, count, levels, over: end(levels[levels.length - 1], 1), under: end(levels[0], -1) }
}

function heightsOf({ positions: p }: PosedPart['coarse'], [x, y, z]: Vec3): Float64Array {
  const heights = new Float64Array(p.length / 3)
  for (let i = 0; i < heights.length; i++) heights[i] = p[3 * i] * x + p[3 * i + 1] * y + p[3 * i + 2] * z
  return heights
}

/** Vertices past a level, towards which `way` points; of all, as the very top is no coarse one. */
function verticesBeyond(part: PosedPart, all: Float64Array, past: number, way: 1 | -1): End {
  const points: Vec3[] = []
  const heights: number[] = []
  all.forEach((height, vertex) => {
    if ((height - past) * way <= 0) return
    points.push(part.pointAt(vertex))
    heights.push(height)
  })
  return { points, heights }
}

/**
 * The end of an outline past its last level, from the lesser side to the greater without the two points of the level
 * itself, which come first and last: the hull of its vertices, as a head's crown is convex.
 */
function cap(points: readonly ProfilePoint[], way: 1 | -1): ProfilePoint[] {
  const hull: ProfilePoint[] = []
  for (const p of [...points].sort((a, b) => a[0] - b[0])) {
    while (hull.length > 1 && turn(hull[hull.length - 2], hull[hull.length - 1], p) * way >= 0) hull.pop()
    hull.push(p)
  }
  return hull.filter((p) => p !== points[0] && p !== points[points.length - 1])
}

const turn = (o: ProfilePoint, a: ProfilePoint, b: ProfilePoint): number =>
  (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])

/** Heights in steps, and the first level at or above each. */
interface Steps {
  readonly height: Float64Array
  readonly next: Int32Array
  readonly lowest: number
  readonly highest: number
}

function inSteps(height: Float64Array, stepM: number): Steps {
  const next = new Int32Array(height.length)
  let [lowest, highest] = [Infinity, -Infinity]
  for (let v = 0; v < height.length; v++) {
    height[v] /= stepM
    next[v] = Math.ceil(height[v])
    if (next[v] < lowest) lowest = next[v]
    if (next[v] > highest) highest = next[v]
  }
  return { height, next, lowest, highest }
}

/** Extent across at each level from `first` on. */
interface Span {
  readonly first: number
  readonly least: Float64Array
  readonly most: Float64Array
}

const emptySpan = (first: number, count: number): Span => ({
  first,
  least: new Float64Array(count).fill(Infinity),
  most: new Float64Array(count).fill(-Infinity),
})

/** By where the edges meet the levels. Those that meet none are told by two whole numbers. */
function widen({ first, least, most }: Span, edges: Uint32Array, x: Float64Array, { height, next }: Steps): void {
  for (let i = 0; i < edges.length; i += 2) {
    const [a, b] = [edges[i], edges[i + 1]]
    if (next[a] === next[b]) continue
    const slope = (x[b] - x[a]) / (height[b] - height[a])
    const end = Math.max(next[a], next[b])
    for (let level = Math.min(next[a], next[b]); level < end; level++) {
      const at = x[a] + slope * (level - height[a])
      if (at < least[level - first]) least[level - first] = at
      if (at > most[level - first]) most[level - first] = at
    }
  }
}
