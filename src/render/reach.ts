import type { Rig, RigSource, View } from '../rig'
import { add, addScaled, distance, dot, length, pointToWorld, scale, subtract, type Vec3 } from '../space'
import type { Occluder } from './pack'
import type { Sphere } from './shadow-frustum'

/**
 * Which things can stand between a source and what the camera sees: tested on a few points of both and generous
 * spheres, so that a lamp moved outside the picture and out of the others' way restarts one layer, not all, and the
 * shader tests three occluders in place of thirty.
 */
export function mayBlock(sphere: Sphere, lit: readonly Vec3[], seen: readonly Vec3[]): boolean {
  const reach = sphere.radiusM * 1.25 + 0.05
  return lit.some((from) => seen.some((to) => distanceToSegment(sphere.centre, from, to) < reach))
}

function distanceToSegment(point: Vec3, from: Vec3, to: Vec3): number {
  const along = subtract(to, from)
  const squared = dot(along, along)
  const t = squared > 0 ? Math.min(1, Math.max(0, dot(subtract(point, from), along) / squared)) : 0
  return distance(point, addScaled(from, along, t))
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
  const small = (point: Vec3): Sphere => ({ centre: point, radiusM: 0.3 })
  return [
    ...sitters,
    ...set.filter((point) => isInView(small(point), rig.view)),
    ...rig.balls.map((ball) => ball.centre),
  ]
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
  return gear.some((solid) => mayBlock(sphereAround(solid), lit, seen))
}

export const gearShows = (gear: RigSource['gear'], view: View): boolean =>
  gear.some((solid) => isInView(sphereAround(solid), view))
