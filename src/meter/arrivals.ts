import { blockedByCylinder, type Emission } from '../photometry'
import type { Emitter, RigSource } from '../rig'
import {
  addScaled,
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

/** Rays are cast on a grid this fine; finer luminance grids share each ray among the points of a cell. */
const RAY_GRID = 16
const FINEST_GRID = 64
/** The midpoint rule's error falls as 1/n², so a third of the last change is what is left. */
const GOLDEN = (Math.sqrt(5) - 1) / 2
const TOLERANCE = 5e-4

/** Light of one source at a point, piece by piece. Serves every receptor that is held there. */
export const arrivalsAt = (scene: MeterScene, source: RigSource, point: Vec3): readonly Arrival[] =>
  source.emitters.flatMap((emitter) => withVisibility(scene, source, point, refined(emitter, point)))

interface Cells {
  readonly grid: number
  readonly arrivals: readonly Arrival[]
  /** World position and cell number (row·grid + column) of each arrival, in step with it. */
  readonly points: readonly Vec3[]
  readonly cell: readonly number[]
}

/** Doubles the grid until the total settles. Pieces that send nothing are left out. */
function refined(emitter: Emitter, point: Vec3): Cells {
  let grid = RAY_GRID / 2
  let cells = sampled(emitter, point, grid)
  let total = sum(cells)
  while (grid < FINEST_GRID) {
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
  const points: Vec3[] = []
  const cell: number[] = []
  for (let row = 0; row < grid; row++)
    for (let column = 0; column < grid; column++) {
      // Each row is shifted by a golden step: columns in line with a blocker's round edge would miscount it by half a ring.
      const piece = pieceAt(emission, local, (column + ((row * GOLDEN) % 1)) / grid, (row + 0.5) / grid)
      if (!piece) continue
      arrivals.push({
        direction: scale(directionToWorld(frame, piece.direction), -1),
        strength: piece.strength / grid ** 2,
        visible: 1,
      })
      points.push(pointToWorld(frame, piece.point))
      cell.push(row * grid + column)
    }
  return { grid, arrivals, points, cell }
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

/** Casts one ray a cell of the ray grid, to the strongest piece in it, and lets its neighbours share the answer. */
function withVisibility(scene: MeterScene, source: RigSource, point: Vec3, cells: Cells): readonly Arrival[] {
  const ignore = ownGear(scene, source.id)
  const step = cells.grid / RAY_GRID
  const seen = new Map<number, boolean>()
  const coarse = (cell: number) =>
    Math.floor(Math.floor(cell / cells.grid) / step) * RAY_GRID + Math.floor((cell % cells.grid) / step)
  return cells.arrivals.map((arrival, i) => {
    const key = coarse(cells.cell[i])
    let visible = seen.get(key)
    if (visible === undefined) {
      visible = scene.caster.visible(point, cells.points[i], ignore)
      seen.set(key, visible)
    }
    return visible ? arrival : { ...arrival, visible: 0 }
  })
}

/** How far a place stands from the lit face's centre, metres. */
export const distanceToFace = (source: RigSource, point: Vec3): number => distance(source.frame.origin, point)
export const directionToFace = (source: RigSource, point: Vec3): Vec3 =>
  normalize(addScaled(source.frame.origin, point, -1))
