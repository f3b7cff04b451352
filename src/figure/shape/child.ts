/**
 * A child's proportions: a large cranium over a small face, a round forehead, full cheeks, a small chin, a short thin neck and
 * narrow shoulders. Amount 1 is a child of seven. Millimetres; the lengths that a shape names are corrected afterwards.
 */
import { spline } from '../sculpt/curves'
import { mix } from '../sculpt/solids'
import { type Displacement, rise } from './displace'
import { type Stroke, strokes } from './strokes'

/**
 * How far a height rises: face, neck and trunk shrink towards the eye line by their own shares.
 */
const fall = spline([
  [-760, 150],
  [-420, 77],
  [-320, 60],
  [-250, 51],
  [-200, 48.5],
  [-150, 30],
  [-110, 17],
  [-60, 9.3],
  [0, 0],
  [30, -2.9],
  [60, -4.5],
  [100, -7.4],
  [160, -12],
])

/** Share of the breadth that is not there yet: little at the cranium, more in the face and the jaw, most in the trunk. */
function narrowing(y: number, z: number): number {
  const face = mix(0.05, 0.12, rise(-105, -45, z) * rise(58, 6, y))
  const jaw = mix(face, 0.155, rise(-18, -70, y))
  const neck = mix(jaw, 0.28, rise(-95, -150, y))
  return mix(neck, 0.3, rise(-160, -220, y))
}

/** Depth shrinks towards a plane before the ears for the head, and towards the axis of the trunk below. */
function shallowing(y: number, z: number): number {
  const face = -0.14 * (z + 20) * rise(-40, 10, z)
  const back = -0.05 * (z + 40) * rise(-10, -90, z)
  const head = face * rise(64, 20, y) + back
  const neck = -0.27 * (z + 62)
  return mix(head, neck, rise(-88, -170, y))
}

const SHAPE: readonly Stroke[] = [
  { at: [0, 58, 14], size: [40, 26, 34], move: [0, 0, 3] },
  { at: [28, 58, 2], size: [24, 26, 30], move: [1, 0, 1.2] },
  // The brow ridge has not grown.
  { at: [22, 22, 20], size: [18, 10, 16], move: [0, 0, -1.4] },
  { at: [42, -48, 2], size: [26, 32, 34], move: [3.4, 0, 2.2] },
  { at: [17, -102, 12], size: [13, 14, 18], move: [-1.6, 0.6, 0] },
  { at: [0, -101, 18], size: [22, 14, 20], move: [0, 0, -2] },
  { at: [0, -37, 36], size: [12, 9, 14], move: [0, 1.8, 0] },
  { at: [0, -137, -36], size: [14, 18, 22], move: [0, 0, -2.5] },
  { at: [86, -180, -112], size: [44, 36, 46], move: [0, -7, 0] },
  // Shoulders that slope.
  { at: [176, -212, -96], size: [80, 60, 80], move: [0, -20, 0] },
]
const pushes = strokes(SHAPE)

export const child: Displacement = (x, y, z, amount, out) => {
  out[0] -= amount * x * narrowing(y, z)
  out[1] += amount * fall(y)
  out[2] += amount * shallowing(y, z)
  pushes(x, y, z, amount, out)
}
