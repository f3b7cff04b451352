import { irradianceFromPolygon } from '../photometry'
import { addScaled, dot, hash32, length, type RayCaster, scale, subtract, type Vec3 } from '../space'
import { type Element, pointOfElement } from './elements'
import type { RayStart } from './shots'

type Patch = Extract<Element, { kind: 'patch' }>

/** One side of a panel as links see it: its patches, and the cells whose patches share their rays. */
export interface PanelSide {
  /** Element numbers, row by row. */
  readonly first: number
  readonly patches: readonly Patch[]
  readonly cells: readonly Cell[]
  readonly whole: Patch
}

interface Cell {
  /** The patches' numbers within the side. */
  readonly members: readonly number[]
  /** Cells that share an edge with this one. */
  readonly neighbours: readonly number[]
  /** All members as one patch. */
  readonly whole: Patch
}

/**
 * What near matt panels give each vertex, without noise: of every patch that a vertex sees, its view factor. The
 * irradiance is Σ w·B whatever the source, colour and paint. Rows lie one after another.
 */
export interface PanelLinks {
  /** 1: the element's light reaches the vertices by links, so their lists must leave it out. */
  readonly linked: Uint8Array
  /** Row r has the entries from starts[r] up to starts[r + 1]. */
  readonly starts: Uint32Array
  readonly elements: Uint16Array
  readonly weights: Float32Array
}

/** columns × rows patches from element number `first` on, in cells of edge × edge of them. */
export function panelSide(
  elements: readonly Element[],
  { first, columns, rows }: { readonly first: number; readonly columns: number; readonly rows: number },
  edge: number,
): PanelSide {
  const patches = elements.slice(first, first + columns * rows).filter((element) => element.kind === 'patch')
  const [across, up] = [Math.ceil(columns / edge), Math.ceil(rows / edge)]
  const cells = Array.from({ length: across * up }, (_, i): Cell => {
    const [x, y] = [i % across, Math.floor(i / across)]
    const members = [...patches.keys()].filter(
      (p) => Math.floor((p % columns) / edge) === x && Math.floor(p / columns / edge) === y,
    )
    const neighbours = [
      ...(x > 0 ? [i - 1] : []),
      ...(x < across - 1 ? [i + 1] : []),
      ...(y > 0 ? [i - across] : []),
      ...(y < up - 1 ? [i + across] : []),
    ]
    return { members, neighbours, whole: joined(patches[members[0]], patches[members[members.length - 1]]) }
  })
  return { first, patches, cells, whole: joined(patches[0], patches[patches.length - 1]) }
}

/** The rectangle from one patch of a grid to another. */
function joined(low: Patch, high: Patch): Patch {
  const way = scale(subtract(high.centre, low.centre), 0.5)
  const grown = (half: Vec3): Vec3 => scale(half, 1 + Math.round(dot(way, half) / dot(half, half)))
  const [halfU, halfV] = [grown(low.halfU), grown(low.halfV)]
  return {
    ...low,
    centre: addScaled(low.centre, way, 1),
    halfU,
    halfV,
    areaM2: 4 * length(halfU) * length(halfV),
  }
}

/** Farther than this many of its longer edges, a patch is summed to second order: under 0.5 % off for a square. */
const EXACT_WITHIN = 3

/** View factor from a small surface element to the whole of a patch, nothing in between. 0: it is behind either. */
export function patchFactor({ point, normal }: RayStart, patch: Patch): number {
  const { centre: c, normal: m, halfU, halfV } = patch
  const x = c[0] - point[0]
  const y = c[1] - point[1]
  const z = c[2] - point[2]
  const behind = m[0] * x + m[1] * y + m[2] * z
  if (behind >= 0) return 0
  const squared = x * x + y * y + z * z
  const edge = 2 * EXACT_WITHIN
  if (squared < edge * edge * Math.max(dot(halfU, halfU), dot(halfV, halfV))) {
    const corner = (u: number, v: number) => addScaled(addScaled([x, y, z], halfU, u), halfV, v)
    return irradianceFromPolygon([corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)], normal) / Math.PI
  }
  return secondOrder(patch, normal, [x, y, z], squared)
}

/**
 * Mean of the kernel (n·d)·h/r⁴ over a square, to second order: its value in the middle, and a twenty-fourth of its
 * Laplacian in the plane of the square times the area. d: to the middle; h: the receiver's height over the plane.
 */
function secondOrder({ normal: m, areaM2 }: Patch, n: Vec3, d: Vec3, squared: number): number {
  const h = -dot(m, d)
  const ahead = dot(n, d)
  const bend = ahead * (1 - (3 * h * h) / squared) - h * dot(n, m)
  return Math.max(0, ((ahead + (areaM2 * bend) / (3 * squared)) * h * areaM2) / (Math.PI * squared * squared))
}

/** Rows between two looks at the clock by whoever drives the generator. */
const ROWS_A_STEP = 32

