/**
 * Brows of single hairs, some 620 a side of 5 to 9 mm, combed as brows grow: up by the nose, along further out, towards the
 * middle line from both edges (common knowledge, no source). Millimetres inside, x away from the midline.
 */
import { BROW_STROKE } from '../sculpt/data/paint'
import { mix, smoothStep } from '../sculpt/solids'
import { type Strand, type StrandPoint, spread } from './binding'

const MM = 1e-3
const POINTS = 3
const COUNT = 620
const HALF_WIDTH = 0.054

/** Place, half width and direction of the brow's middle line, t from 0 by the nose to 1. */
function strokeAt(t: number) {
  const last = BROW_STROKE.length - 1
  const i = Math.min(last - 1, Math.floor(t * last))
  const [from, to] = [BROW_STROKE[i], BROW_STROKE[i + 1]]
  const f = t * last - i
  const size = Math.hypot(to[0] - from[0], to[1] - from[1])
  return {
    x: mix(from[0], to[0], f),
    y: mix(from[1], to[1], f),
    half: mix(from[2], to[2], f),
    along: [(to[0] - from[0]) / size, (to[1] - from[1]) / size] as const,
  }
}

/** side: 1 the sitter's left, −1 the right; other hairs on either, as on a person. */
export function brow(side: 1 | -1): readonly Strand[] {
  return Array.from({ length: COUNT }, (_, i): Strand => {
    const chance = (k: number, low: number, high: number) => spread(500 + side, i * 8 + k, low, high)
    const u = (i + chance(0, 0, 1)) / COUNT
    // Sparser towards both ends, most by the nose.
    const t = 0.55 * u + 0.45 * (0.06 + 0.9 * smoothStep(-0.35, 1.25, u))
    const v = strewn(chance(1, -1, 1), chance(2, 0, 1), t)
    const { x, y, half, along } = strokeAt(t)
    const across = v * half * 0.92
    const root = { x: x - along[1] * across + chance(7, -0.7, 0.7), y: y + along[0] * across }
    const length = mix(5, 7.5, smoothStep(0, 0.4, t)) * mix(1, 0.6, smoothStep(0.7, 1, t)) * chance(3, 0.55, 1.15)
    // From the middle line's own direction: up by the nose, later towards it from both edges.
    const turn = mix(1.15, -0.05, smoothStep(0, 0.35, t)) - v * mix(0.15, 0.42, smoothStep(0.15, 0.5, t))
    const angle = Math.atan2(along[1], along[0]) + turn + chance(4, -1, 1) * mix(0.26, 0.15, smoothStep(0, 0.4, t))
    return {
      kind: 'brow',
      lid: null,
      points: hair(root, angle, length, chance(5, -0.07, 0.04), chance(6, 0.35, 1.1), side),
    }
  })
}

/** Place across the brow, from −1 to 1 and a little beyond: most about its middle, as its edges, and its ends all the more, thin out. */
function strewn(across: number, chance: number, t: number): number {
  const thinned = mix(1.15, 0.85, smoothStep(0, 0.25, t)) * mix(1, 1.2, smoothStep(0.75, 1, t))
  return across * thinned * mix(0.55, 1.05, chance ** 0.7)
}

function hair(
  root: { readonly x: number; readonly y: number },
  angle: number,
  length: number,
  bend: number,
  thick: number,
  side: 1 | -1,
): StrandPoint[] {
  let { x, y } = root
  return Array.from({ length: POINTS }, (_, k): StrandPoint => {
    const s = k / (POINTS - 1)
    if (k > 0) {
      const step = length / (POINTS - 1)
      const turned = angle + bend * k * 4
      x += step * Math.cos(turned)
      y += step * Math.sin(turned)
    }
    const liftM = (0.08 + 0.5 * Math.sin(Math.PI * Math.min(1, s * 0.85))) * MM
    return { x: side * x * MM, y: y * MM, liftM, halfWidthM: HALF_WIDTH * thick * (1 - 0.8 * s ** 1.6) * MM }
  })
}
