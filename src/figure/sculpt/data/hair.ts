import type { Knot } from '../curves'

/** Hairline: [azimuth about the skull's axis from the front in radians, height in mm]. Side: temple, sideburn, over the ear, nape. */
export const HAIRLINE: readonly Knot[] = [
  [0, 67.5],
  [0.12, 68.5],
  [0.26, 71.5],
  [0.4, 73.5],
  [0.52, 72],
  [0.64, 65],
  [0.76, 55],
  [0.88, 44],
  [0.98, 34],
  [1.08, 23],
  [1.16, 11],
  [1.22, -1],
  [1.28, -11],
  [1.34, -15],
  [1.4, -12],
  [1.45, 3],
  [1.49, 16],
  [1.54, 24],
  [1.62, 26],
  [1.85, 20],
  [2, 8],
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
