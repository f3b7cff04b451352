import { groupOf, type LightShare, lightShares, type SeenGroup, type SeenRoom } from '../readings'
import type { Rig } from '../rig'
import type { Sitting } from '../sitting'
import { dot, type Frame, subtract, type Vec3 } from '../space'
import { contours, eased } from './contours'
import { circle, line, text } from './shapes'
import type { Drawing, Point2, Shape, Weight } from './types'
import { namesOf } from './words'

export interface HalfRoomInput {
  readonly sitting: Sitting
  readonly rig: Rig
  readonly room: SeenRoom
  /** Of the place on the skin: 'near cheek'. */
  readonly place: string
}

/** One row of what brings the light, in words. */
export interface ShareWords {
  readonly name: string
  readonly percent: string
}

export interface HalfRoomDrawing extends Drawing {
  readonly shares: readonly ShareWords[]
}

/** Less is not told. */
const LEAST_SHARE = 0.005
/** Of the disc: what is smaller has no name on it. */
const LEAST_AREA = 0.004

const WEIGHTS: Readonly<Record<SeenGroup, Weight>> = {
  source: 'cut',
  gear: 'thin',
  panel: 'object',
  object: 'object',
  backdrop: 'object',
  room: 'thin',
  own: 'object',
  hair: 'object',
  clothes: 'object',
  headwear: 'object',
  glasses: 'thin',
  sitter: 'object',
  nothing: 'thin',
}

/**
 * The half-room as a drawing: the unit disc, as a mirror on the skin shows it, 1 to a metre of the drawing, so that right is
 * right as on the plan and in the picture. Outlines of what is seen, names on it, and where camera left and right are. Its
 * tones are the page's to lay under it, mirrored too (a `SeenRoom` is as who looks out of the skin sees it).
 */
export function drawHalfRoom({ sitting, rig, room, place }: HalfRoomInput): HalfRoomDrawing {
  const names = namer(sitting, rig)
  const rows = lightShares(room, rig)
  const shares = rows
    .filter(({ share }) => share >= LEAST_SHARE)
    .map((row) => ({ name: names(row), percent: `${Math.round(100 * row.share)} %` }))
  return {
    bounds: { minX: -1, minY: -1, maxX: 1, maxY: 1 },
    shapes: [...outlines(room, rig), circle([0, 0], 1), ...labels(room, rig, names), ...sides(room.frame, rig)].map(
      mirrored,
    ),
    handles: [],
    caption: place,
    description: describe(place, shares, rows, names),
    shares,
  }
}

const OTHER_END = { start: 'end', middle: 'middle', end: 'start' } as const
const flipped = ([x, y]: Point2): Point2 => [-x, y]

function mirrored(shape: Shape): Shape {
  if (shape.kind === 'line') return { ...shape, points: shape.points.map(flipped) }
  if (shape.kind === 'text') return { ...shape, at: flipped(shape.at), anchor: OTHER_END[shape.anchor] }
  return shape
}

function describe(
  place: string,
  shares: readonly ShareWords[],
  rows: readonly LightShare[],
  names: (row: Pick<LightShare, 'group' | 'id'>) => string,
): string {
  const light = shares.map(({ name, percent }) => `${name} ${percent}`).join(', ')
  const area = [...rows]
    .filter((row) => row.area >= LEAST_AREA)
    .sort((a, b) => b.area - a.area)
    .map((row) => `${names(row)} ${Math.round(100 * row.area)} %`)
    .join(', ')
  return `What the ${place} sees straight out of the skin, as a mirror there shows it. Light by where it comes from: ${light || 'none'}. Share of the disc: ${area}.`
}

function namer(sitting: Sitting, rig: Rig): (row: Pick<LightShare, 'group' | 'id'>) => string {
  const things = namesOf(sitting)
  const letter = (id: string) => rig.sources.find((source) => source.id === id)?.letter ?? id
  return ({ group, id }) => {
    switch (group) {
      case 'source':
        return letter(id)
      case 'gear':
        return `${letter(id)} unlit`
      case 'panel':
      case 'object':
        return things.get(rig.surfaces.find((surface) => surface.id === id)?.of ?? id) ?? id
      case 'own':
        return 'own face'
      case 'sitter':
        return 'other sitter'
      case 'nothing':
        return 'out of the set'
      default:
        return group
    }
  }
}

