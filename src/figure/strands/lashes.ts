/**
 * Lashes of both lids, the line in which the upper ones root, and the wet edge where the ball meets the lower lid. Counts
 * and lengths as anatomy texts have them (from memory): above some 100 to 150 of 8 to 12 mm, below 70 to 80 of 6 to 8 mm, a
 * tenth of a millimetre thick; drawn shorter, as they point at the lens. Millimetres inside, from the ball's centre, x away
 * from the nose.
 */
import type { Vec3 } from '../../space'
import { BALL_RADIUS, EYE_X } from '../sculpt/data/eye'
import { lidMargins } from '../sculpt/eye'
import { mix, smoothStep } from '../sculpt/solids'
import { type Strand, type StrandPoint, spread } from './binding'

const MM = 1e-3
const POINTS = 7
/** Ends of the rows, x. */
const ROW = { from: -12.2, to: 12.9 } as const

interface Row {
  readonly lid: 'upper' | 'lower'
  readonly count: number
  /** Shortest (by the nose) and longest (two thirds of the way out). */
  readonly length: readonly [number, number]
  readonly halfWidth: number
  /** Roots lie so far off the margin, from and to. */
  readonly off: readonly [number, number]
  /** Start, and pull along the way: up, and forward against the ball's own slope. */
  readonly rise: number
  readonly curl: number
  /** By how much starts differ in their rise: all alike they are one spike in profile. */
  readonly fan: number
}

const UPPER: Row = {
  lid: 'upper',
  count: 110,
  length: [4.4, 7.6],
  halfWidth: 0.05,
  off: [0.2, 0.75],
  rise: -0.12,
  curl: 0.78,
  fan: 0.22,
}
const LOWER: Row = {
  lid: 'lower',
  count: 70,
  length: [2.1, 3.9],
  halfWidth: 0.033,
  off: [-0.55, -0.9],
  rise: -0.15,
  curl: -0.3,
  fan: 0.2,
}

/** side: 1 the sitter's left, −1 the right. */
export function lashes(side: 1 | -1): readonly Strand[] {
  return [...row(UPPER, side), ...row(LOWER, side), lashLine(side), wetEdge(side)]
}

function row(kind: Row, side: 1 | -1): readonly Strand[] {
  const stream = (kind.lid === 'upper' ? 300 : 400) + side
  const xs = Array.from({ length: kind.count }, (_, i) => {
    const t = Math.min(1, Math.max(0, (i + 0.5 + spread(stream, i * 8, -0.9, 0.9)) / kind.count))
    return mix(ROW.from, ROW.to, t)
  })
  const tufts = tuftsOf(xs, stream)
  return xs.map((x, i): Strand => {
    const chance = (k: number, low: number, high: number) => spread(stream, i * 8 + k, low, high)
    const t = (x - ROW.from) / (ROW.to - ROW.from)
    const y = lidMargins(x)[kind.lid] + chance(1, ...kind.off)
    const long = mix(kind.length[0], kind.length[1], smoothStep(-0.1, 0.6, t)) * mix(1, 0.8, smoothStep(0.85, 1, t))
    // One in four has not long grown.
    const length = long * (chance(6, 0, 1) < 0.25 ? chance(2, 0.45, 0.75) : chance(2, 0.78, 1.05))
    const { middle, lean, curl } = tufts[i]
    const aside = lean + (0.95 * (middle - x)) / length + chance(3, -0.08, 0.08)
    const start = startOf(x, y, kind.rise + chance(4, -kind.fan, kind.fan), aside)
    const bend = kind.curl * curl * chance(5, 0.9, 1.1)
    return { kind: 'lash', lid: kind.lid, points: hair({ x, y }, start, length, bend, kind.halfWidth, side) }
  })
}

interface Tuft {
  /** To which its tips draw together. */
  readonly middle: number
  readonly lean: number
  readonly curl: number
}

/** Of each lash its tuft: two to five neighbours. */
function tuftsOf(xs: readonly number[], stream: number): readonly Tuft[] {
  const tufts: Tuft[] = []
  for (let n = 0; tufts.length < xs.length; n++) {
    const size = Math.floor(spread(stream + 50, n * 4, 2, 6))
    const own = xs.slice(tufts.length, tufts.length + size)
    const middle = own.reduce((sum, x) => sum + x, 0) / own.length
    const tuft = {
      middle,
      lean: spread(stream + 50, n * 4 + 1, -0.12, 0.12),
      curl: spread(stream + 50, n * 4 + 2, 0.55, 1.25),
    }
    tufts.push(...own.map(() => tuft))
  }
  return tufts
}

/** Unit: out of the ball, fanned to both corners. */
function startOf(x: number, y: number, rise: number, lean: number): Vec3 {
  const forward = Math.sqrt(Math.max(20, BALL_RADIUS ** 2 - x * x - y * y)) / BALL_RADIUS
  const d: Vec3 = [(0.9 * x) / BALL_RADIUS + lean, (0.3 * y) / BALL_RADIUS + rise, forward]
  const size = Math.hypot(...d)
  return [d[0] / size, d[1] / size, d[2] / size]
}

interface Root {
  readonly x: number
  readonly y: number
}

function hair(root: Root, start: Vec3, length: number, curl: number, halfWidth: number, side: 1 | -1): StrandPoint[] {
  return Array.from({ length: POINTS }, (_, k): StrandPoint => {
    const s = k / (POINTS - 1)
    const bend = curl * s * s * 0.62
    const out = 1 - 0.28 * Math.abs(curl) * s * s
    const at: Vec3 = [start[0] * s, start[1] * s + bend, start[2] * s * out]
    return {
      ...onSkin(root, side),
      offset: [side * at[0] * length * MM, at[1] * length * MM, at[2] * length * MM],
      halfWidthM: halfWidth * (1 - 0.9 * s ** 1.2) * MM,
    }
  })
}

const onSkin = ({ x, y }: Root, side: 1 | -1) => ({ x: side * (EYE_X + x) * MM, y: y * MM })

const LINE_POINTS = 45
/** Points along a lid's margin, off it by so much, narrowing to both ends. */
function along(
  lid: 'upper' | 'lower',
  off: number,
  halfWidth: number,
  side: 1 | -1,
  liftM: number,
  range: readonly [number, number],
): StrandPoint[] {
  return Array.from({ length: LINE_POINTS }, (_, k): StrandPoint => {
    const t = k / (LINE_POINTS - 1)
    const x = mix(range[0], range[1], t)
    const ends = Math.min(1, 8 * t, 8 * (1 - t))
    return {
      ...onSkin({ x, y: lidMargins(x)[lid] + off }, side),
      liftM,
      halfWidthM: halfWidth * mix(0.3, 1, ends) * MM,
    }
  })
}

const lashLine = (side: 1 | -1): Strand => ({
  kind: 'lashLine',
  lid: 'upper',
  points: along('upper', 0.12, 0.2, side, 0.1 * MM, [-13.2, 13.1]),
})

const wetEdge = (side: 1 | -1): Strand => ({
  kind: 'tear',
  lid: 'lower',
  points: along('lower', -0.1, 0.06, side, 0.12 * MM, [-11.8, 12.6]),
})
