import type { SurfacePoint } from '../photometry'
import type { Emitter, RigSource } from '../rig'
import { directionToWorld, distance, pointToLocal, pointToWorld, scale, type Vec3 } from '../space'
import { across, along, disagrees, gridOf, piecesOf } from './pieces'
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
/** The midpoint rule's error falls as 1/n², so a third of the last change is what is left. */
const TOLERANCE = 5e-4

/** Light of one source at a point, piece by piece. Serves every receptor that is held there. */
export function arrivalsAt(
  scene: MeterScene,
  source: RigSource,
  point: Vec3,
  quality: Quality = 'settled',
): readonly Arrival[] {
  const ignore = ownGear(scene, source.id)
  return arrivalsBy(source, point, quality, (lit) => scene.caster.visible(point, lit, ignore))
}

/** Does a place see a lit point, world? */
type Sees = (lit: Vec3) => boolean

/** The same past whatever may stand in the way. */
export function arrivalsBy(source: RigSource, point: Vec3, quality: Quality, sees: Sees): readonly Arrival[] {
  const { widthM, heightM } = source.litFace
  const near = distanceToFace(source, point) < Math.max(widthM, heightM)
  return source.emitters.flatMap((emitter) => {
    const cells =
      quality === 'settled'
        ? refined(emitter, point, near ? FINEST_GRID_NEAR : FINEST_GRID)
        : sampled(emitter, point, quality === 'draft' ? RAY_GRID : RAY_GRID / 2)
    return withVisibility(emitter, cells, quality, sees)
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

function sampled({ frame, emission }: Emitter, point: Vec3, grid: number): Cells {
  const local = pointToLocal(frame, point)
  const arrivals: Arrival[] = []
  const rayCell: number[] = []
  const rayCells = rayCellsOf(grid)
  piecesOf(emission, local, gridOf(emission, grid)).forEach((piece, cell) => {
    if (!piece) return
    arrivals.push({
      direction: scale(directionToWorld(frame, piece.direction), -1),
      strength: piece.strength / grid ** 2,
      visible: 1,
    })
    rayCell.push(rayCells[cell]!)
  })
  return { arrivals, rayCell }
}

/** Of each cell of a grid that of the ray grid in which its middle lies; by the grid's side. */
const RAY_CELLS = new Map<number, Uint8Array>()

function rayCellsOf(grid: number): Uint8Array {
  const known = RAY_CELLS.get(grid)
  if (known) return known
  const cells = Uint8Array.from({ length: grid * grid }, (_, cell) => {
    const [row, column] = [Math.floor(cell / grid), cell % grid]
    const [u, v] = [across(column, row, grid), along(row, grid)]
    return Math.floor(v * RAY_GRID) * RAY_GRID + Math.floor(u * RAY_GRID)
  })
  RAY_CELLS.set(grid, cells)
  return cells
}

/**
 * One ray to each cell of the ray grid that holds light, and EDGE_RAYS² to a cell whose neighbours disagree: there the
 * edge of a shadow runs. All pieces in a cell share its answer. 16² rays alone were up to 3.5 % off behind three boards. A draft
 * asks a quarter of them first (askInBlocks).
 */
function withVisibility(
  { frame, emission }: Emitter,
  { arrivals, rayCell }: Cells,
  quality: Quality,
  seesLit: Sees,
): readonly Arrival[] {
  if (arrivals.length === 0) return arrivals
  const { points, within } = gridOf(emission, RAY_GRID)
  const met = (at: SurfacePoint) => seesLit(pointToWorld(frame, at.point))
  const finer = (cell: number) => within(cell, EDGE_RAYS).filter(met).length / EDGE_RAYS ** 2
  const first = new Int8Array(RAY_GRID ** 2)
  const ask = (cell: number) => {
    if (first[cell] === UNASKED) first[cell] = met(points[cell]!) ? SEEN : HIDDEN
  }
  if (quality === 'draft') askInBlocks(rayCell, first, ask)
  else for (const cell of rayCell) ask(cell)
  if (!first.includes(HIDDEN)) return arrivals
  const share = new Float64Array(RAY_GRID ** 2)
  for (let cell = 0; cell < first.length; cell++)
    if (first[cell] !== UNASKED)
      share[cell] = disagrees(first, cell, RAY_GRID, UNASKED) ? finer(cell) : Number(first[cell] === SEEN)
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
  const hasEdge = blocks.includes(SEEN) && blocks.includes(HIDDEN)
  for (const cell of rayCell) {
    if (first[cell] !== UNASKED) continue
    const block = blockOf(cell)
    if (hasEdge && disagrees(blocks, block, BLOCKS, UNASKED)) ask(cell)
    else first[cell] = blocks[block]!
  }
}

const [UNASKED, SEEN, HIDDEN] = [0, 1, 2]

/** How far a place stands from the lit face's centre, metres. */
const distanceToFace = (source: RigSource, point: Vec3): number => distance(source.frame.origin, point)
