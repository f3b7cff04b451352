import type { CurvePoint, Knot } from '../curves'
import type { Ball } from '../solids'

/** Nose. Millimetres; [y, value] knots along the dorsum. */
export const DORSUM_Z: readonly Knot[] = [
  [-60, 51],
  [-40, 41.6],
  [-36, 39.9],
  [-31, 37.4],
  [-24, 33.6],
  [-16, 29.4],
  [-8, 25.2],
  [0, 21.4],
  [5, 20.1],
  [10, 20.8],
  [15, 23],
  [24, 29],
]
export const SIDE_SLOPE: readonly Knot[] = [
  [-60, 2.6],
  [-38, 1.75],
  [-28, 1.62],
  [-16, 1.36],
  [-6, 1.22],
  [2, 1.12],
  [10, 0.8],
  [15, 0.5],
  [24, 0.3],
]
export const RIDGE_ROUNDNESS: readonly Knot[] = [
  [-60, 14],
  [-38, 11],
  [-28, 9],
  [-21, 8.5],
  [-16, 6.6],
  [-11, 6],
  [-6, 6.2],
  [0, 7.5],
  [5, 8],
  [10, 6.5],
  [15, 5],
  [24, 4],
]
export const COLUMELLA: readonly [Ball, Ball] = [
  [0, -43.6, 26.6, 3.1],
  [0, -40.9, 34.4, 3],
]
export const ALAR_CREASE: readonly CurvePoint[] = [
  [17.2, -45, 17.2, 0.3],
  [18.8, -41, 17, 0.8],
  [18.4, -37, 18, 0.9],
  [15.8, -32.8, 22, 1],
  [12.2, -30.6, 27, 0.5],
  [9.5, -32, 32, 0],
]
/** What fills the hollow between the nose's side and the cheek, so that seen from the side neither ends at an edge. */
export const BESIDE_NOSE: readonly CurvePoint[] = [
  [17, -5, 11, 0.2],
  [18.5, -10, 11.5, 0.9],
  [20, -18, 13, 1],
  [21.5, -27, 15, 0.8],
  [23, -36, 16, 0.1],
]
export const NOSTRIL_CANAL: readonly [Ball, Ball] = [
  [8.2, -46.4, 22.6, 2.4],
  [5.2, -44.6, 30.2, 1.4],
]
/** The rim of the wing rises in an arch over the columella: so much of a nostril shows from the side. */
export const NOSTRIL_ARCH: readonly [Ball, Ball] = [
  [11, -46.4, 24.6, 2.1],
  [8.6, -44.6, 30.8, 2.6],
]
export const NOSTRIL_DEPTH: readonly [Ball, Ball] = [
  [8, -44, 25, 2.6],
  [6, -34, 25, 2],
]
