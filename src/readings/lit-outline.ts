import { posedRegions } from '../figure'
import type { MeterScene } from '../meter'
import { keyOf, type RigFigure } from '../rig'
import { addScaled, distance, dot, lerp, subtract, type Vec3 } from '../space'
import { type FaceGrid, type FaceMap, faceMap, type Shining, seenShares } from './face-map'
import { shiningOf } from './pattern'
import { faceLight, patternMap, verdictOf } from './pattern-judge'

/** A line on the skin along which half of the source is seen. */
export interface OutlineLine {
  /** World. */
  readonly points: readonly Vec3[]
  /** The edge of the lit triangle of the far cheek. */
  readonly triangle: boolean
}

/** From the hairline to under the chin, and nearly to the ears. */
const GRID: FaceGrid = { stepMm: 2, halfWidthMm: 76, topMm: 76, bottomMm: -118, noNose: false }
/** Shorter ones are nostrils and folds. */
const LEAST_M = 0.03
const LEAST_SEEN_M = 0.005
/** Farther apart than this along the view, neighbours lie on different things: a nose and the cheek behind it. */
const STEP_BACK_M = 0.012
const HALF = 0.5

/**
 * Where the light of the key ends on the first sitter's face: lines along which half of its lit face is seen, as far as the
 * lens sees them. Empty where no source is on.
 */
export function litOutline(scene: MeterScene): readonly OutlineLine[] {
  const key = keyOf(scene.rig)
  const [figure] = scene.rig.figures
  if (!key || !figure) return []
  const source = shiningOf(scene, key)
  const map = faceMap(scene, figure, GRID)
  const field = seenShares(map, scene, source).map((share) => share?.seen ?? null)
  const isTriangle = triangleOf(scene, figure, source)
  return chained(segmentsOf(map, field))
    .map(smoothed)
    .filter((points) => lengthOf(points) > LEAST_M)
    .flatMap((points) => runsOf(points, isTriangle, seenBy(scene)))
}

/** Parts of a line that the lens sees, parted where the triangle's own begin. */
function runsOf(points: readonly Vec3[], is: (p: Vec3) => boolean, isSeen: (p: Vec3) => boolean): OutlineLine[] {
  interface Run {
    readonly points: Vec3[]
    readonly triangle: boolean
  }
  const runs: Run[] = []
  let going = false
  for (const point of points) {
    const seen = isSeen(point)
    const last = runs[runs.length - 1]
    if (seen && going) last.points.push(point)
    if (seen && !(going && last.triangle === is(point))) runs.push({ points: [point], triangle: is(point) })
    going = seen
  }
  return runs.filter((run) => lengthOf(run.points) > LEAST_SEEN_M)
}

/** A crossing of an edge between two cells, by the edge. */
interface Crossing {
  readonly edge: number
  readonly at: Vec3
}

type Segment = readonly [Crossing, Crossing]

/** Marching squares: each square of four cells gives the pieces of line that cross it. */
function segmentsOf(map: FaceMap, field: readonly (number | null)[]): Segment[] {
  const { columns, cells } = map
  const segments: Segment[] = []
  for (let i = 0; i + columns + 1 < cells.length; i++) {
    if (i % columns === columns - 1) continue
    const corners = [i, i + 1, i + columns + 1, i + columns]
    if (corners.some((c) => field[c] === null)) continue
    const crossings = corners.flatMap((a, k) => crossingOf(map, field, a, corners[(k + 1) % 4]))
    if (crossings.length === 2) segments.push([crossings[0], crossings[1]])
    if (crossings.length === 4) {
      // A saddle: the middle says which two corners hang together.
      const middle = corners.reduce((sum, c) => sum + field[c]!, 0) / 4
      const turn = middle > HALF === field[corners[0]]! > HALF ? 1 : 0
      segments.push([crossings[turn], crossings[turn + 1]], [crossings[(turn + 2) % 4], crossings[(turn + 3) % 4]])
    }
  }
  return segments
}

