/**
 * A shape as a smooth displacement of space: the fields' displacements, with amplitudes solved so that the finished sitter
 * has the lengths that the shape names; the eyes and their lids move as one rigid piece, so lids keep lying on the ball.
 * Millimetres, head-local frame, the eyes' midpoint at the origin before and after.
 */
import { BALL_RADIUS, CORNEA_CENTRE_Z, CORNEA_RADIUS, EYE_X } from '../sculpt/data/eye'
import { solveLinear } from '../sculpt/linear'
import { smoothMax } from '../sculpt/solids'
import { child } from './child'
import * as by from './displace'
import { AVERAGE_SHAPE, checkShape, childhood, type FigureShape, ShapeError, type ShapeFieldName } from './fields'
import { MEASURES } from './measures'
import { masculine } from './strokes'

export type Point = readonly [number, number, number]

const SOLVED: readonly (readonly [Exclude<ShapeFieldName, 'masculinity' | 'ageYears'>, by.Displacement])[] = [
  ['headBreadthMm', by.breadth],
  ['headLengthMm', by.length],
  ['faceLengthMm', by.faceLength],
  ['eyeDepthMm', by.eyeDepth],
  ['noseBridgeMm', by.noseBridge],
  ['noseProtrusionMm', by.noseProtrusion],
  ['jawWidthMm', by.jawWidth],
  ['lipFullnessMm', by.lipFullness],
  ['shoulderBreadthMm', by.shoulderBreadth],
  ['neckGirthMm', by.neckGirth],
]
/** The piece that moves with the eye, half-axes. */
const LID_PIECE = [17.5, 13.5, 18] as const
/** Where the skin round it has taken up the difference: towards the nose, outwards, up, down, forward and back. */
const FREE_BEYOND = { nose: 31, temple: 42, up: 27, down: 44, depth: 40 } as const

/** Asked for at every vertex, where Math.hypot is slow. */
const length = (x: number, y: number, z: number): number => Math.sqrt(x * x + y * y + z * z)

/** How much a point, from the eye's centre, moves with the eye: 1 in the piece of the lids, 0 where the skin is free. */
function eyeShare(x: number, y: number, z: number): number {
  const far = FREE_BEYOND
  const outer = length(x / (x < 0 ? far.nose : far.temple), y / (y > 0 ? far.up : far.down), z / far.depth)
  if (outer >= 1) return 0
  const inner = length(x / LID_PIECE[0], y / LID_PIECE[1], z / LID_PIECE[2])
  return inner <= 1 ? 1 : by.rise(1, 0, (inner - 1) / (inner - outer))
}

/** The lid opening of a child of seven is smaller, of a woman a little larger for the ball (from memory). */
const CHILD_OPENING = -0.125
const FEMININE_OPENING = 0.03

/** From the ball's centre to its surface, at an angle from its axis: sclera, and the cornea that stands out of it. */
function ballRadius(angle: number): number {
  if (angle > 1) return BALL_RADIUS
  const beside = CORNEA_CENTRE_Z * Math.sin(angle)
  const cornea = CORNEA_CENTRE_Z * Math.cos(angle) + Math.sqrt(CORNEA_RADIUS ** 2 - beside ** 2)
  return smoothMax(BALL_RADIUS, cornea, 0.3)
}

/** Share of what sets men from women that a child of seven lacks (from memory). */
const NOT_YET_GROWN = 0.7

interface Amounts {
  /** One for each entry of SOLVED. */
  readonly solved: Float64Array
  readonly masculine: number
  /** 1 at seven years, 0 grown. */
  readonly child: number
}

export class Deformation {
  private readonly eye: Float64Array
  private readonly opening: number
  private readonly free = new Float64Array(3)

  constructor(private readonly amounts: Amounts) {
    this.opening = 1 + CHILD_OPENING * amounts.child - FEMININE_OPENING * amounts.masculine
    this.eye = new Float64Array(3)
    this.displaceFreely(EYE_X, 0, 0, this.eye)
  }

  /** Solves for the amplitudes. Throws ShapeError for a field outside its range. */
  static of(shape: FigureShape): Deformation {
    checkShape(shape)
    const child = childhood(shape.ageYears)
    const fixed = { child, masculine: shape.masculinity * (1 - NOT_YET_GROWN * child) }
    return new Deformation({ ...fixed, solved: solveAmplitudes(shape, fixed) })
  }

