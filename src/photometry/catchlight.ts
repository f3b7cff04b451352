import { addScaled, dot, length, normalize, scale, subtract, type Vec3 } from '../space'
import type { Metres, Radians } from './units'

/** Catchlights: the cornea as a convex mirror of radius R; the sitter's is in figure. Lengths in any one unit. */

/** Of Gullstrand's schematic eye, which optics texts calculate with. */
export const GULLSTRAND_CORNEA_RADIUS_M: Metres = 0.0077

/** Mirror image of a source of height h at u from the vertex, near the axis: 1/v = 2/R + 1/u. */
export const catchlightSize = (height: Metres, distance: Metres, radius: Metres): Metres =>
  (height * radius) / (2 * distance + radius)
/** Depth of that image behind the vertex; R/2 for a distant source. */
export const catchlightDepth = (distance: Metres, radius: Metres): Metres =>
  distance === Infinity ? radius / 2 : (distance * radius) / (2 * distance + radius)

/**
 * Half of the apparent width without the small-angle step, seen from far off along the axis. A ray along the axis
 * meets the ball where the normal stands at φ and leaves at 2φ; it must hit the source's end, h/2 off the axis:
 *     atan2(h/2 − R sin φ, u + R − R cos φ) = 2φ.
 * The left side falls and the right side rises with φ, so halving finds the one root.
 */
export function catchlightEdge(halfHeight: Metres, distance: Metres, radius: Metres): Metres {
  let [low, high] = [0, Math.PI / 2]
  for (let step = 0; step < 60; step++) {
    const normal = (low + high) / 2
    const towardsEnd = Math.atan2(halfHeight - radius * Math.sin(normal), distance + radius - radius * Math.cos(normal))
    if (towardsEnd > 2 * normal) low = normal
    else high = normal
  }
  return radius * Math.sin((low + high) / 2)
}

/** Offset of the catchlight from the centre of the cornea, lens on the axis of sight, distant light t from it: R·sin(t/2). */
export const catchlightOffset = (lightAngle: Radians, radius: Metres): Metres => radius * Math.sin(lightAngle / 2)

/** Greatest angle of a light that still shows in a cornea of half width a: the normal at its rim, doubled. */
export const catchlightLimit = (halfWidth: Metres, radius: Metres): Radians => 2 * Math.asin(halfWidth / radius)

/**
 * Where on a ball a viewer sees the mirror image of a lamp: the point whose normal halves the angle between the two
 * (Alhazen's problem). It lies in the plane of centre, viewer and lamp. With φ from the viewer's direction to the normal, the
 * angle of arrival less the angle of leaving rises from below zero at the viewer's direction to above it at the lamp's, so
 * halving finds the one root. null: a point within the ball, or a lamp behind it as the viewer sees it.
 */
export function mirrorPoint(centre: Vec3, radius: Metres, viewer: Vec3, lamp: Vec3): Vec3 | null {
  const [toViewer, toLamp] = [subtract(viewer, centre), subtract(lamp, centre)]
  const [far, lampFar] = [length(toViewer), length(toLamp)]
  if (!(far > radius && lampFar > radius)) return null
  const ahead = normalize(toViewer)
  const along = dot(toLamp, ahead)
  const across = subtract(toLamp, scale(ahead, along))
  const off = length(across)
  // In line: the foremost point, or nothing where the ball hides the lamp.
  if (off < 1e-12 * lampFar) return along > 0 ? addScaled(centre, ahead, radius) : null
  /** Angle at the point of the normal φ between that normal and a place of the plane, towards the lamp's side. */
  const from = (phi: Radians, x: Metres, y: Metres): Radians =>
    Math.atan2(y - radius * Math.sin(phi), x - radius * Math.cos(phi)) - phi
  let [low, high] = [0, Math.atan2(off, along)]
  for (let step = 0; step < 60; step++) {
    const phi = (low + high) / 2
    if (from(phi, along, off) > -from(phi, far, 0)) low = phi
    else high = phi
  }
  const phi = (low + high) / 2
  // Behind the ball's edge no angle equals the other, or both are past a right one.
  const [arrives, leaves] = [from(phi, along, off), -from(phi, far, 0)]
  if (!(leaves < Math.PI / 2 && Math.abs(arrives - leaves) < 1e-6)) return null
  return addScaled(addScaled(centre, ahead, radius * Math.cos(phi)), across, (radius * Math.sin(phi)) / off)
}