function crossingOf({ cells }: FaceMap, field: readonly (number | null)[], a: number, b: number): readonly Crossing[] {
  const [low, high] = a < b ? [a, b] : [b, a]
  const [from, to] = [field[low]!, field[high]!]
  if (from > HALF === to > HALF) return []
  const [p, q] = [cells[low]!.point, cells[high]!.point]
  const share = (HALF - from) / (to - from)
  // Over a step back the line lies on the nearer side of it, not in the air.
  const at = distance(p, q) > STEP_BACK_M ? (share < HALF ? p : q) : lerp(p, q, share)
  return [{ edge: low * 2 + (high - low === 1 ? 0 : 1), at }]
}

interface Line {
  readonly points: readonly Vec3[]
  readonly closed: boolean
}

/** Segments joined at the edges that they share. */
function chained(segments: readonly Segment[]): readonly Line[] {
  const at = new Map<number, number[]>()
  segments.forEach((segment, s) => {
    for (const { edge } of segment) at.set(edge, [...(at.get(edge) ?? []), s])
  })
  const used = new Set<number>()
  const walk = (from: number, edge: number): Crossing[] => {
    const found: Crossing[] = []
    let [s, on]: [number | undefined, number] = [from, edge]
    while (s !== undefined) {
      used.add(s)
      const next: Crossing = segments[s][0].edge === on ? segments[s][1] : segments[s][0]
      found.push(next)
      on = next.edge
      s = at.get(on)?.find((other) => !used.has(other))
    }
    return found
  }
  return segments.flatMap((segment, s): Line[] => {
    if (used.has(s)) return []
    const ahead = walk(s, segment[0].edge)
    const closed = ahead.length > 2 && ahead[ahead.length - 1].edge === segment[0].edge
    const back = at.get(segment[0].edge)?.find((other) => !used.has(other))
    const behind = closed || back === undefined ? [] : walk(back, segment[0].edge)
    const points = [...behind.reverse(), segment[0], ...ahead].map((crossing) => crossing.at)
    return [{ points, closed }]
  })
}

/** Each inner point drawn half-way to the middle of its neighbours: takes off the steps of the grid. */
function smoothed({ points, closed }: Line): readonly Vec3[] {
  const last = points.length - 1
  const once = (line: readonly Vec3[]): readonly Vec3[] =>
    line.map((p, i) => {
      if (!closed && (i === 0 || i === last)) return p
      const [a, b] = [line[i === 0 ? last - 1 : i - 1], line[i === last ? 1 : i + 1]]
      return distance(a, b) > STEP_BACK_M ? p : lerp(p, lerp(a, b, 0.5), 0.5)
    })
  return points.length < 4 ? points : once(once(points))
}

const lengthOf = (points: readonly Vec3[]): number =>
  points.reduce((sum, p, i) => (i === 0 ? 0 : sum + distance(points[i - 1], p)), 0)

/** Whether a place lies on the edge of the triangle: there is one by the pattern, and it is on the far cheek over the mouth. */
function triangleOf(scene: MeterScene, figure: RigFigure, source: Shining): (p: Vec3) => boolean {
  const map = patternMap(scene, figure)
  if (!verdictOf(faceLight(scene, figure, map, source)).includes('Rembrandt')) return () => false
  const near = dot(subtract(source.centre, figure.posed.eyeMidpoint), map.face.left) > 0 ? 'left' : 'right'
  const regionOf = posedRegions(figure.posed)
  return (p) => {
    const { region, side } = regionOf(p)
    return side !== near && (region === 'cheek' || region === 'nose side')
  }
}

/** Towards the lens, metres: a line on the skin must not be hidden by that skin. */
const LIFT_M = 1e-3

/** Whether nothing hides a place from the lens. */
function seenBy({ caster, rig }: MeterScene): (p: Vec3) => boolean {
  const lens = rig.view.frame.origin
  return (p) => {
    const towards = subtract(lens, p)
    return caster.visible(lens, addScaled(p, towards, LIFT_M / Math.hypot(...towards)))
  }
}
