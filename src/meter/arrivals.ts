import { blockedByCylinder, type Emission, type SurfacePoint } from '../photometry'
import type { Emitter, RigSource } from '../rig'
import {
  directionToWorld,
  distance,
  dot,
  normalize,
  pointToLocal,
  pointToWorld,
  scale,
  subtract,
  type Vec3,
} from '../space'
import { type MeterScene, ownGear } from './scene'

/** One small piece of a lit surface as seen from a place. */
export interface Arrival {
  /** Unit, world, from the place to the lit point. */
  readonly direction: Vec3
  /** Normal illuminance from this piece per 1 cd·s of the head's axial intensity: L·cosθ·dA/r², 1/m². */
  readonly strength: number
  /** Share of it that is not hidden by sitters, set and the gear of other sources. */
  readonly visible: number
}

/** sketch: one grid of 8², for many places at once. draft: of 16², for a reading while a hand moves. settled: doubled until the total stands. */
export type Quality = 'sketch' | 'draft' | 'settled'

/** Rays are cast on a grid this fine; finer luminance grids share each ray among the points of a cell. */
const RAY_GRID = 16
const EDGE_RAYS = 3
/** From nearer than its own size a source needs the finer one; a canopy's luminance costs some 7 µs a piece. */
const FINEST_GRID = 32
const FINEST_GRID_NEAR = 64
const GOLDEN = (Math.sqrt(5) - 1) / 2
/** The midpoint rule's error falls as 1/n², so a third of the last change is what is left. */
const TOLERANCE = 5e-4

/** Light of one source at a point, piece by piece. Serves every receptor that is held there. */
export function arrivalsAt(
  scene: MeterScene,
  source: RigSource,
  point: Vec3,
  quality: Quality = 'settled',
): readonly Arrival[] {
  const { widthM, heightM } = source.litFace
  const near = distanceToFace(source, point) < Math.max(widthM, heightM)
  return source.emitters.flatMap((emitter) => {
    const cells =
      quality === 'settled'
        ? refined(emitter, point, near ? FINEST_GRID_NEAR : FINEST_GRID)
        : sampled(emitter, point, quality === 'draft' ? RAY_GRID : RAY_GRID / 2)
    return withVisibility(scene, source, emitter, { point, cells, quality })
  })
}

interface Cells {
  readonly arrivals: readonly Arrival[]
  /** Cell of the ray grid in which each arrival lies, in step with it: row·RAY_GRID + column. */
  readonly rayCell: readonly number[]
}

/** Doubles the grid until the total settles. Pieces that send nothing are left out. */
function refined(emitter: Emitter, point: Vec3, finest: number): Cells {
  let grid = RAY_GRID / 2
  let cells = sampled(emitter, point, grid)
  let total = sum(cells)
  while (grid < finest) {
    grid *= 2
    cells = sampled(emitter, point, grid)
    const finer = sum(cells)
    const settled = Math.abs(finer - total) <= 3 * TOLERANCE * finer
    total = finer
    if (settled) break
  }
  return cells
}

const sum = (cells: Cells): number => cells.arrivals.reduce((total, { strength }) => total + strength, 0)

/**
 * Column of a grid as a share of the side. Each row is shifted by a golden step: columns in line with a blocker's round
 * edge would miscount it by half a ring.
 */
const across = (column: number, row: number, grid: number) => (column + ((row * GOLDEN) % 1)) / grid
const along = (row: number, grid: number) => (row + 0.5) / grid

/** Lit points of a grid, row by row: the same for every place that looks at the emission, and made once. */
function gridOf(emission: Emission, grid: number): readonly SurfacePoint[] {
  const grids = GRIDS.get(emission) ?? new Map<number, readonly SurfacePoint[]>()
  GRIDS.set(emission, grids)
  const made =
    grids.get(grid) ??
    Array.from({ length: grid * grid }, (_, i) => {
      const row = Math.floor(i / grid)
      const at = emission.at(across(i % grid, row, grid), along(row, grid))
      emission.keep?.(at)
      return at
    })
  grids.set(grid, made)
  return made
}
const GRIDS = new WeakMap<Emission, Map<number, readonly SurfacePoint[]>>()

function sampled({ frame, emission }: Emitter, point: Vec3, grid: number): Cells {
  const local = pointToLocal(frame, point)
  const points = gridOf(emission, grid)
  const arrivals: Arrival[] = []
  const rayCell: number[] = []
  for (let row = 0; row < grid; row++)
    for (let column = 0; column < grid; column++) {
      const piece = pieceOf(emission, local, points[row * grid + column]!)
      if (!piece) continue
      arrivals.push({
        direction: scale(directionToWorld(frame, piece.direction), -1),
        strength: piece.strength / grid ** 2,
        visible: 1,
      })
      const [u, v] = [across(column, row, grid), along(row, grid)]
      rayCell.push(Math.floor(v * RAY_GRID) * RAY_GRID + Math.floor(u * RAY_GRID))
    }
  return { arrivals, rayCell }
}

