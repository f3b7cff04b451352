/** Outlines of a posed figure for drawings: cuts through it and silhouettes of it. World metres. */
import { dot, lerp, type Mesh, type Vec3 } from '../space'
import { coarseVertices } from './coarse'
import type { FigurePart, PartName, PosedFigure, PosedPart } from './types'

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

function loopsOf({ mesh }: PosedPart, { point, normal }: CutPlane): Vec3[][] {
  const { positions, indices } = mesh
  const n = positions.length / 3
  const heights = heightsAlong(mesh, normal, dot(point, normal))
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
  const vertex = (v: number): Vec3 => [positions[v * 3], positions[v * 3 + 1], positions[v * 3 + 2]]
  const crossing = (key: number): Vec3 => {
    const [a, b] = [Math.floor(key / n), key % n]
    return lerp(vertex(a), vertex(b), heights[a] / (heights[a] - heights[b]))
  }
  return chains(next).map((keys) => keys.map(crossing))
}

/** Of every vertex along a direction, above a level. A drawing asks at each move of the hand, so no vectors are made. */
function heightsAlong({ positions: p }: Mesh, [x, y, z]: Vec3, level: number): Float64Array {
  const heights = new Float64Array(p.length / 3)
  for (let v = 0; v < heights.length; v++) heights[v] = p[v * 3] * x + p[v * 3 + 1] * y + p[v * 3 + 2] * z - level
  return heights
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
  for (const { mesh, vertices, edges, y } of placed) widen(span, edges, heightsOf(mesh, vertices, across), y)
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
  readonly placed: readonly (Coarse & { readonly mesh: Mesh; readonly y: Steps })[]
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

const kept = new WeakMap<PosedFigure, Map<string, Levelled>>()

/** Kept, as a drawing goes round the figure with the hand. */
function levelled(figure: PosedFigure, along: Vec3, parts: readonly PartName[], stepM: number): Levelled {
  const ofFigure = kept.get(figure) ?? new Map<string, Levelled>()
  kept.set(figure, ofFigure)
  const key = [along, parts, stepM].join()
  const known = ofFigure.get(key) ?? level(figure, along, parts, stepM)
  ofFigure.set(key, known)
  return known
}

function level(figure: PosedFigure, along: Vec3, parts: readonly PartName[], stepM: number): Levelled {
  const placed = figure.parts
    .filter(({ name }) => parts.includes(name))
    .map(({ mesh, part }) => {
      const coarse = coarseOf(part)
      return { ...coarse, mesh, y: inSteps(heightsOf(mesh, coarse.vertices, along), stepM) }
    })
  const first = Math.min(...placed.map(({ y }) => y.lowest))
  const count = Math.max(...placed.map(({ y }) => y.highest)) - first
  const met = emptySpan(first, count)
  for (const { edges, y } of placed) widen(met, edges, y.height, y)
  const levels = [...met.least.keys()].filter((i) => met.least[i] <= met.most[i])
  // A flat crown may end just past its last level, far inside the one before: its hull begins there.
  if (levels.length > 2) levels.pop()
  const end = (i: number, way: 1 | -1): End => {
    const ends = placed.map(({ mesh }) => verticesBeyond(mesh, along, (first + i) * stepM, way))
    return { points: ends.flatMap(({ points }) => points), heights: ends.flatMap(({ heights }) => heights) }
  }
  return { placed, first, count, levels, over: end(levels[levels.length - 1], 1), under: end(levels[0], -1) }
}

/** The coarse triangles' vertices, and their edges as pairs of places in that list, each edge once. */
interface Coarse {
  readonly vertices: Uint32Array
  readonly edges: Uint32Array
}

const coarse = new WeakMap<FigurePart, Coarse>()

function coarseOf(part: FigurePart): Coarse {
  const known = coarse.get(part) ?? coarseFrom(part)
  coarse.set(part, known)
  return known
}

function coarseFrom(part: FigurePart): Coarse {
  const indices = part.proxyIndices
  const vertices = coarseVertices(part)
  const place = new Map([...vertices].map((vertex, i) => [vertex, i]))
  const edges: number[] = []
  // Every edge has two triangles, which run along it in opposite senses.
  for (let i = 0; i < indices.length; i++) {
    const next = i % 3 === 2 ? i - 2 : i + 1
    if (indices[i] < indices[next]) edges.push(place.get(indices[i])!, place.get(indices[next])!)
  }
  return { vertices, edges: Uint32Array.from(edges) }
}

function heightsOf({ positions: p }: Mesh, vertices: Uint32Array, [x, y, z]: Vec3): Float64Array {
  const heights = new Float64Array(vertices.length)
  for (let i = 0; i < heights.length; i++) {
    const at = vertices[i] * 3
    heights[i] = p[at] * x + p[at + 1] * y + p[at + 2] * z
  }
  return heights
}

/** Vertices past a level, towards which `way` points; of all, as the very top is no coarse one. */
function verticesBeyond({ positions: p }: Mesh, along: Vec3, past: number, way: 1 | -1): End {
  const points: Vec3[] = []
  const heights: number[] = []
  for (let at = 0; at < p.length; at += 3) {
    const height = p[at] * along[0] + p[at + 1] * along[1] + p[at + 2] * along[2]
    if ((height - past) * way <= 0) continue
    points.push([p[at], p[at + 1], p[at + 2]])
    heights.push(height)
  }
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
