import { viewTangent } from '../camera'
import type { Rig, RigSource, View } from '../rig'
import {
  add,
  addScaled,
  basisAround,
  cross,
  distance,
  dot,
  length,
  normalize,
  pointToWorld,
  type Rect,
  scale,
  subtract,
  type Vec3,
} from '../space'
import type { Occluder } from './pack'
import type { Sphere } from './shadow-frustum'

/** What may be lit, or shine: points for the question "which side?", balls that hold them all for "in between?". */
export interface Cloud {
  readonly points: readonly Vec3[]
  readonly balls: readonly Sphere[]
}

/**
 * Can a thing stand between a source and what the camera sees? Never no where it can, so that no shadow is lost: the
 * rays from one ball to another stay within their convex hull, which is all the balls between the two. A flat thing
 * with everything on one side of it blocks nothing. So a lamp moved out of the others' way restarts one layer, not
 * all, and the shader tests three occluders in place of thirty.
 */
export function mayBlock(occluder: Occluder, lit: Cloud, seen: Cloud): boolean {
  if (occluder.kind === 'rectangle' && onOneSide(occluder.rect, lit.points, seen.points)) return false
  const whole = sphereAround(occluder)
  let parts: readonly Sphere[] | null = null
  for (const from of lit.balls)
    for (const to of seen.balls) {
      if (!meetsHull(whole, from, to)) continue
      parts ??= ballsOf(occluder)
      if (parts.some((ball) => meetsHull(ball, from, to))) return true
    }
  return false
}

/**
 * Does a ball meet the convex hull of two others, which is all the balls between the two? How far it stays clear of the one
 * at a share t of the way, √(h² + (t·L − x)²) − r0 − k·t, is least where the slope of the root is k/L.
 */
function meetsHull(ball: Sphere, from: Sphere, to: Sphere): boolean {
  const [fx, fy, fz] = from.centre
  const [ax, ay, az] = [to.centre[0] - fx, to.centre[1] - fy, to.centre[2] - fz]
  const [sx, sy, sz] = [ball.centre[0] - fx, ball.centre[1] - fy, ball.centre[2] - fz]
  const lengthM = Math.sqrt(ax * ax + ay * ay + az * az)
  const growth = lengthM > 0 ? (to.radiusM - from.radiusM) / lengthM : 0
  const along = lengthM > 0 ? (sx * ax + sy * ay + sz * az) / lengthM : 0
  const aside = Math.sqrt(Math.max(0, sx * sx + sy * sy + sz * sz - along * along))
  const least = Math.abs(growth) < 1 ? along + (aside * growth) / Math.sqrt(1 - growth * growth) : growth * lengthM
  const at = Math.min(lengthM, Math.max(0, least))
  const beside = at - along
  return Math.sqrt(aside * aside + beside * beside) <= ball.radiusM + from.radiusM + growth * at
}

/** Points of the thing itself lie on its plane and are not behind it. */
const ON_PLANE_M = 0.01

function onOneSide({ centre, halfU, halfV }: Rect, ...clouds: readonly (readonly Vec3[])[]): boolean {
  const normal = normalize(cross(halfU, halfV))
  const plane = dot(centre, normal)
  let [before, behind] = [false, false]
  for (const points of clouds)
    for (const point of points) {
      const side = dot(point, normal) - plane
      before ||= side >= ON_PLANE_M
      behind ||= side <= -ON_PLANE_M
      if (before && behind) return false
    }
  return true
}

/** Does the segment cross the rectangle? A point on it is not behind it. */
function crosses({ centre, halfU, halfV }: Rect, from: Vec3, to: Vec3): boolean {
  const normal = normalize(cross(halfU, halfV))
  const [a, b] = [dot(subtract(from, centre), normal), dot(subtract(to, centre), normal)]
  if (a * b >= 0 || Math.min(Math.abs(a), Math.abs(b)) < 1e-3) return false
  const hit = subtract(addScaled(from, subtract(to, from), a / (a - b)), centre)
  return [halfU, halfV].every((half) => Math.abs(dot(hit, half)) <= dot(half, half))
}

/** The smallest box's ball around points, grown by what may lie between them. */
function ballAround(points: readonly Vec3[], marginM: number): Sphere {
  const low = points.reduce<Vec3>(
    (a, b) => [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.min(a[2], b[2])],
    [9e9, 9e9, 9e9],
  )
  const high = points.reduce<Vec3>(
    (a, b) => [Math.max(a[0], b[0]), Math.max(a[1], b[1]), Math.max(a[2], b[2])],
    [-9e9, -9e9, -9e9],
  )
  return { centre: scale(add(low, high), 0.5), radiusM: distance(low, high) / 2 + marginM }
}

/** One ball a group. */
const cloudOf = (groups: readonly (readonly Vec3[])[], marginM: number): Cloud => {
  const filled = groups.filter((points) => points.length > 0)
  return { points: filled.flat(), balls: filled.map((points) => ballAround(points, marginM)) }
}

