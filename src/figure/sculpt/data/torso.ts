import type { CurvePoint } from '../curves'
import type { Ball } from '../solids'

/** Neck and torso. Millimetres. */
export const LARYNX: readonly [Ball, Ball] = [
  [0, -147, -43, 7.5],
  [0, -165, -46, 7.5],
]
export const STERNOMASTOID: readonly [Ball, Ball] = [
  [50.5, -46, -96, 7.5],
  [14, -192, -46, 6.5],
]
export const TRAPEZIUS_NECK: readonly [Ball, Ball] = [
  [22, -85, -115, 9],
  [50, -162, -120, 15],
]
export const TRAPEZIUS_SHOULDER: readonly [Ball, Ball] = [
  [44, -163, -118, 17],
  [170, -216, -98, 13],
]
export const UPPER_ARM: readonly [Ball, Ball] = [
  [180, -255, -96, 43],
  [196, -420, -98, 40],
]
export const FOREARM: readonly [Ball, Ball] = [
  [196, -420, -98, 40],
  [206, -750, -80, 31],
]
/** The trunk below the chest, which narrows to the waist: height with half-breadth and half-depth. */
export const WAIST: readonly (readonly [number, number, number])[] = [
  [-330, 138, 88],
  [-430, 133, 96],
  [-520, 120, 92],
  [-740, 140, 102],
]
export const CLAVICLE: readonly CurvePoint[] = [
  [14, -205, -38, 6],
  [50, -203, -34, 6],
  [95, -200, -50, 5.5],
  [140, -202, -76, 5.5],
  [168, -208, -90, 6],
]
export const STERNAL_NOTCH: readonly CurvePoint[] = [
  [0, -196, -42, 1],
  [0, -204, -36, 1],
]
/** Cut plane of the body: low enough that a picture of head and shoulders from above does not come to it. */
export const BOTTOM_Y = -690
