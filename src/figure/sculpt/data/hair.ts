import type { Knot } from '../curves'

/** Hairline: [azimuth about the skull's axis from the front in radians, height in mm]. Side: temple, sideburn, over the ear, nape. */
export const HAIRLINE: readonly Knot[] = [
  [0, 66.5],
  [0.12, 68],
  [0.26, 71.5],
  [0.4, 75],
  [0.52, 74.5],
  [0.64, 67],
  [0.76, 55],
  [0.88, 43],
  [0.98, 31],
  [1.06, 20],
  [1.12, 12],
  [1.18, 6.5],
  [1.26, 4],
  [1.34, 6],
  [1.4, 12],
  [1.45, 20],
  [1.52, 26],
  [1.62, 28],
  [1.85, 23],
  [2, 8],
  [2.15, -20],
  [2.4, -48],
  [2.75, -72],
  [Math.PI, -84],
]
/** Axis about which azimuth is taken. */
export const SKULL_AXIS_Z = -75
/** Strands run from the first pole over the crown to the second: [y, z]. */
export const FRONT_POLE = [22, 34] as const
export const NAPE_POLE = [-78, -140] as const