interface Piece {
  readonly point: Vec3
  readonly direction: Vec3
  readonly strength: number
}

/** L·cosθ·A/r² of the lit point (u, v) towards a place, all in the emitter's frame; null where nothing arrives. */
export const pieceAt = (emission: Emission, place: Vec3, u: number, v: number): Piece | null =>
  pieceOf(emission, place, emission.at(u, v))

function pieceOf(emission: Emission, place: Vec3, at: SurfacePoint): Piece | null {
  const way = subtract(place, at.point)
  const squared = dot(way, way)
  const cosine = dot(way, at.normal) / Math.sqrt(squared)
  if (!(cosine > 0)) return null
  const direction = normalize(way)
  const luminance = emission.luminance(at, direction)
  if (!(luminance > 0) || blockedByCylinder(at.point, place, emission.blockers)) return null
  return { point: at.point, direction, strength: (luminance * cosine * at.areaM2) / squared }
}

/**
 * One ray to each cell of the ray grid that holds light, and EDGE_RAYS² to a cell whose neighbours disagree: there the
 * edge of a shadow runs. All pieces in a cell share its answer. 16² rays alone were up to 3.5 % off behind three boards. A draft
 * asks a quarter of them first (askInBlocks).
 */
function withVisibility(
  scene: MeterScene,
  source: RigSource,
  emitter: Emitter,
  {
    point,
    cells: { arrivals, rayCell },
    quality,
  }: { readonly point: Vec3; readonly cells: Cells; readonly quality: Quality },
): readonly Arrival[] {
  const ignore = ownGear(scene, source.id)
  const { frame, emission } = emitter
  const points = gridOf(emission, RAY_GRID)
  const met = (at: SurfacePoint) => scene.caster.visible(point, pointToWorld(frame, at.point), ignore)
  const sees = (u: number, v: number) => met(emission.at(u, v))
  const first = new Int8Array(RAY_GRID ** 2)
  const ask = (cell: number) => {
    if (first[cell] === UNASKED) first[cell] = met(points[cell]!) ? SEEN : HIDDEN
  }
  if (quality === 'draft') askInBlocks(rayCell, first, ask)
  else for (const cell of rayCell) ask(cell)
  const share = new Float64Array(RAY_GRID ** 2)
  for (let cell = 0; cell < first.length; cell++)
    if (first[cell] !== UNASKED) share[cell] = disagrees(first, cell) ? finer(cell, sees) : Number(first[cell] === SEEN)
  return arrivals.map((arrival, i) => {
    const visible = share[rayCell[i]!]!
    return visible === 1 ? arrival : { ...arrival, visible }
  })
}

/** A block of two by two cells, while a hand moves: one ray speaks for it where the blocks round it say the same. */
const BLOCKS = RAY_GRID / 2
const blockOf = (cell: number): number => (cell >> 5) * BLOCKS + ((cell % RAY_GRID) >> 1)

function askInBlocks(rayCell: readonly number[], first: Int8Array, ask: (cell: number) => void): void {
  const blocks = new Int8Array(BLOCKS ** 2)
  for (const cell of rayCell) {
    const block = blockOf(cell)
    if (blocks[block] !== UNASKED) continue
    ask(cell)
    blocks[block] = first[cell]!
  }
  for (const cell of rayCell) {
    if (first[cell] !== UNASKED) continue
    const block = blockOf(cell)
    if (disagrees(blocks, block, BLOCKS)) ask(cell)
    else first[cell] = blocks[block]!
  }
}

const [UNASKED, SEEN, HIDDEN] = [0, 1, 2]

/** Whether one of the eight cells round a cell sees otherwise; the grid closes on itself, as the angle of a disc does. */
function disagrees(first: Int8Array, cell: number, side = RAY_GRID): boolean {
  const row = Math.floor(cell / side)
  const column = cell % side
  for (let up = -1; up <= 1; up++)
    for (let aside = -1; aside <= 1; aside++) {
      const next = first[((row + up + side) % side) * side + ((column + aside + side) % side)]
      if (next !== UNASKED && next !== first[cell]) return true
    }
  return false
}

function finer(cell: number, sees: (u: number, v: number) => boolean): number {
  const row = Math.floor(cell / RAY_GRID)
  const column = cell % RAY_GRID
  let seen = 0
  for (let i = 0; i < EDGE_RAYS; i++)
    for (let j = 0; j < EDGE_RAYS; j++)
      if (sees((column + across(i, j, EDGE_RAYS)) / RAY_GRID, (row + along(j, EDGE_RAYS)) / RAY_GRID)) seen++
  return seen / EDGE_RAYS ** 2
}

/** How far a place stands from the lit face's centre, metres. */
const distanceToFace = (source: RigSource, point: Vec3): number => distance(source.frame.origin, point)
