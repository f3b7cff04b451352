/**
 * Smooth displacements of the space that the first sitter stands in, one a shape field, each for the half x ≥ 0. Millimetres,
 * head-local frame. Every one is given per unit of its amplitude and added to out. All are smooth enough for shading to show no
 * seam.
 */
import { smoothMin } from '../sculpt/solids'

export type Displacement = (x: number, y: number, z: number, amount: number, out: Float64Array) => void

/** 0 at from, 1 at to, with two continuous derivatives; from may be greater than to. */
export function rise(from: number, to: number, v: number): number {
  const t = Math.min(1, Math.max(0, (v - from) / (to - from)))
  return t * t * t * (t * (6 * t - 15) + 10)
}

/** 1 at 0, e⁻¹ at the width. */
export const bell = (v: number, width: number): number => Math.exp(-((v / width) ** 2))

/** Sideways distance that no longer grows at the ears: they move with the head and keep their thickness. */
const earSafe = (x: number): number => smoothMin(x, 74, 14)

/** Axis of the neck: leans back downwards. */
const neckAxisZ = (y: number): number => -82 - 0.12 * Math.max(0, -y - 60)

/** Skull and cheekbones in full, jaw and the middle of the face less, neck not at all. */
export const breadth: Displacement = (x, y, z, amount, out) => {
  const level = 0.55 * rise(-150, -85, y) + 0.45 * rise(-80, -15, y)
  const middle = 1 - 0.5 * bell(x, 46) * rise(-45, 0, z) * rise(60, 20, y)
  out[0] += (amount * earSafe(x) * level * middle) / 74
}

/** The back of the skull moves, the face stays. */
export const length: Displacement = (_, y, z, amount, out) => {
  const back = Math.max(0, -25 - z) / 142.6
  out[2] -= amount * back * Math.sqrt(back) * rise(-125, -25, y)
}

/** Everything under the root of the nose in proportion to its depth, taken up again between chin and throat. */
export const faceLength: Displacement = (_, y, z, amount, out) => {
  if (y > 6) return
  const below = y > -100 ? (6 - y) / 120 : (106 + 20 * (1 - Math.exp((y + 100) / 20))) / 120
  const soft = below * rise(6, -30, y)
  out[1] -= amount * soft * rise(-168, -108, y) * rise(-125, -45, z) * 1.02
}

/** The eyes sink between brows and cheekbones; the cheek under them follows part of the way, or bags would stand there. */
export const eyeDepth: Displacement = (x, y, z, amount, out) => {
  if (y > 26 || y < -56 || x > 66 || z < -45) return
  const level = y > 0 ? rise(26, 3, y) : rise(-56, -8, y)
  out[2] -= amount * level * rise(66, 38, x) * rise(3, 23, x) * rise(-45, -8, z)
}

/** The ridge of the nose from the brows to half-way down. */
export const noseBridge: Displacement = (x, y, z, amount, out) => {
  if (y > 34 || y < -42 || z < -8) return
  out[2] += amount * bell(x, 12.5) * rise(32, 6, y) * rise(-40, 0, y) * rise(-8, 14, z)
}

/** The tip and, towards it, the ridge. */
export const noseProtrusion: Displacement = (x, y, z, amount, out) => {
  if (y > 4 || y < -60 || z < 8) return
  out[2] += amount * bell(x, 16) * rise(4, -34, y) * rise(-56, -40, y) * rise(10, 40, z) * 1.15
}

/** The angles of the jaw, the chin a little, the mouth hardly. */
export const jawWidth: Displacement = (x, y, z, amount, out) => {
  if (y > -8 || y < -150) return
  const level = y > -84 ? rise(-8, -84, y) : rise(-150, -84, y)
  const front = rise(-25, 22, z) * (0.45 + 0.35 * rise(-96, -76, y))
  out[0] += (amount * smoothMin(x, 52, 12) * level * rise(-125, -70, z) * (1 - front)) / 50.6
}

const MOUTH_LINE_Y = -67.6
/** Both lips grow away from the line between them and stand farther out. */
export const lipFullness: Displacement = (x, y, z, amount, out) => {
  const from = y - MOUTH_LINE_Y
  if (Math.abs(from) > 32 || z < 0 || x > 42) return
  const near = amount * bell(x, 17) * rise(2, 16, z)
  out[1] += near * (from / 8.4) * bell(from, 12)
  out[2] += 0.35 * near * bell(from, 9)
}

/** Outwards from the root of the neck, soon in proportion to the distance. */
export const shoulderBreadth: Displacement = (x, y, _, amount, out) => {
  if (x < 30 || y > -110) return
  const t = (x - 30) / 198
  out[0] += ((amount * t * t) / (t + 0.25)) * 1.25 * rise(-110, -200, y)
}

/** The column of the neck about its axis, between jaw and collar. */
export const neckGirth: Displacement = (x, y, z, amount, out) => {
  if (y > -60 || y < -225) return
  const dz = z - neckAxisZ(y)
  const radius = Math.sqrt(x * x + dz * dz)
  const level = rise(-62, -118, y) * rise(-225, -160, y) * rise(110, 68, radius)
  out[0] += amount * level * x
  out[2] += amount * level * dz
}