  /** Writes where a point of the first sitter goes. */
  move(x: number, y: number, z: number, out: Float64Array, at = 0): void {
    const ax = Math.abs(x)
    const { free, eye } = this
    this.displaceFreely(ax, y, z, free)
    const ex = ax - EYE_X
    const rigid = eyeShare(ex, y, z)
    let px = ax + free[0]
    let py = y + free[1]
    let pz = z + free[2]
    if (rigid > 0) {
      px += rigid * (eye[0] - free[0])
      py += rigid * (eye[1] - free[1])
      pz += rigid * (eye[2] - free[2])
      const lids = this.lidTurn(ex, y, z)
      px += rigid * (lids.across - 1) * ex
      py += rigid * (lids.across - 1) * y
      pz += rigid * lids.forward
    }
    // No displacement of the eyes' midpoint: the frame stands on it.
    out[at] = x < 0 ? -px : px
    out[at + 1] = py - eye[1]
    out[at + 2] = pz - eye[2]
  }

  moved([x, y, z]: Point): Point {
    const out = new Float64Array(3)
    this.move(x, y, z, out)
    return [out[0], out[1], out[2]]
  }

  /** How far the eyes' centres move outwards. */
  get eyeShift(): number {
    return this.eye[0]
  }

  /** Opens or closes the lids by sliding them over the ball, cornea included: heights above it stay. */
  private lidTurn(ex: number, y: number, z: number) {
    const across = Math.hypot(ex, y)
    if (this.opening === 1 || across < 1e-9) return { across: 1, forward: 0 }
    const angle = Math.atan2(across, z)
    const turned = angle * (1 + (this.opening - 1) * by.rise(2.6, 1.5, angle))
    const radius = Math.hypot(across, z) + ballRadius(turned) - ballRadius(angle)
    return { across: (radius * Math.sin(turned)) / across, forward: radius * Math.cos(turned) - z }
  }

  private displaceFreely(x: number, y: number, z: number, out: Float64Array): void {
    const { solved, masculine: towardsMan, child: towardsChild } = this.amounts
    out.fill(0)
    if (towardsChild !== 0) child(x, y, z, towardsChild, out)
    if (towardsMan !== 0) masculine(x, y, z, towardsMan, out)
    for (let i = 0; i < SOLVED.length; i++) if (solved[i] !== 0) SOLVED[i][1](x, y, z, solved[i], out)
  }
}

/** The lengths of a deformed sitter, in the order of SOLVED. */
function lengthsOf(deformation: Deformation): number[] {
  return SOLVED.map(([name]) => MEASURES[name]((p) => deformation.moved(p)))
}

const NEWTON_STEPS = 12
const CLOSE_MM = 1e-6

/** Newton's method: the lengths are almost linear in the amplitudes, so a few steps do. */
function solveAmplitudes(shape: FigureShape, fixed: Omit<Amounts, 'solved'>): Float64Array {
  const n = SOLVED.length
  const solved = new Float64Array(n)
  const rest = lengthsOf(new Deformation({ masculine: 0, child: 0, solved: new Float64Array(n) }))
  for (let step = 0; step < NEWTON_STEPS; step++) {
    const now = lengthsOf(new Deformation({ ...fixed, solved }))
    const miss = Float64Array.from(now, (v, i) => {
      const name = SOLVED[i][0]
      return shape[name] - AVERAGE_SHAPE[name] - (v - rest[i])
    })
    if (miss.every((v) => Math.abs(v) < CLOSE_MM)) return solved
    const change = solveLinear(slopes(fixed, solved, now), miss)
    for (let i = 0; i < n; i++) solved[i] += change[i]
  }
  throw new ShapeError(
    'lengths',
    'lengths that one head can have together',
    'none near',
    'start from one of the presets',
  )
}

function slopes(fixed: Omit<Amounts, 'solved'>, solved: Float64Array, now: readonly number[]): Float64Array {
  const n = SOLVED.length
  const matrix = new Float64Array(n * n)
  for (let j = 0; j < n; j++) {
    const nudge = SOLVED[j][0] === 'neckGirthMm' ? 1e-4 : 1e-2
    const nudged = solved.slice()
    nudged[j] += nudge
    lengthsOf(new Deformation({ ...fixed, solved: nudged })).forEach((v, i) => {
      matrix[i * n + j] = (v - now[i]) / nudge
    })
  }
  return matrix
}
