import type { CurvePoint } from '../curves'

/** Ear, in its own frame [u up the ear, v back along it, w outward], millimetres. The frame stands at the tragus. */
export const EAR_ORIGIN = [68.4, -18, -74] as const
export const TILT_RAD = 0.26
export const FLARE_RAD = 0.42
/** The tables below were laid out 10 % too broad (40 mm; the mean of men is 36.1, of women 33.2): v is scaled by this. */
export const BREADTH_SCALE = 0.9
/** Of the whole ear: its length is then that of the mean of women and men. */
export const SCALE = 0.95
/** The lobe lies so much closer to the head at its lower end than the ear's plane. */
export const LOBE_TURNS_IN = 5
export const HELIX: readonly CurvePoint[] = [
  [2, 12.5, -7, 1.6],
  [4.6, 7.5, -4.2, 2.4],
  [8, 2.6, -0.2, 2.2],
  [14, -2, 2.6, 2.1],
  [24, -0.5, 4.2, 2.3],
  [33, 5, 5, 2.5],
  [38.5, 14, 5, 2.6],
  [38, 24, 4.6, 2.6],
  [32, 31, 4.4, 2.5],
  [22, 33.8, 4.4, 2.4],
  [10, 32.4, 4.2, 2.3],
  [-2, 27.6, 3.6, 2.2],
  [-10, 21.5, 2.8, 2.1],
  [-16, 15, 2, 1.8],
]
export const ANTIHELIX: readonly CurvePoint[] = [
  [-8, 14, 1.4, 2],
  [-4, 20.5, 2.6, 2.2],
  [6, 24.5, 3.4, 2.4],
  [16, 23, 3.4, 2.4],
  [25, 18, 2.6, 2.2],
  [34, 15.5, 1.2, 1.8],
]
export const ANTIHELIX_FORK: readonly CurvePoint[] = [
  [19, 21, 2.4, 2],
  [21.5, 14, 1.6, 2],
  [22, 7, 0.4, 1.6],
]
export const SCAPHA: readonly CurvePoint[] = [
  [33, 18, 4.8, 1.4],
  [32, 24.5, 5, 1.9],
  [24, 28.4, 5.2, 2.1],
  [14, 28.8, 5.2, 2],
  [3, 26, 4.8, 1.5],
]
