import { type LitSurface, outlineOf, type Steradians, solidAngleOfTriangle } from '../photometry'
import type { RigSource } from '../rig'
import { addScaled, cross, degrees, dot, type Frame, length, pointToWorld, subtract, type Vec3 } from '../space'

/** Solid angle of a convex flat outline, by triangles from its centre. */
export function solidAngle(outline: readonly Vec3[], centre: Vec3, from: Vec3): Steradians {
  const seen = outline.map((p) => subtract(p, from))
  const middle = subtract(centre, from)
  return seen.reduce((sum, p, i) => sum + solidAngleOfTriangle(middle, p, seen[(i + 1) % seen.length]), 0)
}

/** Angle between the two ends of the face's width (or height) as seen from a place, degrees: tilt foreshortens it. */
export function apparentDeg(source: RigSource, along: 'width' | 'height', from: Vec3): number {
  const { frame, litFace } = source
  const half = (along === 'width' ? litFace.widthM : litFace.heightM) / 2
  const axis = along === 'width' ? frame.x : frame.y
  const a = subtract(addScaled(frame.origin, axis, half), from)
  const b = subtract(addScaled(frame.origin, axis, -half), from)
  return degrees(Math.atan2(length(cross(a, b)), dot(a, b)))
}

/** Points of an emitter's outline in the world. */
export const outlineInWorld = (frame: Frame, surface: LitSurface): readonly Vec3[] =>
  outlineOf(surface).map((p) => pointToWorld(frame, p))