/** Groups that share one line: walls, floor and ceiling have each their own. */
const keysOf = ({ things }: SeenRoom, rig: Rig): readonly string[] =>
  things.map((thing) => `${groupOf(thing, rig)} ${thing.id}`)

/** Of every cell the thing, what lies beyond the rim taken from within it, so that no line runs along the rim. */
function filled({ side, thing }: SeenRoom): Int16Array {
  return thing.map((own, cell) => {
    if (own >= 0) return own
    const [x, y] = [(cell % side) + 0.5 - side / 2, Math.floor(cell / side) + 0.5 - side / 2]
    for (let inwards = 1; inwards < side; inwards++) {
      const k = (side / 2 - inwards / 2) / Math.hypot(x, y)
      const at = Math.floor(y * k + side / 2) * side + Math.floor(x * k + side / 2)
      if (thing[at] >= 0) return thing[at]
    }
    return own
  })
}

function outlines(room: SeenRoom, rig: Rig): Shape[] {
  const { side } = room
  const cells = filled(room)
  const keys = keysOf(room, rig)
  return [...new Set(keys)].flatMap((key) => {
    const members = new Set(keys.flatMap((other, i) => (other === key ? [i] : [])))
    const weight = WEIGHTS[groupOf(room.things[[...members][0]], rig)]
    const field = blurred(
      Float32Array.from(cells, (thing) => (members.has(thing) ? 1 : 0)),
      side,
    )
    return contours(field, side)
      .filter((points) => points.length > LEAST_POINTS)
      .flatMap((points) => withinRim(eased(eased(points)).map((p) => toDisc(p, side))))
      .map((points) => line(points, { weight }))
  })
}
const LEAST_POINTS = 8

const toDisc = ([column, row]: Point2, side: number): Point2 => [
  (2 * (column + 0.5)) / side - 1,
  (2 * (row + 0.5)) / side - 1,
]

/** The runs of a line that lie in the disc. */
function withinRim(points: readonly Point2[]): Point2[][] {
  const runs: Point2[][] = [[]]
  for (const p of points) {
    if (Math.hypot(...p) <= 1) runs[runs.length - 1].push(p)
    else if (runs[runs.length - 1].length > 0) runs.push([])
  }
  return runs.filter((run) => run.length > 1)
}

/** Binomial over three by three cells. */
function blurred(field: Float32Array, side: number): Float32Array {
  const pass = (from: Float32Array, step: number, index: (cell: number) => number) =>
    from.map((value, cell) => {
      const i = index(cell)
      const before = i > 0 ? from[cell - step] : value
      const after = i < side - 1 ? from[cell + step] : value
      return (before + 2 * value + after) / 4
    })
  const across = pass(field, 1, (cell) => cell % side)
  return pass(across, side, (cell) => Math.floor(cell / side))
}

/** Landmarks of the own face that are called by name where they are seen. */
const FACE = { noseTip: 'nose', glabella: 'brow', chin: 'chin', stomion: 'mouth' } as const

function labels(room: SeenRoom, rig: Rig, names: (row: Pick<LightShare, 'group' | 'id'>) => string): Shape[] {
  const { side, things } = room
  const keys = keysOf(room, rig)
  const face = faceNames(room, rig)
  const named = [...new Set(keys)].flatMap((key): Shape[] => {
    const members = things.flatMap((_, i) => (keys[i] === key ? [i] : []))
    const group = groupOf(things[members[0]], rig)
    const area = members.reduce((sum, i) => sum + things[i].share, 0)
    if (group === 'nothing' || (area < LEAST_AREA && group !== 'source') || (group === 'own' && face.length > 0))
      return []
    const deepest = deepestCell(room, new Set(members))
    if (deepest === null) return []
    const at = toDisc([deepest % side, Math.floor(deepest / side)], side)
    const words =
      group === 'room' ? roomWord(rig, things[members[0]].id) : names({ group, id: ownerId(things[members[0]].id) })
    return [
      text(at, words, {
        anchor: group === 'source' ? 'middle' : anchorAt(at),
        size: group === 'source' ? 'letter' : 'label',
        tone: group === 'room' ? 'ink2' : 'ink',
      }),
    ]
  })
  return [...named, ...face]
}

