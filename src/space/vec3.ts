import type { Frame, Vec3 } from './types'

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
export const subtract = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
export const scale = (a: Vec3, k: number): Vec3 => [a[0] * k, a[1] * k, a[2] * k]
export const addScaled = (a: Vec3, b: Vec3, k: number): Vec3 => [a[0] + b[0] * k, a[1] + b[1] * k, a[2] + b[2] * k]
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]
/** Square roots, not Math.hypot: that is ten times slower, and guards against overflows that metres do not meet. */
export const length = (a: Vec3): number => Math.sqrt(dot(a, a))
export const distance = (a: Vec3, b: Vec3): number => length(subtract(a, b))
export const lerp = (a: Vec3, b: Vec3, t: number): Vec3 => addScaled(scale(a, 1 - t), b, t)

/** Unit vector along a. Throws on the zero vector: a direction that does not exist must not travel on as NaN. */
export function normalize(a: Vec3): Vec3 {
  const size = length(a)
  if (!(size > 0)) throw new Error(`space.normalize: no direction in [${a.join(', ')}]`)
  return scale(a, 1 / size)
}

/** The vector rotated about a unit axis by an angle in radians, right-handed (Rodrigues). */
export function rotateAbout(a: Vec3, axis: Vec3, angle: number): Vec3 {
  const c = Math.cos(angle)
  const along = scale(axis, dot(axis, a) * (1 - c))
  return add(add(scale(a, c), scale(cross(axis, a), Math.sin(angle))), along)
}

/** Some pair of axes that makes a right-handed frame with z; stable for every z (Duff et al. 2017). */
export function basisAround(z: Vec3): readonly [Vec3, Vec3] {
  const sign = z[2] >= 0 ? 1 : -1
  const a = -1 / (sign + z[2])
  const b = z[0] * z[1] * a
  return [
    [1 + sign * z[0] * z[0] * a, sign * b, -sign * z[0]],
    [b, sign + z[1] * z[1] * a, -z[1]],
  ]
}

/** A frame that looks from origin to target with y as nearly up as can be; rolled about z by roll radians. */
export function frameTowards(origin: Vec3, target: Vec3, roll = 0): Frame {
  const z = normalize(subtract(target, origin))
  const up: Vec3 = Math.abs(z[1]) > 0.9999 ? [0, 0, -Math.sign(z[1])] : [0, 1, 0]
  const level = normalize(cross(up, z))
  const x = rotateAbout(level, z, roll)
  return { origin, x, y: cross(z, x), z }
}

export const pointToWorld = (frame: Frame, p: Vec3): Vec3 => add(frame.origin, directionToWorld(frame, p))
/** Written out, as it is asked thousands of times a reading. */
export const directionToWorld = ({ x, y, z }: Frame, d: Vec3): Vec3 => [
  x[0] * d[0] + y[0] * d[1] + z[0] * d[2],
  x[1] * d[0] + y[1] * d[1] + z[1] * d[2],
  x[2] * d[0] + y[2] * d[1] + z[2] * d[2],
]
export const pointToLocal = (frame: Frame, p: Vec3): Vec3 => directionToLocal(frame, subtract(p, frame.origin))
export const directionToLocal = (frame: Frame, d: Vec3): Vec3 => [dot(d, frame.x), dot(d, frame.y), dot(d, frame.z)]

export const radians = (degrees: number): number => (degrees * Math.PI) / 180
export const degrees = (radians: number): number => (radians * 180) / Math.PI
