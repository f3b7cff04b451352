import type { Knot } from '../curves'

/** Hairline: [azimuth about the skull's axis from the front in radians, height in mm]. Side: temple, sideburn, over the ear, nape. */
export const HAIRLINE: readonly Knot[] = [
  [0, 70],
  [0.2, 70.5],
  [0.38, 72.5],
  [0.52, 71],
  [0.66, 63],
  [0.78, 52],
  [0.88, 42],
  [0.98, 29],
  [1.06, 15],
  [1.14, 0],
  [1.21, -8],
  [1.28, -11],
  [1.35, -8],
  [1.4, 3],
  [1.45, 16],
  [1.52, 25],
  [1.62, 27.5],
  [1.85, 23],
  [2, 8],
  [2.15, -26],
  [2.4, -66],
  [2.75, -82],
  [Math.PI, -85],
]
/** Axis about which azimuth is taken. */
export const SKULL_AXIS_Z = -75
/** Strands run from the first pole over the crown to the second: [y, z]. */
export const FRONT_POLE = [22, 34] as const
export const NAPE_POLE = [-78, -140] as const