/** Points by the cells of a grid: small balls leave less in between that is not really there. */
function inCells(points: readonly Vec3[], sideM: number): readonly (readonly Vec3[])[] {
  const cells = new Map<string, Vec3[]>()
  for (const point of points) {
    const key = point.map((value) => Math.floor(value / sideM)).join()
    const cell = cells.get(key)
    if (cell) cell.push(point)
    else cells.set(key, [point])
  }
  return [...cells.values()]
}

const PLACES = [0.02, 0.5, 0.98]
const FACE_MARGIN_M = 0.03

/** The lit faces of a source. */
export const litCloud = (source: RigSource): Cloud =>
  cloudOf(
    source.emitters.map(({ frame, emission }) =>
      PLACES.flatMap((u) => PLACES.map((v) => pointToWorld(frame, emission.at(u, v).point))),
    ),
    FACE_MARGIN_M,
  )

export const cornersOf = ({ centre, halfU, halfV }: Rect): readonly Vec3[] =>
  [-1, 1].flatMap((u) => [-1, 1].map((v) => add(centre, add(scale(halfU, u), scale(halfV, v)))))

/** Points that shine by themselves, such as those of a panel. */
export const pointCloud = (points: readonly Vec3[]): Cloud => cloudOf([points], FACE_MARGIN_M)

/** For balls, and every so manyth of them for sides. */
const SITTER_POINTS = 1200
const SIDES_STRIDE = 10
const SITTER_MARGIN_M = 0.05
const SITTER_CELL_M = 0.2
/** Of a surface, in steps of its grid. */
const SIDE_CELL = 3
const SIDE_STEPS = 12
const SIDE_POINTS = Array.from({ length: SIDE_STEPS + 1 }, (_, i) => (2 * i) / SIDE_STEPS - 1)

/** Everything that may show: sitters, balls, the part of the set within the picture, and gear in it. */
export function seenCloud(rig: Rig): Cloud {
  const solids = rig.sources.flatMap((source) => source.gear)
  const gear = solids.filter((solid) => solidShows(solid, rig.view)).map(sphereAround)
  return joined([seenBesidesGear(rig), { points: gear.map(({ centre }) => centre), balls: gear }])
}

type Still = Pick<Rig, 'surfaces' | 'balls'> & { readonly cloud: Cloud }

/** What a moved source or a turned head leaves as it was: under a hand it is found once. */
const stillSeen = new WeakMap<View, Still>()

function seenBesidesGear({ figures, surfaces, balls, view }: Rig): Cloud {
  const known = stillSeen.get(view)
  const isStill = known?.surfaces === surfaces && known.balls === balls
  const cloud = isStill ? known.cloud : findSeen({ surfaces, balls, view })
  if (!isStill) stillSeen.set(view, { surfaces, balls, cloud })
  return joined([sittersCloud({ figures }), cloud])
}

const joined = (clouds: readonly Cloud[]): Cloud => ({
  points: clouds.flatMap(({ points }) => points),
  balls: clouds.flatMap(({ balls }) => balls),
})

/** The sitters alone. */
export const sittersCloud = ({ figures }: Pick<Rig, 'figures'>): Cloud => joined(figures.map(sitterCloud))

const sitterClouds = new WeakMap<object, Cloud>()

function sitterCloud({ posed }: Rig['figures'][number]): Cloud {
  const known = sitterClouds.get(posed)
  if (known) return known
  const total = posed.parts.reduce((sum, { coarse }) => sum + coarse.positions.length / 3, 0)
  const stride = Math.max(1, Math.floor(total / SITTER_POINTS))
  const points = posed.parts.flatMap(({ coarse }) => everyNth(coarse.positions, stride))
  const whole = cloudOf(inCells(points, SITTER_CELL_M), SITTER_MARGIN_M)
  const cloud = { ...whole, points: points.filter((_, i) => i % SIDES_STRIDE === 0) }
  sitterClouds.set(posed, cloud)
  return cloud
}

function findSeen({ surfaces, balls, view }: Omit<Rig, 'sources' | 'figures'>): Cloud {
  const hides = surfaces.filter(({ kind }) => kind === 'backdrop' || kind === 'panel')
  const set = surfaces.map(({ rect: { centre, halfU, halfV } }) => {
    const spacingM = (2 * Math.max(length(halfU), length(halfV))) / SIDE_STEPS
    const isHidden = (point: Vec3) => hides.some(({ rect }) => crosses(rect, view.frame.origin, point))
    const shows = (point: Vec3) => isInView({ centre: point, radiusM: spacingM }, view) && !isHidden(point)
    const grid = SIDE_POINTS.flatMap((u) => SIDE_POINTS.map((v) => add(centre, add(scale(halfU, u), scale(halfV, v)))))
    return cloudOf(inCells(grid.filter(shows), SIDE_CELL * spacingM), spacingM)
  })
  return joined([cloudOf(balls.map(polesOf), SITTER_MARGIN_M), ...set])
}

