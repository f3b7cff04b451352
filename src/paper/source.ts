import { LEGS_RADIUS_M, litFaceOutline, type RigSource, type Standing } from '../rig'
import { add, addScaled, distance, dot, scale, subtract, type Vec3 } from '../space'
import { convexHull, type Projection } from './outline'
import { drawFar, markOf, SIGN_M, short } from './remote'
import { between, circle, line, text } from './shapes'
import { solidOutline, solidPoints } from './solids'
import type { Point2, Shape } from './types'

/** From a boom's stand to its counterweight: common practice, no source. */
const TAIL_M = 0.5
/** How far an edge ray runs on past the nose tip. */
const RAY_PAST_M = 0.16

/** Both ends of the lit face as the drawing sees it: across its middle, along that of its own axes which the drawing sees longer. */
export function rimEnds(source: RigSource, project: Projection): readonly [Point2, Point2] {
  const outline = litFaceOutline(source)
  const centre = scale(
    outline.reduce<Vec3>((sum, point) => add(sum, point), [0, 0, 0]),
    1 / outline.length,
  )
  const seenAlong = (axis: Vec3): number => {
    const [from, to] = [project(centre), project(addScaled(centre, axis, 1))]
    return Math.hypot(to[0] - from[0], to[1] - from[1])
  }
  const { x, y } = source.frame
  const axis = seenAlong(x) >= seenAlong(y) ? x : y
  const half = Math.max(...outline.map((point) => Math.abs(dot(subtract(point, centre), axis))))
  return [project(addScaled(centre, axis, -half)), project(addScaled(centre, axis, half))]
}

/** A source as its true projection: nothing filled but with the sheet. */
export function drawSource(source: RigSource, project: Projection, pencil: boolean): Shape[] {
  if (source.remote) return drawFar(source, project, pencil)
  const style = { pencil, dash: source.on ? ('solid' as const) : ('hidden' as const) }
  const outlined = (points: readonly Point2[]) =>
    line([...points], { ...style, closed: true, weight: 'object', fill: 'sheet' })
  const boards = boardsOf(source)
  const solids = [
    ...(boards.length > 0 ? [outlined(convexHull(boards.flatMap(solidPoints).map(project)))] : []),
    ...source.gear.filter((solid) => !boards.includes(solid)).map((solid) => outlined(solidOutline(solid, project))),
  ]
  const face = line(convexHull(litFaceOutline(source).map(project)), { ...style, closed: true, weight: 'thin' })
  const rim = line([...rimEnds(source, project)], { ...style, weight: 'cut' })
  return [...solids, face, rim]
}

/** Of a box its front, middle and back, between which its cloth is stretched: it is drawn as one body that tapers. None: no box. */
function boardsOf({ gear, litFace }: RigSource): readonly RigSource['gear'][number][] {
  const boards = gear.filter(({ kind }) => kind === 'rectangle')
  return litFace.shape === 'rectangle' && boards.length > 2 ? boards : []
}

export function standInPlan({ remote }: RigSource, standing: Standing, project: Projection): Shape[] {
  if (remote) return []
  const foot = project(standing.foot)
  return [
    ...boom(standing, project),
    circle(foot, LEGS_RADIUS_M, { weight: 'dimension', dash: 'hidden' }),
    circle(foot, 0.012, { weight: 'object' }),
  ]
}

/** Its arm, and on past the stand to the counterweight. */
function boom({ load, pivot }: Standing, project: Projection): Shape[] {
  if (!pivot) return []
  const [tip, turn] = [project(load), project(pivot)]
  const size = distance(load, pivot)
  return [line([tip, between(tip, turn, size > 0 ? 1 + TAIL_M / size : 1)], { weight: 'thin' })]
}

export function standInElevation({ remote }: RigSource, standing: Standing, project: Projection): Shape[] {
  if (remote) return []
  const head = project(standing.pivot ?? standing.load)
  const knee = Math.min(0.45, -head[1] * 0.4)
  return [
    ...boom(standing, project),
    line([head, [head[0], 0]], { weight: 'thin' }),
    line(
      [
        [head[0] - LEGS_RADIUS_M * 0.8, 0],
        [head[0], -knee],
        [head[0] + LEGS_RADIUS_M * 0.8, 0],
      ],
      { weight: 'thin' },
    ),
  ]
}

/** From both rims past the nose tip: the soft edge is the wedge between them. */
export function edgeRays(source: RigSource, noseTip: Vec3, project: Projection): Shape[] {
  const nose = project(noseTip)
  return rimEnds(source, project).map((rim) => line([short(source, nose, rim), beyond(rim, nose)], { weight: 'thin' }))
}

function beyond(from: Point2, through: Point2): Point2 {
  const size = Math.hypot(through[0] - from[0], through[1] - from[1])
  return between(from, through, size > 0 ? 1 + RAY_PAST_M / size : 1)
}

/** The letter, beyond the far side of the source as seen from its aim. */
export function letterOf(source: RigSource, project: Projection, pencil: boolean): Shape {
  const centre = markOf(source)
  const points = [...source.gear.flatMap(solidPoints), centre].map(project)
  const origin = project(centre)
  const away = project(addScaled(centre, source.frame.z, -1))
  const dx = away[0] - origin[0]
  const dy = away[1] - origin[1]
  const size = Math.hypot(dx, dy)
  const unit: Point2 = size > 1e-6 ? [dx / size, dy / size] : [0, -1]
  const sign = source.remote ? SIGN_M : 0
  const reach = sign + Math.max(...points.map((p) => (p[0] - origin[0]) * unit[0] + (p[1] - origin[1]) * unit[1]))
  const at: Point2 = [origin[0] + unit[0] * (reach + 0.12), origin[1] + unit[1] * (reach + 0.12)]
  return text(at, source.letter, { anchor: 'middle', size: 'letter', tone: pencil ? 'pencil' : 'ink' })
}
