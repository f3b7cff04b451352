import { viewTangent } from '../camera'
import type { Rig, RigSource, View } from '../rig'
import {
  add,
  addScaled,
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
  if (occluder.kind === 'rectangle' && onOneSide(occluder.rect, [...lit.points, ...seen.points])) return false
  const sphere = sphereAround(occluder)
  return lit.balls.some((from) => seen.balls.some((to) => meetsHull(sphere, from, to)))
}

const HULL_STEPS = 24

/** Does a ball meet the convex hull of two others? The gap to the ball in between is convex along the way. */
function meetsHull(ball: Sphere, from: Sphere, to: Sphere): boolean {
  const slack = distance(from.centre, to.centre) / HULL_STEPS
  for (let i = 0; i <= HULL_STEPS; i++) {
    const t = i / HULL_STEPS
    const centre = addScaled(from.centre, subtract(to.centre, from.centre), t)
    const radiusM = from.radiusM + (to.radiusM - from.radiusM) * t
    if (distance(ball.centre, centre) <= ball.radiusM + radiusM + slack) return true
  }
  return false
}

/** Points of the thing itself lie on its plane and are not behind it. */
const ON_PLANE_M = 0.01

function onOneSide({ centre, halfU, halfV }: Rect, points: readonly Vec3[]): boolean {
  const normal = normalize(cross(halfU, halfV))
  const sides = points.map((point) => dot(subtract(point, centre), normal))
  return sides.every((side) => side > -ON_PLANE_M) || sides.every((side) => side < ON_PLANE_M)
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

const cloudOf = (groups: readonly (readonly Vec3[])[], marginM: number): Cloud => {
  const filled = groups.filter((points) => points.length > 0)
  return { points: filled.flat(), balls: filled.map((points) => ballAround(points, marginM)) }
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

/** Points that shine by themselves, such as those of a panel. */
export const pointCloud = (points: readonly Vec3[]): Cloud => cloudOf([points], FACE_MARGIN_M)

const SITTER_POINTS = 120
const SITTER_MARGIN_M = 0.05
const SIDE_STEPS = 12
const SIDE_POINTS = Array.from({ length: SIDE_STEPS + 1 }, (_, i) => (2 * i) / SIDE_STEPS - 1)

/** Everything that may show: sitters, balls, the part of the set within the picture, and gear in it. */
export function seenCloud(rig: Rig): Cloud {
  const rest = seenBesidesGear(rig)
  const gear = rig.sources.flatMap((source) =>
    source.gear.filter((solid) => solidShows(solid, rig.view)).map((solid) => sphereAround(solid)),
  )
  return { points: [...rest.points, ...gear.map(({ centre }) => centre)], balls: [...rest.balls, ...gear] }
}

type Still = Pick<Rig, 'figures' | 'surfaces' | 'balls'> & { readonly cloud: Cloud }

/** What a moved source leaves as it was: under a hand it is found once. */
const stillSeen = new WeakMap<View, Still>()

function seenBesidesGear({ figures, surfaces, balls, view }: Rig): Cloud {
  const known = stillSeen.get(view)
  if (known && known.figures === figures && known.surfaces === surfaces && known.balls === balls) return known.cloud
  const cloud = findSeen({ figures, surfaces, balls, view })
  stillSeen.set(view, { figures, surfaces, balls, cloud })
  return cloud
}

function findSeen({ figures, surfaces, balls, view }: Omit<Rig, 'sources'>): Cloud {
  const sitters = figures.map(({ posed }) => {
    const total = posed.parts.reduce((sum, { mesh }) => sum + mesh.positions.length / 3, 0)
    const stride = Math.max(1, Math.floor(total / SITTER_POINTS))
    return posed.parts.flatMap(({ mesh }) => everyNth(mesh.positions, stride))
  })
  const near = cloudOf([...sitters, ...balls.map(polesOf)], SITTER_MARGIN_M)
  const eye = view.frame.origin
  const hides = surfaces.filter(({ kind }) => kind === 'backdrop' || kind === 'panel')
  const set = surfaces.map(({ rect: { centre, halfU, halfV } }) => {
    const spacingM = (2 * Math.max(length(halfU), length(halfV))) / SIDE_STEPS
    const shows = (point: Vec3) =>
      isInView({ centre: point, radiusM: spacingM }, view) && !hides.some(({ rect }) => crosses(rect, eye, point))
    const grid = SIDE_POINTS.flatMap((u) => SIDE_POINTS.map((v) => add(centre, add(scale(halfU, u), scale(halfV, v)))))
    return cloudOf([grid.filter(shows)], spacingM)
  })
  const all = [near, ...set]
  return { points: all.flatMap(({ points }) => points), balls: all.flatMap(({ balls }) => balls) }
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
