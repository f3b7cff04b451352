/**
 * Carlson's symmetric elliptic integrals by duplication [Carlson95]: each step quarters the spread of the arguments,
 * then a Taylor series about their mean. Relative error below 1e-13 with the spread stopped at 1e-3.
 */
const SPREAD = 1e-3

/** R_F(x, y, z); at most one argument 0, none below 0. */
export function carlsonRf(x0: number, y0: number, z0: number): number {
  let [x, y, z] = [x0, y0, z0]
  for (;;) {
    const mean = (x + y + z) / 3
    const [X, Y, Z] = [1 - x / mean, 1 - y / mean, 1 - z / mean]
    if (Math.max(Math.abs(X), Math.abs(Y), Math.abs(Z)) < SPREAD) {
      const e2 = X * Y - Z * Z
      const e3 = X * Y * Z
      return (1 - e2 / 10 + e3 / 14 + (e2 * e2) / 24 - (3 * e2 * e3) / 44) / Math.sqrt(mean)
    }
    const lambda = Math.sqrt(x * y) + Math.sqrt(y * z) + Math.sqrt(z * x)
    x = (x + lambda) / 4
    y = (y + lambda) / 4
    z = (z + lambda) / 4
  }
}

/** R_C(x, y) = R_F(x, y, y) for x ≥ 0, y > 0, in elementary functions. */
function carlsonRc(x: number, y: number): number {
  const gap = y - x
  if (Math.abs(gap) < 1e-9 * y) return 1 / Math.sqrt(y)
  return gap > 0 ? Math.atan(Math.sqrt(gap / x)) / Math.sqrt(gap) : Math.atanh(Math.sqrt(-gap / x)) / Math.sqrt(-gap)
}

/** R_J(x, y, z, p) for p > 0; at most one of x, y, z is 0. */
export function carlsonRj(x0: number, y0: number, z0: number, p0: number): number {
  let [x, y, z, p] = [x0, y0, z0, p0]
  const delta = (p - x) * (p - y) * (p - z)
  let sum = 0
  for (let fourth = 1; ; fourth /= 4) {
    const mean = (x + y + z + 2 * p) / 5
    const [X, Y, Z] = [1 - x / mean, 1 - y / mean, 1 - z / mean]
    const P = (-X - Y - Z) / 2
    if (Math.max(Math.abs(X), Math.abs(Y), Math.abs(Z), Math.abs(P)) < SPREAD) {
      const e2 = X * Y + X * Z + Y * Z - 3 * P * P
      const e3 = X * Y * Z + 2 * e2 * P + 4 * P ** 3
      const e4 = (2 * X * Y * Z + e2 * P + 3 * P ** 3) * P
      const e5 = X * Y * Z * P * P
      const series =
        1 - (3 * e2) / 14 + e3 / 6 + (9 * e2 * e2) / 88 - (3 * e4) / 22 - (9 * e2 * e3) / 52 + (3 * e5) / 26
      return (fourth * series) / (mean * Math.sqrt(mean)) + 6 * sum
    }
    const [rx, ry, rz, rp] = [Math.sqrt(x), Math.sqrt(y), Math.sqrt(z), Math.sqrt(p)]
    const lambda = rx * ry + rx * rz + ry * rz
    const d = (rp + rx) * (rp + ry) * (rp + rz)
    sum += (fourth / d) * carlsonRc(1, 1 + (fourth ** 3 * delta) / (d * d))
    x = (x + lambda) / 4
    y = (y + lambda) / 4
    z = (z + lambda) / 4
    p = (p + lambda) / 4
  }
}
