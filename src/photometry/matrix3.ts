import type { Vec3 } from '../space'

/** Three by three, by rows. */
export type Matrix3 = readonly [Vec3, Vec3, Vec3]

export const apply3 = (m: Matrix3, v: Vec3): Vec3 => [
  m[0][0] * v[0] + m[0][1] * v[1] + m[0][2] * v[2],
  m[1][0] * v[0] + m[1][1] * v[1] + m[1][2] * v[2],
  m[2][0] * v[0] + m[2][1] * v[1] + m[2][2] * v[2],
]

/** Inverse by cofactors. Throws on a singular matrix. */
export function invert3(m: Matrix3): Matrix3 {
  const [[a, b, c], [d, e, f], [g, h, i]] = m
  const [A, B, C] = [e * i - f * h, f * g - d * i, d * h - e * g]
  const determinant = a * A + b * B + c * C
  if (determinant === 0) throw new Error('photometry.invert3: the matrix is singular')
  const s = 1 / determinant
  return [
    [A * s, (c * h - b * i) * s, (b * f - c * e) * s],
    [B * s, (a * i - c * g) * s, (c * d - a * f) * s],
    [C * s, (b * g - a * h) * s, (a * e - b * d) * s],
  ]
}
