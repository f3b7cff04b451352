import type { MeterScene } from '../meter'
import type { RigFigure } from '../rig'
import { add, addScaled, cross, dot, normalize, scale, subtract, type Vec3 } from '../space'

/**
 * Skin of the face in front, on a grid square to the nose; millimetres in the head's own axes: x to the sitter's left, y up.
 * They are the average face's: on another the grid is as much broader as its cheeks lie apart and as much longer as its nose
 * reaches down, so that a child's mouth is looked for where a child has it.
 */
export interface FaceGrid {
  readonly stepMm: number
  readonly halfWidthMm: number
  readonly topMm: number
  readonly bottomMm: number
  /** true: without the nose, whose own shade would part the cheeks whatever the light. */
  readonly noNose: boolean
}

const NOSE_HALF_MM = 17
const NOSE_BASE_MM = -45
const LIFT_M = 5e-4
/** Of the average sitter: from cheek to cheek, and from the eyes down to the base of the nose, metres. */
const AVERAGE_FACE = { breadthM: 0.088, noseM: 0.0495 }

export interface FaceCell {
  readonly xMm: number
  readonly yMm: number
  /** World, just off the skin. */
  readonly point: Vec3
  readonly normal: Vec3
}

export interface FaceMap {
  readonly columns: number
  readonly stepMm: number
  /** Row by row from the top; null: nose, or no skin there. */
  readonly cells: readonly (FaceCell | null)[]
  /** Unit, world. */
  readonly left: Vec3
}

const BARE = new Map<string, 'skin' | 'eye'>([
  ['skin', 'skin'],
  ['eyeLeft', 'eye'],
  ['eyeRight', 'eye'],
])

/** Where the skin lies, hair and glasses off: one ray a cell from before the face. Holds until the head turns. */
export function faceMap({ caster, bodies }: MeterScene, figure: RigFigure, grid: FaceGrid): FaceMap {
  const { noseDirection: out, headUp, eyeMidpoint } = figure.posed
  const left = normalize(cross(headUp, out))
  const up = normalize(cross(out, left))
  const { cheekLeft, cheekRight, subnasale } = figure.posed.landmarks
  const broad = dot(subtract(cheekLeft.position, cheekRight.position), left) / AVERAGE_FACE.breadthM
  const long = dot(subtract(eyeMidpoint, subnasale.position), up) / AVERAGE_FACE.noseM
  const columns = Math.round((2 * grid.halfWidthMm) / grid.stepMm) + 1
  const rows = Math.floor((grid.topMm - grid.bottomMm) / grid.stepMm) + 1
  const bare = bodies.meanings.map((meaning) =>
    meaning.kind === 'figure' && meaning.figure === figure ? BARE.get(meaning.part.name) : undefined,
  )
  const others = new Set(bare.flatMap((kind, i) => (kind ? [] : [i])))
  const cells = Array.from({ length: columns * rows }, (_, i) => {
    const xMm = (i % columns) * grid.stepMm - grid.halfWidthMm
    const yMm = grid.topMm - Math.floor(i / columns) * grid.stepMm
    if (grid.noNose && Math.abs(xMm) < NOSE_HALF_MM && yMm > NOSE_BASE_MM) return null
    const aside = add(scale(left, (broad * xMm) / 1000), scale(up, (long * yMm) / 1000))
    const before = addScaled(add(eyeMidpoint, aside), out, 0.15)
    const hit = caster.nearest(before, scale(out, -1), others)
    if (!hit || bare[hit.bodyIndex] !== 'skin') return null
    return { xMm, yMm, point: addScaled(addScaled(before, out, -hit.distance), hit.normal, LIFT_M), normal: hit.normal }
  })
  return { columns, stepMm: grid.stepMm, cells, left }
}

/** A source as the face meets it: the middle of its lit face, points spread over that (see litPoints), and its own gear. */
export interface Shining {
  readonly centre: Vec3
  readonly points: readonly Vec3[]
  readonly ignore: ReadonlySet<number>
}

export interface SeenShare {
  /** Of the lit face that a cell sees, 0 to 1. */
  readonly seen: number
  /** Of it that stands over the skin's own horizon. */
  readonly faced: number
}

/** So many cells to each side of an edge are asked for every point; beyond, the centre speaks for the whole. */
const EDGE_CELLS = 2
/** Points round the rim of the lit face come first: a cell for which these agree sees all of it, or nothing. */
const OUTER_RING = 8

type Shares = readonly (SeenShare | null)[]
/** A source as it shines is a record made for one scene: what a face sees of it is asked once. */
const known = () => new WeakMap<Shining, Map<FaceMap, Shares>>()
const SHARES = { exact: known(), half: known() }

