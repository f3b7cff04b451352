import { blockedByCylinder, type Emission, gatePass, type SurfacePoint } from '../photometry'
import { distance, dot, scale, subtract, type Vec3 } from '../space'

/** A small piece of a lit surface as a place sees it, in the emitter's frame. */
export interface Piece {
  readonly point: Vec3
  readonly direction: Vec3
  /** L·cosθ·A/r², per 1 cd·s of the head's axial intensity and for a piece that is the whole unit square, 1/m². */
  readonly strength: number
}

const GOLDEN = (Math.sqrt(5) - 1) / 2

/**
 * Column of a grid as a share of the side. Rows are shifted against each other by golden steps, as columns in line with a
 * blocker's round edge would miscount it by half a ring: by an odd number of as many steps as there are rows, so that all of
 * a column's width is met once and their mean is its middle. (Plain golden steps left 16 rows 0.014 stop off.)
 */
export function across(column: number, row: number, grid: number): number {
  const steps = 2 * Math.floor((grid * GOLDEN) / 2) + 1
  return (column + (((row * steps) % grid) + 0.5) / grid) / grid
}
export const along = (row: number, grid: number) => (row + 0.5) / grid

/** The k-th of parts² places spread over a cell of a grid. */
function insideCell(cell: number, side: number, k: number, parts: number): readonly [number, number] {
  const [i, j] = [Math.floor(k / parts), k % parts]
  return [((cell % side) + across(i, j, parts)) / side, (Math.floor(cell / side) + along(j, parts)) / side]
}

/** Of the lit point (u, v) towards a place in the emitter's frame; null where nothing arrives. */
export function pieceAt(emission: Emission, place: Vec3, u: number, v: number): Piece | null {
  const at = emission.at(u, v)
  return isOpen(emission, place, at) ? pieceOf(emission, place, at) : null
}

/** Does the lit side face the place, and let gate and the source's own dish and body pass what it sends there? */
function isOpen({ gate, blockers }: Emission, place: Vec3, { point, normal }: SurfacePoint): boolean {
  const x = place[0] - point[0]
  const y = place[1] - point[1]
  const z = place[2] - point[2]
  if (!(x * normal[0] + y * normal[1] + z * normal[2] > 0)) return false
  if (blockers.length > 0 && blockedByCylinder(point, place, blockers)) return false
  if (gate.kind === 'open') return true
  const k = 1 / Math.sqrt(x * x + y * y + z * z)
  return gatePass(gate, point, [x * k, y * k, z * k]) > 0
}

/** What blocks left out. */
function pieceOf(emission: Emission, place: Vec3, at: SurfacePoint): Piece | null {
  const way = subtract(place, at.point)
  const squared = dot(way, way)
  const direction = scale(way, 1 / Math.sqrt(squared))
  const luminance = emission.luminance(at, direction)
  if (!(luminance > 0)) return null
  return { point: at.point, direction, strength: (luminance * dot(direction, at.normal) * at.areaM2) / squared }
}

/** Points across a cell that an edge runs through: an edge counted by whole cells left up to 0.03 stop of noise. */
const EDGE_POINTS = 4

/** Lit points of a square grid over an emission, row by row, and those within its cells, made once for all places that look at it. */
interface Grid {
  readonly side: number
  readonly points: readonly SurfacePoint[]
  /** parts² points within a cell. */
  within(cell: number, parts: number): readonly SurfacePoint[]
}

export function gridOf(emission: Emission, side: number): Grid {
  const grids = GRIDS.get(emission) ?? new Map<number, Grid>()
  GRIDS.set(emission, grids)
  const made = grids.get(side) ?? makeGrid(emission, side)
  grids.set(side, made)
  return made
}
const GRIDS = new WeakMap<Emission, Map<number, Grid>>()

