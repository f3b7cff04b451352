import { areaOf, capRadius, segmentHitsCylinder } from '../photometry'
import type { Emitter } from '../rig'
import { addScaled, dot, normalize, pointToLocal, scale, subtract, type Vec3 } from '../space'

type LitSurface = Emitter['emission']['surface']

/** Texels along a face map: a catchlight is some twenty pixels wide at most. */
export const FACE_MAP = 24

/** Half the width and height of the rectangle about the outline, in the plane z = 0 of the emitter's frame, m. */
export function faceExtent(surface: LitSurface): readonly [number, number] {
  switch (surface.shape) {
    case 'disc':
      return [surface.radiusM, surface.radiusM]
    case 'rectangle':
      return [surface.widthM / 2, surface.heightM / 2]
    case 'octagon':
      return [surface.widthM / 2, surface.widthM / 2]
    case 'cap':
      return [surface.diameterM / 2, surface.diameterM / 2]
  }
}

/**
 * How bright a lit face looks from one place, over the plane z = 0 of its frame: what an eye mirrors. The dish and body
 * that stand before it are in it. 1/m² per 1 cd·s, rows along y, FACE_MAP² values; null: seen from behind.
 */
export function faceMap({ frame, emission }: Emitter, eye: Vec3): Float32Array | null {
  const from = pointToLocal(frame, eye)
  if (from[2] <= 0) return null
  const [halfX, halfY] = faceExtent(emission.surface)
  const areaM2 = areaOf(emission.surface)
  const values = new Float32Array(FACE_MAP * FACE_MAP)
  for (let j = 0; j < FACE_MAP; j++)
    for (let i = 0; i < FACE_MAP; i++) {
      const through: Vec3 = [halfX * ((2 * i + 1) / FACE_MAP - 1), halfY * ((2 * j + 1) / FACE_MAP - 1), 0]
      const met = meet(emission.surface, from, through)
      if (!met) continue
      if (emission.blockers.some((blocker) => segmentHitsCylinder(met.point, from, blocker))) continue
      values[j * FACE_MAP + i] = emission.luminance({ ...met, areaM2 }, normalize(subtract(from, met.point)))
    }
  return values
}

/** Where the ray from a place through a point of the plane z = 0 meets the lit side. */
function meet(surface: LitSurface, from: Vec3, through: Vec3): { point: Vec3; normal: Vec3 } | null {
  if (surface.shape === 'cap') return meetCap(surface, from, normalize(subtract(through, from)))
  return isOn(surface, through) ? { point: through, normal: [0, 0, 1] } : null
}

function isOn(surface: Exclude<LitSurface, { shape: 'cap' }>, [x, y]: Vec3): boolean {
  if (surface.shape === 'disc') return Math.hypot(x, y) <= surface.radiusM
  if (surface.shape === 'rectangle') return true
  const half = surface.widthM / 2
  return (Math.abs(x) + Math.abs(y)) * Math.SQRT1_2 <= half && Math.max(Math.abs(x), Math.abs(y)) <= half
}

/** Hollow: the far wall seen through the rim. Else the near side of the bulge. */
function meetCap(surface: Extract<LitSurface, { shape: 'cap' }>, from: Vec3, direction: Vec3) {
  const radius = capRadius(surface.diameterM, surface.depthM)
  const centre: Vec3 = [0, 0, surface.hollow ? radius - surface.depthM : -radius]
  const start = subtract(from, centre)
  const middle = -dot(start, direction)
  const inner = middle * middle - dot(start, start) + radius * radius
  if (inner < 0) return null
  const point = addScaled(from, direction, middle + (surface.hollow ? 1 : -1) * Math.sqrt(inner))
  const inside = surface.hollow ? point[2] <= 1e-6 : point[2] >= -surface.depthM
  if (!inside) return null
  return { point, normal: scale(subtract(point, centre), (surface.hollow ? -1 : 1) / radius) }
}
