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

/**
 * Which things can stand between a source and what the camera sees: tested on a few points of both and generous
 * spheres, so that a lamp moved outside the picture and out of the others' way restarts one layer, not all, and the
 * shader tests three occluders in place of thirty.
 */
export function mayBlock(occluder: Occluder, lit: readonly Vec3[], seen: readonly Vec3[]): boolean {
  if (occluder.kind === 'rectangle')
    return lit.some((from) => seen.some((to) => crosses(occluder.rect, from, to, MARGIN)))
  const sphere = sphereAround(occluder)
  const reach = sphere.radiusM * 1.25 + 0.05
  return lit.some((from) => seen.some((to) => distanceToSegment(sphere.centre, from, to) < reach))
}

function distanceToSegment(point: Vec3, from: Vec3, to: Vec3): number {
  const along = subtract(to, from)
  const squared = dot(along, along)
  const t = squared > 0 ? Math.min(1, Math.max(0, dot(subtract(point, from), along) / squared)) : 0
  return distance(point, addScaled(from, along, t))
}

/** So much larger is a rectangle taken to be, since only some points are tested: share of its half edges, and metres. */
const MARGIN = 0.25
const MARGIN_M = 0.05

/** Does the segment cross the rectangle grown by a margin? A point on it is not behind it. */
function crosses({ centre, halfU, halfV }: Rect, from: Vec3, to: Vec3, margin: number): boolean {
  const normal = normalize(cross(halfU, halfV))
  const [a, b] = [dot(subtract(from, centre), normal), dot(subtract(to, centre), normal)]
  if (a * b >= 0 || Math.min(Math.abs(a), Math.abs(b)) < 1e-3) return false
  const hit = subtract(addScaled(from, subtract(to, from), a / (a - b)), centre)
  return [halfU, halfV].every((half) => {
    const size = length(half)
    return Math.abs(dot(hit, half)) / size <= size * (1 + margin) + (margin > 0 ? MARGIN_M : 0)
  })
}

const PLACES = [0.02, 0.5, 0.98]

/** A few points of each lit face. */
export const litPoints = (source: RigSource): readonly Vec3[] =>
  source.emitters.flatMap(({ frame, emission }) =>
    PLACES.flatMap((u) => PLACES.map((v) => pointToWorld(frame, emission.at(u, v).point))),
  )

const SITTER_POINTS = 120
const SIDE_POINTS = [-1, -0.5, 0, 0.5, 1]

/** A few points of everything that may show: sitters, balls, and the part of the set within the picture. */
export function seenPoints(rig: Rig): readonly Vec3[] {
  const clouds = rig.figures.flatMap(({ posed }) => posed.parts.map(({ mesh }) => mesh.positions))
  const total = clouds.reduce((sum, cloud) => sum + cloud.length / 3, 0)
  const stride = Math.max(1, Math.floor(total / SITTER_POINTS))
  const sitters = clouds.flatMap((cloud) => everyNth(cloud, stride))
  const set = rig.surfaces.flatMap(({ rect: { centre, halfU, halfV } }) =>
    SIDE_POINTS.flatMap((u) => SIDE_POINTS.map((v) => add(centre, add(scale(halfU, u), scale(halfV, v))))),
  )
  const eye = rig.view.frame.origin
  const hides = rig.surfaces.filter(({ kind }) => kind === 'backdrop' || kind === 'panel')
  const shows = (point: Vec3) =>
    isInView({ centre: point, radiusM: 0.3 }, rig.view) && !hides.some(({ rect }) => crosses(rect, eye, point, 0))
  return [...sitters, ...set.filter(shows), ...rig.balls.map((ball) => ball.centre)]
}

function everyNth(cloud: Float32Array, stride: number): Vec3[] {
  const points: Vec3[] = []
  for (let i = 0; i < cloud.length; i += 3 * stride) points.push([cloud[i], cloud[i + 1], cloud[i + 2]])
  return points
}

/** May any of the sphere fall into the picture? Square of the sensor's longer side, a tenth of margin. */
export function isInView({ centre, radiusM }: Sphere, view: View): boolean {
  const from = subtract(centre, view.frame.origin)
  const depth = dot(from, view.frame.z)
  if (depth < -radiusM) return false
  const tangent = (0.55 * Math.max(view.sensorWidthMm, view.sensorHeightMm)) / view.focalLengthMm
  const margin = radiusM * Math.hypot(1, tangent)
  return (
    Math.abs(dot(from, view.frame.x)) < Math.max(0, depth) * tangent + margin &&
    Math.abs(dot(from, view.frame.y)) < Math.max(0, depth) * tangent + margin
  )
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
export function gearMatters(gear: RigSource['gear'], other: RigSource, seen: readonly Vec3[]): boolean {
  const lit = litPoints(other)
  return gear.some((solid) => mayBlock(solid, lit, seen))
}

export const gearShows = (gear: RigSource['gear'], view: View): boolean =>
  gear.some((solid) => isInView(sphereAround(solid), view))