/** startOf: null where a row is hidden; it gets no links. */
export function* castLinks(
  rows: number,
  startOf: (row: number) => RayStart | null,
  sides: readonly PanelSide[],
  elementCount: number,
  caster: RayCaster,
  /** To a cell that a shadow's edge may cross, 1 to QUARTERS. */
  edgeRays: number,
): Generator<number, PanelLinks> {
  const starts = new Uint32Array(rows + 1)
  const elements: number[] = []
  const weights: number[] = []
  const sights = sides.map((side) => sightOf(side))
  for (let row = 0; row < rows; row++) {
    if (row % ROWS_A_STEP === 0) yield row / rows
    const start = startOf(row)
    if (start) for (const sight of sights) linkSide(sight, start, row, caster, edgeRays, elements, weights)
    starts[row + 1] = elements.length
  }
  const linked = new Uint8Array(elementCount)
  for (const { first, patches } of sides) linked.fill(1, first, first + patches.length)
  return { linked, starts, elements: new Uint16Array(elements), weights: new Float32Array(weights) }
}

/** A side, and room for what one vertex sees of it. */
interface Sight {
  readonly side: PanelSide
  readonly factors: Float64Array
  /** Of each cell BELOW the vertex' horizon, HIDDEN or SEEN. */
  readonly looks: Uint8Array
}

const BELOW = 0
const HIDDEN = 1
const SEEN = 2

const sightOf = (side: PanelSide): Sight => ({
  side,
  factors: new Float64Array(side.patches.length),
  looks: new Uint8Array(side.cells.length),
})

/** Adds the patches of one side that the vertex sees, in the share in which it sees them. */
function linkSide(
  { side: { first, patches, cells, whole: side }, factors, looks }: Sight,
  start: RayStart,
  row: number,
  caster: RayCaster,
  edgeRays: number,
  elements: number[],
  weights: number[],
): void {
  if (isHidden(start, side)) return
  for (let p = 0; p < patches.length; p++) factors[p] = patchFactor(start, patches[p])
  let [seen, hidden] = [0, 0]
  for (let c = 0; c < cells.length; c++) {
    const { members, whole } = cells[c]
    let above = 0
    for (const p of members) above += factors[p]
    looks[c] = above === 0 ? BELOW : look(whole, start, hash32(row, first + c), 0, caster) ? SEEN : HIDDEN
    if (looks[c] === SEEN) seen++
    if (looks[c] === HIDDEN) hidden++
  }
  const isPart = seen > 0 && hidden > 0
  for (let c = 0; c < cells.length; c++) {
    if (looks[c] === BELOW) continue
    const { members, neighbours, whole } = cells[c]
    const isSeen = looks[c] === SEEN
    const isEdge = isPart && neighbours.some((other) => looks[other] !== BELOW && looks[other] !== looks[c])
    const share = isEdge ? fineShare(isSeen, whole, start, hash32(row, first + c), edgeRays, caster) : Number(isSeen)
    if (share === 0) continue
    for (const p of members) {
      if (factors[p] === 0) continue
      elements.push(first + p)
      weights.push(factors[p] * share)
    }
  }
}

/** The vertex lies behind the side, or all of the side behind the vertex. */
function isHidden({ point, normal }: RayStart, { centre, normal: m, halfU, halfV }: Patch): boolean {
  const middle = subtract(centre, point)
  const reach = Math.abs(dot(normal, halfU)) + Math.abs(dot(normal, halfV))
  return dot(m, middle) >= 0 || dot(normal, middle) + reach <= 0
}

export const QUARTERS = 4

/** Where a shadow's edge crosses the cells, more quarters of a cell get a ray; the first one counts too. */
function fineShare(
  first: boolean,
  whole: Patch,
  start: RayStart,
  seed: number,
  edgeRays: number,
  caster: RayCaster,
): number {
  let seen = Number(first)
  for (let turn = 1; turn < edgeRays; turn++) seen += Number(look(whole, start, seed, turn, caster))
  return seen / edgeRays
}

/** Quarters by turns: across from the first, then those beside it. */
const ACROSS = [0, 3, 1, 2]

/**
 * Whether a place in one quarter of the cell is seen. Which quarter comes first and the place in it are hashed for each
 * vertex and cell: shadows' edges on the sitter turn into fine grain, not into bands.
 */
function look(whole: Patch, { point }: RayStart, seed: number, turn: number, caster: RayCaster): boolean {
  const quarter = (seed % QUARTERS) ^ ACROSS[turn]
  const bits = hash32(seed, turn)
  const u = ((quarter & 1) + (bits & 0xffff) / 0x10000) / 2
  const v = ((quarter >> 1) + (bits >>> 16) / 0x10000) / 2
  return caster.visible(point, pointOfElement(whole, u, v).point)
}

/** Σ w·B of a row, three bands, added to out at 3·row. */
export function addLinked(
  { starts, elements, weights }: PanelLinks,
  row: number,
  values: Float32Array,
  out: Float32Array,
): void {
  for (let i = starts[row]; i < starts[row + 1]; i++) {
    const k = 3 * elements[i]
    out[3 * row] += weights[i] * values[k]
    out[3 * row + 1] += weights[i] * values[k + 1]
    out[3 * row + 2] += weights[i] * values[k + 2]
  }
}