function makeGrid(emission: Emission, side: number): Grid {
  const points = Array.from({ length: side * side }, (_, i) => {
    const row = Math.floor(i / side)
    const at = emission.at(across(i % side, row, side), along(row, side))
    return kept(emission, at)
  })
  const cells = new Map<number, readonly SurfacePoint[]>()
  const within = (cell: number, parts: number): readonly SurfacePoint[] => {
    const key = cell + points.length * parts
    const known = cells.get(key)
    if (known) return known
    const made = Array.from({ length: parts ** 2 }, (_, k) => emission.at(...insideCell(cell, side, k, parts)))
    cells.set(key, made)
    return made
  }
  return { side, points, within }
}

const KEPT = new WeakSet<SurfacePoint>()

function kept(emission: Emission, at: SurfacePoint): SurfacePoint {
  if (!KEPT.has(at)) emission.keep?.(at)
  KEPT.add(at)
  return at
}

/**
 * A piece for each cell of a grid, row by row. A cell with the edge of gate, dish or body in it counts by the share of it
 * that is open.
 */
export function piecesOf(emission: Emission, place: Vec3, grid: Grid): readonly (Piece | null)[] {
  const { points, side } = grid
  const open = new Uint8Array(points.length)
  let opened = 0
  for (let cell = 0; cell < open.length; cell++) opened += open[cell] = Number(isOpen(emission, place, points[cell]!))
  if (opened === 0) return points.map(() => null)
  if (opened === open.length) return points.map((at) => pieceOf(emission, place, at))
  const isMiddleSplit = meetsInMiddle(emission) && middleDisagrees(open, side)
  const isSplit = (cell: number) => (isMiddleSplit && cell % side === 0) || disagrees(open, cell, side)
  return points.map((at, cell) => {
    if (!isSplit(cell)) return open[cell] ? pieceOf(emission, place, at) : null
    const parts = grid.within(cell, EDGE_POINTS).filter((part) => isOpen(emission, place, part))
    const middle = parts.length === EDGE_POINTS ** 2 && open[cell] ? at : middleOf(parts)
    const piece = middle && pieceOf(emission, place, kept(emission, middle))
    return piece ? { ...piece, strength: (piece.strength * parts.length) / EDGE_POINTS ** 2 } : null
  })
}

/** The innermost cells of a round face all meet on its axis, where a dish's shadow may be narrower than they are. */
const meetsInMiddle = ({ surface: { shape } }: Emission): boolean => shape === 'cap' || shape === 'disc'

function middleDisagrees(open: Uint8Array, side: number): boolean {
  for (let cell = side; cell < open.length; cell += side) if (open[cell] !== open[0]) return true
  return false
}

/** The one nearest to their mean: it stands for what is open of a cell. */
function middleOf(parts: readonly SurfacePoint[]): SurfacePoint | undefined {
  let [x, y, z] = [0, 0, 0]
  for (const { point } of parts) {
    x += point[0]
    y += point[1]
    z += point[2]
  }
  const mean = scale([x, y, z], 1 / parts.length)
  let [best, least] = [parts[0], Number.POSITIVE_INFINITY]
  for (const part of parts) {
    const off = distance(part.point, mean)
    if (off < least) [best, least] = [part, off]
  }
  return best
}

/** Whether one of the eight cells round a cell is otherwise; the grid closes on itself, as the angle of a disc does. Cells that hold `none` count for no one. */
export function disagrees(cells: ArrayLike<number>, cell: number, side: number, none = -1): boolean {
  const around = besideCells(side)
  for (let i = 8 * cell; i < 8 * cell + 8; i++) {
    const next = cells[around[i]!]
    if (next !== none && next !== cells[cell]) return true
  }
  return false
}

/** Of each cell of a grid the eight round it, by the grid's side: asked thousands of times a reading. */
const BESIDE = new Map<number, Uint16Array>()

function besideCells(side: number): Uint16Array {
  const known = BESIDE.get(side)
  if (known) return known
  const around = Uint16Array.from({ length: 8 * side * side }, (_, i) => {
    const cell = Math.floor(i / 8)
    // Of nine by rows the fifth is the cell itself.
    const k = (i % 8) + Number(i % 8 > 3)
    const row = Math.floor(cell / side) + Math.floor(k / 3) - 1
    const column = (cell % side) + (k % 3) - 1
    return ((row + side) % side) * side + ((column + side) % side)
  })
  BESIDE.set(side, around)
  return around
}
