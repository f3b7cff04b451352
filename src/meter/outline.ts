import { type LitSurface, type Steradians, solidAngleOfTriangle } from '../photometry'
import type { RigSource } from '../rig'
import { addScaled, cross, degrees, dot, type Frame, length, pointToWorld, subtract, type Vec3 } from '../space'

const ROUND_SIDES = 96

/** Corner points of a lit surface's outline in its own frame; a cap is outlined by its rim. Metres. */
function outlineOf(surface: LitSurface): readonly Vec3[] {
  switch (surface.shape) {
    case 'disc':
      return polygon(ROUND_SIDES, surface.radiusM, 0)
    case 'rectangle':
      return rectangle(surface.widthM, surface.heightM)
    case 'octagon':
      // widthM is across the flats; the corners lie further out.
      return polygon(8, surface.widthM / 2 / Math.cos(Math.PI / 8), 0, Math.PI / 8)
    case 'cap':
      return polygon(ROUND_SIDES, surface.diameterM / 2, surface.hollow ? 0 : -surface.depthM)
  }
}

const rectangle = (width: number, height: number): readonly Vec3[] => [
  [-width / 2, -height / 2, 0],
  [width / 2, -height / 2, 0],
  [width / 2, height / 2, 0],
  [-width / 2, height / 2, 0],
]

const polygon = (sides: number, radius: number, z: number, from = 0): readonly Vec3[] =>
  Array.from({ length: sides }, (_, i) => {
    const angle = from + (2 * Math.PI * i) / sides
    return [radius * Math.cos(angle), radius * Math.sin(angle), z]
  })

/** Outline of the lit face as a tape finds it: the front cloth, or the rim plane of a reflected umbrella. World. */
export function faceOutline({ frame, litFace }: RigSource): readonly Vec3[] {
  const local =
    litFace.shape === 'rectangle'
      ? rectangle(litFace.widthM, litFace.heightM)
      : polygon(ROUND_SIDES, 1, 0).map(([x, y]): Vec3 => [(x * litFace.widthM) / 2, (y * litFace.heightM) / 2, 0])
  return local.map((p) => pointToWorld(frame, p))
}

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
