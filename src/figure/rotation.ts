import { add, dot, normalize, type Vec3 } from '../space'

/** Rows of a rotation, flat. */
export type Matrix = Float64Array

/** Axis and angle (0 to π) of the rotation that takes the axes to these columns. */
export function axisAngle([x, y, z]: readonly [Vec3, Vec3, Vec3]): { readonly axis: Vec3; readonly angle: number } {
  const twist: Vec3 = [y[2] - z[1], z[0] - x[2], x[1] - y[0]]
  const sine = Math.hypot(...twist) / 2
  const cosine = (x[0] + y[1] + z[2] - 1) / 2
  if (sine > 1e-9) return { axis: normalize(twist), angle: Math.atan2(sine, cosine) }
  return cosine > 0 ? { axis: [0, 1, 0], angle: 0 } : { axis: halfTurnAxis(x, y, z), angle: Math.PI }
}

/** For half a turn R = 2aaᵀ − I: the column of R + I that is longest points along the axis. */
function halfTurnAxis(x: Vec3, y: Vec3, z: Vec3): Vec3 {
  const columns: Vec3[] = [add(x, [1, 0, 0]), add(y, [0, 1, 0]), add(z, [0, 0, 1])]
  return normalize(columns.reduce((a, b) => (dot(b, b) > dot(a, a) ? b : a)))
}

/** About a unit axis by an angle in radians, right-handed (Rodrigues). */
export function rotation(axis: Vec3, angle: number, out: Matrix = new Float64Array(9)): Matrix {
  const [x, y, z] = axis
  const c = Math.cos(angle)
  const s = Math.sin(angle)
  const d = 1 - c
  out[0] = c + x * x * d
  out[1] = x * y * d - z * s
  out[2] = x * z * d + y * s
  out[3] = y * x * d + z * s
  out[4] = c + y * y * d
  out[5] = y * z * d - x * s
  out[6] = z * x * d - y * s
  out[7] = z * y * d + x * s
  out[8] = c + z * z * d
  return out
}

export const apply = (m: Matrix, v: Vec3): Vec3 => [
  m[0] * v[0] + m[1] * v[1] + m[2] * v[2],
  m[3] * v[0] + m[4] * v[1] + m[5] * v[2],
  m[6] * v[0] + m[7] * v[1] + m[8] * v[2],
]

/** By the inverse, which for a rotation is the transpose. */
export const applyBack = (m: Matrix, v: Vec3): Vec3 => [
  m[0] * v[0] + m[3] * v[1] + m[6] * v[2],
  m[1] * v[0] + m[4] * v[1] + m[7] * v[2],
  m[2] * v[0] + m[5] * v[1] + m[8] * v[2],
]

/** First b, then a. */
export function product(a: Matrix, b: Matrix): Matrix {
  const out = new Float64Array(9)
  for (let row = 0; row < 9; row += 3)
    for (let column = 0; column < 3; column++)
      for (let k = 0; k < 3; k++) out[row + column] += a[row + k] * b[3 * k + column]
  return out
}

export const sameNumbers = (a: ArrayLike<number>, b: ArrayLike<number>): boolean =>
  Array.from(a).every((value, i) => value === b[i])
