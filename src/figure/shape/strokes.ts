/** Soft pushes at places of the face: what sets women from men beyond lengths. Millimetres; drawn by hand, no source. */
import { type Displacement, rise } from './displace'

export interface Stroke {
  readonly at: readonly [number, number, number]
  readonly size: readonly [number, number, number]
  readonly move: readonly [number, number, number]
}

/** 1 at 0, close to e^−q, 0 from q = 4 on: far cheaper than an exponential. */
function push(q: number): number {
  if (q >= 4) return 0
  const t = 1 - q / 4
  return t * t * t * t
}

/** Pairs to both sides of the midline: each stroke off it acts on the other half too, or the midline would crease. */
export function strokes(list: readonly Stroke[]): Displacement {
  const flat = Float64Array.from(list.flatMap(({ at, size, move }) => [...at, ...size, ...move]))
  return (x, y, z, amount, out) => {
    for (let i = 0; i < flat.length; i += 9) {
      const b = (y - flat[i + 1]) / flat[i + 4]
      const c = (z - flat[i + 2]) / flat[i + 5]
      const q = b * b + c * c
      if (q >= 4) continue
      const near = (x - flat[i]) / flat[i + 3]
      const far = (x + flat[i]) / flat[i + 3]
      const own = amount * push(q + near * near)
      const other = flat[i] === 0 ? 0 : amount * push(q + far * far)
      out[0] += (own - other) * flat[i + 6]
      out[1] += (own + other) * flat[i + 7]
      out[2] += (own + other) * flat[i + 8]
    }
  }
}

/** Towards masculine at 1, towards feminine at −1. */
const MASCULINE: readonly Stroke[] = [
  // Brow ridge, nearer the eye, and a forehead that leans back over it.
  { at: [21, 21, 22], size: [17, 9, 16], move: [0, -1.3, 1.5] },
  { at: [0, 24, 26], size: [13, 9, 16], move: [0, 0, 0.8] },
  { at: [0, 66, 14], size: [46, 26, 40], move: [0, 0, -2.6] },
  // Cheeks flatter, cheekbones less full in front.
  { at: [38, -28, 12], size: [17, 17, 20], move: [-0.3, 0, -1.3] },
  // A broader, higher and squarer chin.
  { at: [17, -102, 12], size: [13, 14, 18], move: [1.7, -0.8, 0.6] },
  { at: [0, -101, 20], size: [18, 13, 18], move: [0, 0, 1.3] },
  // Wings of the nose and its ridge broader, the tip lower.
  { at: [15, -39, 24], size: [8, 11, 14], move: [1, 0, 0] },
  { at: [6, -12, 24], size: [6, 16, 14], move: [0.5, 0, 0] },
  { at: [0, -36, 36], size: [13, 10, 14], move: [0, -0.9, 0] },
  // Larynx; trapezius.
  { at: [0, -137, -36], size: [13, 17, 22], move: [0, 0, 2.6] },
  { at: [86, -180, -112], size: [44, 36, 46], move: [0, 8, 0] },
]
const pushes = strokes(MASCULINE)
/** How much longer the neck is, mm (ANSUR II: the neck pit lies 19 mm deeper under the vertex of men, with 5 mm of it in the head). */
const LONGER_NECK = 6

export const masculine: Displacement = (x, y, z, amount, out) => {
  pushes(x, y, z, amount, out)
  out[1] -= amount * LONGER_NECK * rise(-95, -185, y) * rise(-330, -240, y)
}
