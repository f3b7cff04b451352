import { blockedByCylinder, type Emission } from '../photometry'
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

/** draft: one grid of 16², for a reading while a hand moves. settled: doubled until the total stands. */
export type Quality = 'draft' | 'settled'

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
      quality === 'draft'
        ? sampled(emitter, point, RAY_GRID)
        : refined(emitter, point, near ? FINEST_GRID_NEAR : FINEST_GRID)
    return withVisibility(scene, source, emitter, point, cells)
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

function sampled({ frame, emission }: Emitter, point: Vec3, grid: number): Cells {
  const local = pointToLocal(frame, point)
  const arrivals: Arrival[] = []
  const rayCell: number[] = []
  for (let row = 0; row < grid; row++)
    for (let column = 0; column < grid; column++) {
      const u = across(column, row, grid)
      const v = along(row, grid)
      const piece = pieceAt(emission, local, u, v)
      if (!piece) continue
      arrivals.push({
        direction: scale(directionToWorld(frame, piece.direction), -1),
        strength: piece.strength / grid ** 2,
        visible: 1,
      })
      rayCell.push(Math.floor(v * RAY_GRID) * RAY_GRID + Math.floor(u * RAY_GRID))
    }
  return { arrivals, rayCell }
}

/** L·cosθ·A/r² of the lit point (u, v) towards a place, all in the emitter's frame; null where nothing arrives. */
export function pieceAt(
  emission: Emission,
  place: Vec3,
  u: number,
  v: number,
): { readonly point: Vec3; readonly direction: Vec3; readonly strength: number } | null {
  const at = emission.at(u, v)
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
 * edge of a shadow runs. All pieces in a cell share its answer. 16² rays alone were up to 3.5 % off behind three boards.
 */
function withVisibility(
  scene: MeterScene,
  source: RigSource,
  emitter: Emitter,
  point: Vec3,
  { arrivals, rayCell }: Cells,
): readonly Arrival[] {
  const ignore = ownGear(scene, source.id)
  const sees = (u: number, v: number) =>
    scene.caster.visible(point, pointToWorld(emitter.frame, emitter.emission.at(u, v).point), ignore)
  const first = new Map<number, boolean>()
  for (const cell of rayCell)
    if (!first.has(cell)) {
      const row = Math.floor(cell / RAY_GRID)
      first.set(cell, sees(across(cell % RAY_GRID, row, RAY_GRID), along(row, RAY_GRID)))
    }
  const share = new Map<number, number>()
  for (const [cell, seen] of first)
    share.set(
      cell,
      neighbours(cell).some((next) => (first.get(next) ?? seen) !== seen) ? finer(cell, sees) : Number(seen),
    )
  return arrivals.map((arrival, i) => {
    const visible = share.get(rayCell[i])!
    return visible === 1 ? arrival : { ...arrival, visible }
  })
}

/** The eight cells round a cell; the grid closes on itself, as the angle of a disc does. */
function neighbours(cell: number): readonly number[] {
  const row = Math.floor(cell / RAY_GRID)
  const column = cell % RAY_GRID
  const wrapped = (i: number) => (i + RAY_GRID) % RAY_GRID
  return [-1, 0, 1].flatMap((up) => [-1, 0, 1].map((aside) => wrapped(row + up) * RAY_GRID + wrapped(column + aside)))
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