/**
 * What every cell sees of a source: of its centre, and near an edge of all its points. half: a cell is asked no further than it
 * takes to know whether it sees more than half, which is all that its share then says.
 */
export function seenShares(
  map: FaceMap,
  scene: MeterScene,
  source: Shining,
  to: keyof typeof SHARES = 'exact',
): Shares {
  const ofSource = SHARES[to].get(source) ?? new Map<FaceMap, Shares>()
  SHARES[to].set(source, ofSource)
  const shares = ofSource.get(map) ?? askedShares(map, scene, source, to === 'half')
  ofSource.set(map, shares)
  return shares
}

function askedShares(
  map: FaceMap,
  { caster }: MeterScene,
  { centre, points, ignore }: Shining,
  isHalf: boolean,
): Shares {
  const from = (cell: FaceCell, lights: readonly Vec3[], isKnown?: IsKnown) =>
    seenFrom(cell, caster, lights, ignore, isKnown)
  const first = map.cells.map((cell) => cell && from(cell, [centre]))
  if (points.length < 2) return first
  const atEdge = edgeCells(map, first)
  const ring = points.slice(0, OUTER_RING)
  const rest = points.slice(OUTER_RING)
  return first.map((share, i) => {
    if (!share || !atEdge[i]) return share
    const outer = from(map.cells[i]!, ring)
    const isMixed = (part: number) => part > 0 && part < 1
    if (rest.length === 0 || !(isMixed(outer.seen) || isMixed(outer.faced))) return outer
    const missing = points.length / 2 - ring.length * outer.seen
    const inner = from(
      map.cells[i]!,
      rest,
      isHalf ? (seen, left) => seen > missing || seen + left <= missing : undefined,
    )
    const of = (what: keyof SeenShare) => (ring.length * outer[what] + rest.length * inner[what]) / points.length
    return { seen: of('seen'), faced: of('faced') }
  })
}

/** With so many lights seen and so many still to be asked, does it matter no more what these say? */
type IsKnown = (seen: number, left: number) => boolean

export function seenFrom(
  { point, normal }: Pick<FaceCell, 'point' | 'normal'>,
  caster: MeterScene['caster'],
  lights: readonly Vec3[],
  ignore: ReadonlySet<number>,
  isKnown: IsKnown = () => false,
): SeenShare {
  const faced = lights.filter(
    (light) =>
      normal[0] * (light[0] - point[0]) + normal[1] * (light[1] - point[1]) + normal[2] * (light[2] - point[2]) > 0,
  )
  let seen = 0
  for (let k = 0; k < faced.length && !isKnown(seen, faced.length - k); k++)
    if (caster.visible(point, faced[k]!, ignore)) seen++
  return { seen: seen / lights.length, faced: faced.length / lights.length }
}

/** 1 where some cell close by, the same way or across, sees the centre otherwise. */
function edgeCells({ columns, cells }: FaceMap, first: readonly (SeenShare | null)[]): Uint8Array {
  const rows = cells.length / columns
  const edge = new Uint8Array(cells.length)
  first.forEach((share, i) => {
    if (!share) return
    const [row, column] = [Math.floor(i / columns), i % columns]
    for (let r = Math.max(0, row - EDGE_CELLS); r <= Math.min(rows - 1, row + EDGE_CELLS); r++)
      for (let c = Math.max(0, column - EDGE_CELLS); c <= Math.min(columns - 1, column + EDGE_CELLS); c++) {
        const other = first[r * columns + c]
        if (other && other.seen !== share.seen) edge[i] = 1
      }
  })
  return edge
}

/** How a cell stands to a source, by more than half of its face: lit, in something's shadow, or turned away. */
export type CellLight = 'lit' | 'shadow' | 'turned'

export const cellLights = (map: FaceMap, scene: MeterScene, source: Shining): readonly (CellLight | null)[] =>
  seenShares(map, scene, source, 'half').map(
    (share) => share && (share.seen > 0.5 ? 'lit' : share.faced > 0.5 ? 'shadow' : 'turned'),
  )

/** All lit cells that hang together with the given ones, side by side or one above the other. */
export function spreadFrom(
  { columns }: FaceMap,
  lights: readonly (CellLight | null)[],
  from: readonly number[],
): ReadonlySet<number> {
  const reached = new Set(from)
  const open = [...from]
  while (open.length > 0) {
    const at = open.pop()!
    const aside = [...(at % columns > 0 ? [at - 1] : []), ...(at % columns < columns - 1 ? [at + 1] : [])]
    for (const next of [...aside, at - columns, at + columns])
      if (lights[next] === 'lit' && !reached.has(next)) {
        reached.add(next)
        open.push(next)
      }
  }
  return reached
}
