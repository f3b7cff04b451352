import { evenSpline, softBrush } from './curves'
import * as data from './data/mouth'
import { smoothMax, smoothMin, smoothStep } from './solids'

const HALF_WIDTH = 25.5
export const mouthLine = evenSpline(data.MOUTH_LINE)
export const upperBorder = evenSpline(data.UPPER_BORDER)
export const lowerBorder = evenSpline(data.LOWER_BORDER)
const depth = evenSpline(data.DEPTH_Z)
const upperBulge = evenSpline(data.UPPER_BULGE)
const lowerBulge = evenSpline(data.LOWER_BULGE)
const philtrumRidge = softBrush(data.PHILTRUM_RIDGE, -0.5, 2.3)
const philtrumGroove = softBrush(data.PHILTRUM_GROOVE, 0.5, 2.5)
const nasolabial = softBrush(data.NASOLABIAL_FOLD, 0.65, 4.2)
const corner = softBrush(data.CORNER, 0.5, 4.4)
const cheek = softBrush(data.CHEEK, -1.3, 15)
/** Where a lip has gone under the cheek, beyond the corner. */
const THINNEST = 0.3
/** Over what part of a lip before its corner it begins to go. */
const ROUND = 2.5
/** How deep the line between the lips is cut. */
const GROOVE = 0.8

/** How far past the corner, from 0 with no edge: a lip that ends at once leaves a tick. */
const pastCorner = (x: number): number => {
  const past = x - HALF_WIDTH + ROUND
  return past <= 0 ? 0 : past < 2 * ROUND ? (past * past) / (4 * ROUND) : past - ROUND
}

/** A lip: an elliptic tube along x whose section follows the border curves; closed beyond the corner. */
function lip(y: number, z: number, ry: number, rz: number, beyond: number): number {
  const a = y / ry
  const b = z / rz
  const q = Math.sqrt(a * a + b * b)
  const d = Math.sqrt((a / ry) ** 2 + (b / rz) ** 2)
  return (d < 1e-6 ? -Math.min(ry, rz) : (q * (q - 1)) / d) * 0.8 + beyond * 0.8
}

/** The face with lips, philtrum and the folds beside them. x ≥ 0. */
export function withMouth(face: number, x: number, y: number, z: number): number {
  let f = face + nasolabial(x, y, z) + cheek(x, y, z)
  if (x > 40 || y > -46 || y < -88 || z < 2) return f
  f += philtrumRidge(Math.sqrt(x * x + 1), y, z) + philtrumGroove(x, y, z) + corner(x, y, z)
  const [line, top, bottom, zMouth] = [mouthLine(x), upperBorder(x), lowerBorder(x), depth(x)]
  const beyond = pastCorner(x)
  // Past the corner lips go under the cheek.
  const sunk = 0.9 * beyond
  const upper = [
    (line + top) / 2 - 0.3,
    (top - line) / 2 + 0.7,
    zMouth - 1 - sunk,
    smoothMax(THINNEST, upperBulge(x) + 1, 1),
  ]
  const lower = [
    (line + bottom) / 2 + 0.1,
    (line - bottom) / 2 + 0.5,
    zMouth - 2.4 - sunk,
    smoothMax(THINNEST, lowerBulge(x) + 2, 1),
  ]
  f = smoothMin(f, lip(y - upper[0], z - upper[2], upper[1], upper[3], beyond), 2.8)
  f = smoothMin(f, lip(y - lower[0], z - lower[2], lower[1], lower[3], beyond), 2.5)
  const across = Math.exp(-((y - line) ** 2) / 0.8 - (beyond * beyond) / 3)
  return f + GROOVE * across * smoothStep(27, 17, x) * smoothStep(9, 2, Math.abs(z - zMouth))
}
