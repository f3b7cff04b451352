import type { FigureAsset, LandmarkName } from '../../src/figure'
import { asset as first, partOf } from './sculpture'

/** Callipers on the triangles of a sitter of any shape, in millimetres. They know nothing of how the shape was made. */
type Point = readonly [number, number, number]

export const skinOf = (asset: FigureAsset) => asset.parts[0].mesh
const at = (asset: FigureAsset, vertex: number): Point => {
  const p = skinOf(asset).positions
  return [p[vertex * 3] * 1000, p[vertex * 3 + 1] * 1000, p[vertex * 3 + 2] * 1000]
}
export const gap = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])

/** Places without a landmark of their own: where they are on the first sitter (tests/figure/measure.ts finds most of them). */
const DRAWN = {
  euryon: [74.6, 40, -94],
  zygion: [68.3, -20, -50],
  gonion: [50.6, -79, -56],
  frontotemporale: [51, 28, 0],
  tragion: [71.8, -17, -71.5],
  vertex: [0, 113.5, -82],
  opisthocranion: [0, 21, -167.6],
  cervicale: [0, -130, -139.2],
  alare: [17.7, -40, 23],
  cheilion: [25.5, -68, 15.8],
  upperLip: [0, -60.6, 27.7],
  lowerLip: [0, -77.4, 25.5],
  innerCanthus: [16.3, -1.3, 6.1],
  outerCanthus: [45.1, 1, 2.6],
  throat: [0, -140, -34.8],
  neckSide: [50.1, -140, -88],
  nape: [30, -140, -140],
  overEars: [0, 26, 26.2],
} as const satisfies Record<string, Point>
export type Place = keyof typeof DRAWN

/** The nearest of the skin's triangles, by the foot of the place on its plane; and the way from there: a few millimetres at the back of the head. */
interface Anchor {
  readonly corners: readonly [number, number, number]
  readonly weights: readonly [number, number, number]
  readonly beside: Point
}

const weighted = (asset: FigureAsset, { corners, weights }: Omit<Anchor, 'beside'>): Point => {
  const [a, b, c] = corners.map((vertex) => at(asset, vertex)) as [Point, Point, Point]
  const sum = (k: 0 | 1 | 2) => weights[0] * a[k] + weights[1] * b[k] + weights[2] * c[k]
  return [sum(0), sum(1), sum(2)]
}

/** Shares of a triangle's corners at the foot of a place on its plane, kept within it. */
function footOn(corners: Anchor['corners'], place: Point): Anchor['weights'] {
  const [a, b, c] = corners.map((vertex) => at(first, vertex)) as [Point, Point, Point]
  const dot = (u: Point, v: Point) => u[0] * v[0] + u[1] * v[1] + u[2] * v[2]
  const from = (p: Point): Point => [p[0] - a[0], p[1] - a[1], p[2] - a[2]]
  const [u, v, w] = [from(b), from(c), from(place)]
  const [uu, uv, vv, wu, wv] = [dot(u, u), dot(u, v), dot(v, v), dot(w, u), dot(w, v)]
  const size = uu * vv - uv * uv
  const raw = [(vv * wu - uv * wv) / size, (uu * wv - uv * wu) / size]
  const [s, t] = raw.map((share) => Math.max(0, share)) as [number, number]
  const over = Math.max(1, s + t)
  return [1 - (s + t) / over, s / over, t / over]
}

const anchors = new Map<Place, Anchor>()
for (const [name, place] of Object.entries(DRAWN)) {
  const { indices } = partOf('skin').mesh
  let best: Omit<Anchor, 'beside'> | null = null
  let least = Number.POSITIVE_INFINITY
  for (let t = 0; t < indices.length; t += 3) {
    const corners = [indices[t], indices[t + 1], indices[t + 2]] as const
    if (gap(at(first, corners[0]), place) > 60) continue
    const found = { corners, weights: footOn(corners, place) }
    const off = gap(weighted(first, found), place)
    if (off < least) [best, least] = [found, off]
  }
  const [x, y, z] = weighted(first, best!)
  anchors.set(name as Place, { ...best!, beside: [place[0] - x, place[1] - y, place[2] - z] })
}

/** A place of the skin by its anchor, or a landmark. */
export function place(asset: FigureAsset, name: Place | LandmarkName): Point {
  const anchor = anchors.get(name as Place)
  if (anchor) {
    const [x, y, z] = weighted(asset, anchor)
    return [x + anchor.beside[0], y + anchor.beside[1], z + anchor.beside[2]]
  }
  const [x, y, z] = asset.landmarks[name as LandmarkName].position
  return [x * 1000, y * 1000, z * 1000]
}

/** Length of the outline in which a level plane cuts the skin. */
export function girth(asset: FigureAsset, y: number): number {
  const { indices } = skinOf(asset)
  let sum = 0
  for (let t = 0; t < indices.length; t += 3) {
    const corners = [at(asset, indices[t]), at(asset, indices[t + 1]), at(asset, indices[t + 2])]
    const cuts = corners.flatMap((a, k): Point[] => {
      const b = corners[(k + 1) % 3]
      if (a[1] < y === b[1] < y) return []
      const share = (y - a[1]) / (b[1] - a[1])
      return [[a[0] + share * (b[0] - a[0]), y, a[2] + share * (b[2] - a[2])]]
    })
    if (cuts.length === 2) sum += gap(cuts[0], cuts[1])
  }
  return sum
}

/** Twice the reach of a part to the sitter's left, between two heights. */
export function breadthOf(asset: FigureAsset, name: 'skin' | 'garment', from: number, to: number): number {
  const p = asset.parts.find((part) => part.name === name)?.mesh.positions ?? []
  let reach = 0
  for (let i = 0; i < p.length; i += 3)
    if (p[i + 1] * 1000 > from && p[i + 1] * 1000 < to) reach = Math.max(reach, p[i])
  return reach * 2000
}
