import type { CurvePoint } from '../curves'

/** Eye and lids. Millimetres. The optics of the ball: Gullstrand-like radii, 12.0 sclera and 7.8 cornea. */
export const EYE_X = 31.5
export const BALL_RADIUS = 12
export const CORNEA_RADIUS = 7.8
export const CORNEA_CENTRE_Z = 5.35
/** From the axis, where the two spheres meet. */
export const CORNEA_EDGE = 5.85
/** Corners of the lid opening, relative to the ball's centre, [x, y]. */
export const INNER_CORNER = [-15.2, -1.3] as const
export const OUTER_CORNER = [13.6, 1] as const
/** Opening above and below the line between the corners, and the two exponents of each lid's curve t^a (1 − t)^b. */
export const UPPER_LID = { height: 4.7, a: 0.72, b: 0.8 } as const
export const LOWER_LID = { height: 5.05, a: 0.95, b: 0.66 } as const
export const LID_CREASE: readonly CurvePoint[] = [
  [14.8, 3.2, 10, 0],
  [18.5, 6.8, 11.6, 0.8],
  [24, 9, 12.6, 1],
  [31, 10, 12.6, 1],
  [38, 9.2, 11, 1],
  [43, 6.8, 8.2, 0.7],
  [47, 4, 4.6, 0],
]
export const BROW_FOLD: readonly CurvePoint[] = [
  [17, 9, 13, 1.2],
  [24, 12.6, 13.2, 2.6],
  [31, 13.6, 12.4, 3.2],
  [38, 12.6, 10.6, 3.2],
  [44, 10, 5.8, 2.6],
  [48.5, 6.2, -1.6, 0.6],
  [52, 2, -9, -2.4],
]
export const LOWER_ROLL: readonly CurvePoint[] = [
  [19, -7, 9.5, 0.3],
  [25, -9.2, 11, 1],
  [32, -10, 10.8, 1],
  [39, -8.6, 8.6, 0.8],
  [44, -5.5, 5.2, 0.2],
]
export const LOWER_CREASE: readonly CurvePoint[] = [
  [18, -4.8, 9.5, 0.2],
  [24, -7.4, 11.4, 0.8],
  [31, -8, 11.8, 1],
  [38, -7.2, 9.8, 0.8],
  [43.5, -4.4, 6, 0.2],
]
export const TEAR_TROUGH: readonly CurvePoint[] = [
  [15, -3, 10, 0.6],
  [17, -8, 12.4, 1],
  [21, -13, 14, 1],
  [27, -17, 14, 0.7],
  [34, -19, 13, 0.2],
]
