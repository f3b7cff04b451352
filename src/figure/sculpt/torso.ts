import { brush, spline, tube } from './curves'
import * as data from './data/torso'
import { capsule, clamp01, ellipsoid, mix, smoothMax, smoothMin, smoothStep } from './solids'

const clavicle = tube(data.CLAVICLE, 3)
const waistBreadth = spline(data.WAIST.map(([y, half]) => [y, half] as const).reverse())
const waistDepth = spline(data.WAIST.map(([y, , half]) => [y, half] as const).reverse())
const sternalNotch = brush(data.STERNAL_NOTCH, 2, 10)

/** An elliptic column that leans back and widens downwards. */
function column(x: number, y: number, z: number): number {
  const t = clamp01(-(y + 40) / 150)
  const depth = 40.5 + 14 * t
  const f = (Math.hypot(x / (39.5 + 10 * t * t), (z + 81 + 13 * t) / depth) - 1) * depth * 0.95
  return Math.max(smoothMax(f, y + 50, 20), -(y + 260))
}

function chest(x: number, y: number, z: number): number {
  // Pairs of shapes off the midline: |x| rounded off at 0, or they crease there.
  const sx = Math.sqrt(x * x + 900)
  let f = ellipsoid(x, y + 340, z + 98, 164, 150, 104)
  f = smoothMin(f, ellipsoid(sx - 70, y + 252, z + 100, 95, 58, 68), 40)
  f = smoothMin(f, ellipsoid(sx - 66, y + 300, z + 46, 75, 62, 44), 44)
  const shoulder = ellipsoid(x - 176, y + 252, z + 96, 41, 46, 45)
  f = smoothMin(f, waist(x, y, z), 40)
  const arm = smoothMin(capsule(x, y, z, ...data.UPPER_ARM), capsule(x, y, z, ...data.FOREARM), 20)
  // Grown together at the shoulder, apart below the armpit.
  return smoothMin(f, smoothMin(shoulder, arm, 25), mix(44, 8, smoothStep(-290, -390, y)))
}

/** From under the chest down. */
function waist(x: number, y: number, z: number): number {
  // Higher up it is too far off to be joined to anything.
  if (y > -240) return 1e3
  const depth = waistDepth(y)
  const f = (Math.hypot(x / waistBreadth(y), (z + 96) / depth) - 1) * depth * 0.95
  return smoothMax(f, y + 335, 50)
}

/** Neck, shoulders, trunk and arms, uncut below. x ≥ 0. */
export function torso(x: number, y: number, z: number): number {
  // What follows ends above.
  if (y < -320) return chest(x, y, z)
  let f = smoothMin(column(x, y, z), capsule(x, y, z, ...data.LARYNX), 16)
  f = smoothMin(f, capsule(x, y, z, ...data.STERNOMASTOID), 16)
  f = smoothMin(f, capsule(x, y, z, ...data.TRAPEZIUS_NECK), 24)
  f = smoothMin(f, capsule(x, y, z, ...data.TRAPEZIUS_SHOULDER), 36)
  f = smoothMin(f, chest(x, y, z), 42)
  return smoothMin(f, clavicle(x, y, z) + 1, 22) + sternalNotch(x, y, z)
}
