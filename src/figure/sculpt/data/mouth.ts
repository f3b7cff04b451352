import type { CurvePoint, Knot } from '../curves'

/** Mouth. Millimetres; knots by distance from the midline, on past the corner, or its slope breaks off there. The corner lifts by 0.8 for a rest face that is not sullen. */
export const MOUTH_LINE: readonly Knot[] = [
  [0, -67.9],
  [3, -67.5],
  [9, -66.6],
  [17, -66.7],
  [25.5, -67.6],
  [31, -68.7],
]
export const UPPER_BORDER: readonly Knot[] = [
  [0, -60.6],
  [2.5, -60],
  [5.6, -58.9],
  [9, -59.5],
  [15, -61.5],
  [21, -64.3],
  [25.5, -67.2],
  [31, -68.7],
]
export const LOWER_BORDER: readonly Knot[] = [
  [0, -77.4],
  [6, -77.2],
  [12, -75.8],
  [18, -73.1],
  [22, -70.6],
  [25.5, -68],
  [31, -68.7],
]
export const DEPTH_Z: readonly Knot[] = [
  [0, 25.4],
  [8, 24.7],
  [14, 22.5],
  [20, 19],
  [25.5, 15.2],
  [31, 10.8],
]
export const UPPER_BULGE: readonly Knot[] = [
  [0, 3.8],
  [5, 3.6],
  [12, 3],
  [20, 1.4],
  [25.5, -0.6],
  [31, -2.4],
]
export const LOWER_BULGE: readonly Knot[] = [
  [0, 3.2],
  [7, 3.4],
  [14, 2.5],
  [20, 1.2],
  [25.5, -1.1],
  [31, -2.9],
]
export const PHILTRUM_RIDGE: readonly CurvePoint[] = [
  [5.4, -57.8, 27.6, 1],
  [4.6, -53, 26.8, 1],
  [3.8, -48.5, 25.8, 0.3],
]
export const PHILTRUM_GROOVE: readonly CurvePoint[] = [
  [0, -59, 29, 0.9],
  [0, -55, 28, 1],
  [0, -51, 27, 0.2],
]
export const NASOLABIAL_FOLD: readonly CurvePoint[] = [
  [19.5, -38, 18.4, 0.4],
  [22.5, -44, 18, 1],
  [26.5, -52, 17, 1],
  [30, -60, 14.5, 0.7],
  [32, -67, 12, 0.2],
]
/** The cheek's own fullness, under the cheekbone: without it cheekbone and jaw are joined by a plane with an edge above. */
export const CHEEK: readonly CurvePoint[] = [
  [33, -46, 13, 0.4],
  [41, -47, 6, 0.8],
  [51, -48, -10, 1],
  [58, -48, -28, 1],
  [62, -48, -48, 0.5],
  [63.5, -48, -62, 0],
]
export const CORNER: readonly CurvePoint[] = [
  [24.5, -67.5, 16, 1],
  [27.6, -68.6, 14.4, 0.7],
  [31, -71.2, 12.6, 0],
]