const polesOf = ({ centre, radiusM }: Sphere): readonly Vec3[] =>
  [radiusM, -radiusM].flatMap((r) => [add(centre, [r, 0, 0]), add(centre, [0, r, 0]), add(centre, [0, 0, r])])

function everyNth(cloud: Float32Array, stride: number): Vec3[] {
  const points: Vec3[] = []
  for (let i = 0; i < cloud.length; i += 3 * stride) points.push([cloud[i], cloud[i + 1], cloud[i + 2]])
  return points
}

/** May any of the sphere fall into the picture? A fiftieth of margin, for looks shifted within a pixel. */
export function isInView({ centre, radiusM }: Sphere, view: View): boolean {
  const from = subtract(centre, view.frame.origin)
  const depth = dot(from, view.frame.z)
  if (depth < -radiusM) return false
  const within = (across: number, sideMm: number): boolean => {
    const tangent = 1.02 * viewTangent(sideMm, view.focalLengthMm)
    return Math.abs(across) < Math.max(0, depth) * tangent + radiusM * Math.hypot(1, tangent)
  }
  return within(dot(from, view.frame.x), view.sensorWidthMm) && within(dot(from, view.frame.y), view.sensorHeightMm)
}

export function sphereAround(occluder: Occluder): Sphere {
  switch (occluder.kind) {
    case 'ball':
      return occluder
    case 'rectangle': {
      const { centre, halfU, halfV } = occluder.rect
      return { centre, radiusM: Math.hypot(length(halfU), length(halfV)) }
    }
    case 'disc':
      return occluder
    case 'cylinder': {
      const { from, to, radiusM } = occluder
      return { centre: scale(add(from, to), 0.5), radiusM: distance(from, to) / 2 + radiusM }
    }
    case 'cap': {
      const { rimCentre, axis, diameterM, depthM } = occluder
      return { centre: addScaled(rimCentre, axis, depthM / 2), radiusM: Math.hypot(diameterM / 2, depthM / 2) }
    }
  }
}

/** Does a source's gear show, or stand in the way of this other source? */
export function gearMatters(gear: RigSource['gear'], other: RigSource, seen: Cloud): boolean {
  const lit = litCloud(other)
  return gear.some((solid) => mayBlock(solid, lit, seen))
}

export const gearShows = (gear: RigSource['gear'], view: View): boolean => gear.some((solid) => solidShows(solid, view))

/** May any of it fall into the picture? A rod is asked for along its length: the ball around a shaft is a metre wide. */
export function solidShows(solid: Occluder, view: View): boolean {
  if (!isInView(sphereAround(solid), view)) return false
  return solid.kind !== 'cylinder' || ballsAlong(solid).some((ball) => isInView(ball, view))
}

const BALL_M = 0.3

/** Balls that hold it between them: a board or a canopy is far from round. */
function ballsOf(occluder: Occluder): readonly Sphere[] {
  switch (occluder.kind) {
    case 'rectangle':
      return ballsOver(occluder.rect, 0)
    case 'cap': {
      const { rimCentre, axis, diameterM, depthM } = occluder
      const [u, v] = basisAround(axis)
      const centre = addScaled(rimCentre, axis, depthM / 2)
      return ballsOver({ centre, halfU: scale(u, diameterM / 2), halfV: scale(v, diameterM / 2) }, depthM / 2)
    }
    case 'cylinder':
      return ballsAlong(occluder)
    default:
      return [sphereAround(occluder)]
  }
}

/** Over a board that is as thick as that on both sides. */
function ballsOver({ centre, halfU, halfV }: Rect, halfThicknessM: number): readonly Sphere[] {
  const [columns, rows] = [halfU, halfV].map((half) => Math.min(MOST_BALLS, Math.ceil((2 * length(half)) / BALL_M)))
  const radiusM = Math.hypot(length(halfU) / columns, length(halfV) / rows, halfThicknessM)
  const middles = (count: number) => Array.from({ length: count }, (_, i) => (2 * i + 1) / count - 1)
  return middles(columns).flatMap((a) =>
    middles(rows).map((b) => ({ centre: addScaled(addScaled(centre, halfU, a), halfV, b), radiusM })),
  )
}

/** Balls that hold a cylinder between them, each as long as it is wide where that takes few. */
function ballsAlong({ from, to, radiusM }: Extract<Occluder, { kind: 'cylinder' }>): readonly Sphere[] {
  const count = Math.max(1, Math.min(MOST_BALLS, Math.ceil(distance(from, to) / (2 * radiusM))))
  const halfM = distance(from, to) / (2 * count)
  return Array.from({ length: count }, (_, i) => ({
    centre: addScaled(from, subtract(to, from), (i + 0.5) / count),
    radiusM: Math.hypot(halfM, radiusM),
  }))
}

const MOST_BALLS = 16
