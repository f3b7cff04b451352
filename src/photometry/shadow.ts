import type { Vec3 } from '../space'
import { discFactorOffAxis } from './disc'
import { irradianceFromPolygon } from './polygon'
import type { Metres, Radians } from './units'

/**
 * Shadow of a straight edge: source of width W across the edge, a from source to edge, b from edge to the surface.
 * Similar triangles through the edge. All > 0.
 */

/** Full width of the penumbra on a surface parallel to the source: W·b/a. Two small lights W apart: between their edges. */
export const penumbraWidth = (sourceWidth: Metres, toEdge: Metres, gap: Metres): Metres => (sourceWidth * gap) / toEdge

/** Gap at which the penumbra has a given width: b = w·a/W. */
export const gapFromPenumbra = (width: Metres, sourceWidth: Metres, toEdge: Metres): Metres =>
  (width * toEdge) / sourceWidth

/**
 * Length of the full shadow behind a round blocker of diameter S in front of a larger round source of diameter D:
 * a·S/(D − S). Infinity where the blocker is as large as the source: its shadow never closes.
 */
export const umbraLength = (sourceDiameter: Metres, blockerDiameter: Metres, toBlocker: Metres): Metres =>
  sourceDiameter > blockerDiameter ? (toBlocker * blockerDiameter) / (sourceDiameter - blockerDiameter) : Infinity

/**
 * Where the shadow of a point lands on a frontal plane a depth p behind it (a nose tip on the cheek), away from a
 * distant light at an azimuth from the plane's normal and an elevation: p·tan az sideways, p·tan el/cos az down.
 */
export const shadowOffset = (
  depth: Metres,
  azimuth: Radians,
  elevation: Radians,
): { readonly sideways: Metres; readonly down: Metres } => ({
  sideways: depth * Math.tan(azimuth),
  down: (depth * Math.tan(elevation)) / Math.cos(azimuth),
})

/**
 * The profile with what the segment formula of shadowProfile.ts leaves out: each part of the disc counts with its
 * cosines and distance. Share of the disc's illuminance at a point x from the edge's geometric shadow, on a screen
 * parallel to disc and edge, edge on the disc's axis (x > 0: lit side). The part that shows is a circular segment:
 * Lambert's formula on a polygon of `sides` chords, over the closed form of the whole disc. Error below 1e-5 at 512.
 */
export function visibleShareNearDisc(radius: Metres, toEdge: Metres, gap: Metres, x: Metres, sides = 512): number {
  const height = toEdge + gap
  // The ray from the point past the edge meets the disc's plane here; the disc shows on the side of larger x.
  const cut = -(x * toEdge) / gap
  const half = Math.acos(Math.max(-1, Math.min(1, cut / radius)))
  const segment = Array.from({ length: sides + 1 }, (_, i): Vec3 => {
    const angle = half * ((2 * i) / sides - 1)
    return [radius * Math.cos(angle) - x, radius * Math.sin(angle), height]
  })
  return irradianceFromPolygon(segment, [0, 0, 1]) / (Math.PI * discFactorOffAxis(radius, height, x))
}