/** Near the rim the words run inwards. */
const anchorAt = ([x]: Point2): 'start' | 'middle' | 'end' => (x < -0.6 ? 'start' : x > 0.6 ? 'end' : 'middle')

const ownerId = (id: string): string => id.replace(/\.flag$/, '')
const roomWord = (rig: Rig, id: string): string => rig.surfaces.find((surface) => surface.id === id)?.kind ?? 'room'

function faceNames({ frame, side, thing, things }: SeenRoom, rig: Rig): Shape[] {
  const { landmarks } = rig.figures[0].posed
  return Object.entries(FACE).flatMap(([mark, words]): Shape[] => {
    const at = placeOf(frame, landmarks[mark as keyof typeof FACE].position)
    if (!at) return []
    const [column, row] = at.map((value) => Math.min(side - 1, Math.floor(((value + 1) / 2) * side)))
    const seen = things[thing[row * side + column]]
    if (!seen || groupOf(seen, rig) !== 'own') return []
    return [text(at, words, { anchor: anchorAt(at) })]
  })
}

/** On the drawing, whose y is down; null behind the skin. */
function placeOf({ origin, x, y, z }: Frame, point: Vec3): Point2 | null {
  const way = subtract(point, origin)
  const far = Math.sqrt(dot(way, way))
  return dot(way, z) > 0 ? [-dot(way, x) / far, -dot(way, y) / far] : null
}

/** The cell of a thing that lies farthest from what is not it: there its name has most room. */
function deepestCell({ side, thing }: SeenRoom, members: ReadonlySet<number>): number | null {
  const depth = new Float32Array(side * side)
  const at = (row: number, column: number) =>
    row < 0 || column < 0 || row >= side || column >= side ? 0 : depth[row * side + column]
  const sweep = (order: (i: number) => number, by: 1 | -1) => {
    for (let i = 0; i < side * side; i++) {
      const cell = order(i)
      if (!members.has(thing[cell])) continue
      const [row, column] = [Math.floor(cell / side), cell % side]
      const beside =
        1 +
        Math.min(
          at(row - by, column),
          at(row, column - by),
          0.4 + at(row - by, column - by),
          0.4 + at(row - by, column + by),
        )
      depth[cell] = by === 1 ? beside : Math.min(depth[cell], beside)
    }
  }
  sweep((i) => i, 1)
  sweep((i) => side * side - 1 - i, -1)
  const most = depth.reduce((best, value) => Math.max(best, value), 0)
  return most > 0 ? depth.indexOf(most) : null
}

/** Which way is which: camera left and right, or lens and backdrop where the skin looks aside. */
function sides(frame: Frame, rig: Rig): Shape[] {
  const view = rig.view.frame
  // The view's x is camera left; who looks out of the skin has −x at the right hand.
  const [leftward, inward] = [-dot(view.x, frame.x), -dot(view.z, frame.x)]
  const [a, b, right] =
    Math.abs(leftward) >= Math.abs(inward)
      ? (['camera right', 'camera left', leftward] as const)
      : (['to the lens', 'to the backdrop', inward] as const)
  const [atLeft, atRight] = right > 0 ? [a, b] : [b, a]
  return [
    text([-0.85, 1.02], atLeft, { anchor: 'middle', tone: 'ink2', stands: 'under' }),
    text([0.85, 1.02], atRight, { anchor: 'middle', tone: 'ink2', stands: 'under' }),
  ]
}
