import type { Knot } from '../curves'

/** Hairline: [azimuth about the skull's axis from the front in radians, height in mm]. Side: temple, sideburn, over the ear, nape. */
export const HAIRLINE: readonly Knot[] = [
  [0, 67.5],
  [0.12, 68.5],
  [0.26, 70.5],
  [0.4, 71],
  [0.52, 67.5],
  [0.64, 60],
  [0.76, 51],
  [0.88, 41.5],
  [0.98, 32.5],
  [1.08, 23],
  [1.16, 11],
  [1.22, -1],
  [1.28, -11],
  [1.33, -15],
  [1.375, -12],
  [1.425, 3],
  [1.49, 16.5],
  [1.54, 23.5],
  [1.62, 24],
  [1.85, 18.5],
  [2, 7],
  [2.15, -20],
  [2.4, -48],
  [2.75, -72],
  [Math.PI, -84],
]
/** Axis about which azimuth is taken. */
export const SKULL_AXIS_Z = -75
/** The whorl from which short hair grows: the middle of the head and its direction from there, a little to the sitter's left. */
export const WHORL_CENTRE = [0, 15, -80] as const
export const WHORL = [0.1, 0.79, -0.605] as const
/** By how much strands turn about the whorl as they leave it, and to the side as they come forward, radians. */
export const SWIRL = 1.1
export const SWEPT_RAD = 0.34
