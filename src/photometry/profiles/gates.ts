import type { Vec3 } from '../../space'
import { addScaled, dot, scale, subtract } from '../../space'
import type { Gate } from '../emission'
import { intensityPass, packIntensities } from '../intensityGrid'
import { overcastLuminance } from '../sky'
import { gaussLegendre } from './quadrature'
import { segmentHitsCap } from './segments'

export const OPEN: Gate = { kind: 'open' }
/** Farther than any canopy is from its lamp, and no farther: a segment's ends are pulled in by a share of its length. */
const FAR_M = 10

/** Share of the light that leaves a local point in a local unit direction and gets through, 0 to 1. */
export function gatePass(gate: Gate, point: Vec3, direction: Vec3): number {
  switch (gate.kind) {
    case 'open':
      return 1
    case 'honeycomb':
      return gate.wallLoss * roundCellPass(gate.depthOverWidth, direction)
    case 'cells':
      return squareCellPass(gate.depthOverWidth, direction)
    case 'opening':
      return crossesOpening(gate, point, direction) ? 1 : 0
    case 'combed-opening':
      return crossesOpening(gate, point, direction) ? gate.wallLoss * roundCellPass(gate.depthOverWidth, direction) : 0
    case 'window':
      return crossesWindow(gate, point, direction) ? 1 : 0
    case 'past-window':
      return crossesWindow(gate, point, direction) ? 0 : 1
    case 'past-cap':
      return segmentHitsCap(point, addScaled(point, direction, FAR_M), gate.cap) ? 0 : 1
    case 'lamp-behind': {
      if (direction[2] <= 0) return 0
      const [x, y] = addScaled(point, direction, (gate.zM - point[2]) / direction[2])
      return x * x + y * y <= gate.radiusM * gate.radiusM ? 1 : 0
    }
    case 'intensities':
      return intensityPass(gate.grid, gate.side, direction)
    case 'overcast':
      return direction[2] > 0 ? overcastLuminance(1, Math.asin(Math.min(1, direction[2]))) : 0
  }
}

/** Overlap of two equal circles shifted by x widths: T = (2/π)(acos x − x√(1−x²)), x = tanθ·depth/width. Black walls. */
function roundCellPass(depthOverWidth: number, [dx, dy, dz]: Vec3): number {
  if (dz <= 0) return 0
  const x = (Math.hypot(dx, dy) / dz) * depthOverWidth
  return x < 1 ? (2 / Math.PI) * (Math.acos(x) - x * Math.sqrt(1 - x * x)) : 0
}

/** Overlap of two equal squares: T = (1 − |tanθx|·l/c)(1 − |tanθy|·l/c). Black walls. */
function squareCellPass(depthOverWidth: number, [dx, dy, dz]: Vec3): number {
  if (dz <= 0) return 0
  const x = 1 - (Math.abs(dx) / dz) * depthOverWidth
  const y = 1 - (Math.abs(dy) / dz) * depthOverWidth
  return x > 0 && y > 0 ? x * y : 0
}

/**
 * Share of a matt cloth's light that square cells let through, before their own walls' loss: ∫T cosθ dω/π, with slopes as the
 * measure cosθ dω = (1 + tₓ² + t_y²)⁻² dtₓ dt_y.
 */
export function mattThroughCells(depthOverWidth: number): number {
  const rule = gaussLegendre(24)
  const widest = 1 / depthOverWidth
  let sum = 0
  for (const a of rule)
    for (const b of rule)
      sum += (a.weight * b.weight * (1 - a.x) * (1 - b.x)) / (1 + (a.x * widest) ** 2 + (b.x * widest) ** 2) ** 2
  return (4 * sum * widest * widest) / Math.PI
}

/** Share of a matt surface's light that a comb lets through, its walls' loss included: 2·∫T sinθ cosθ dθ, x the measure of T. */
export function mattThroughComb({ depthOverWidth: k, wallLoss }: { depthOverWidth: number; wallLoss: number }): number {
  const sum = gaussLegendre(32).reduce(
    (all, { x, weight }) => all + (weight * roundCellPass(k, [x / k, 0, 1]) * x) / (1 + (x / k) ** 2) ** 2,
    0,
  )
  return (2 * wallLoss * sum) / (k * k)
}

type Opening = Extract<Gate, { kind: 'opening' | 'combed-opening' }>

/** Asked thousands of times a reading: no arrays made. */
function crossesOpening({ zM, radiusM }: Opening, point: Vec3, direction: Vec3): boolean {
  if (direction[2] <= 0 || point[2] > zM) return false
  const way = (zM - point[2]) / direction[2]
  const x = point[0] + direction[0] * way
  const y = point[1] + direction[1] * way
  return x * x + y * y <= radiusM * radiusM
}

type Window = Extract<Gate, { kind: 'window' | 'past-window' }>

function crossesWindow({ zM, widthM, heightM }: Window, point: Vec3, direction: Vec3): boolean {
  const p = crossingAt(zM, point, direction)
  return p !== null && Math.abs(p[0]) <= widthM / 2 && Math.abs(p[1]) <= heightM / 2
}

function crossingAt(zM: number, point: Vec3, direction: Vec3): Vec3 | null {
  if (direction[2] <= 0 || point[2] > zM) return null
  return addScaled(point, direction, (zM - point[2]) / direction[2])
}

/**
 * How a way from a point has to do with the circle of a rim, as the shader reads it (circlePass in emission.glsl). normal:
 * unit, to the plane's other side, and height of the plane over the point, m; zero: no way crosses it. from: the point from
 * the circle's middle. radiusM: light passes that crosses within it; negative: that light is lost, all other passes.
 */
export interface CircleGate {
  readonly normal: Vec3
  readonly heightM: number
  readonly from: Vec3
  readonly radiusM: number
}

const NOWHERE: Vec3 = [0, 0, 0]
const ALL_PASSES: CircleGate = { normal: NOWHERE, heightM: 0, from: NOWHERE, radiusM: -1 }
const NONE_PASSES: CircleGate = { ...ALL_PASSES, radiusM: 1 }

/** Of a local point; a gate that has to do with no circle lets all through here and is asked by gatePass. */
export function packCircle(gate: Gate, point: Vec3): CircleGate {
  if (gate.kind === 'opening' || gate.kind === 'combed-opening') {
    const heightM = gate.zM - point[2]
    if (heightM < 0) return NONE_PASSES
    return { normal: [0, 0, 1], heightM, from: [point[0], point[1], -heightM], radiusM: gate.radiusM }
  }
  if (gate.kind !== 'past-cap') return ALL_PASSES
  // A cap is no more than half a sphere: from before its rim all that goes through the rim's circle hits it, from within all else.
  const { rimCentre, axis, diameterM } = gate.cap
  const from = subtract(point, rimCentre)
  const heightM = -dot(from, axis)
  return heightM >= 0
    ? { normal: axis, heightM, from, radiusM: -diameterM / 2 }
    : { normal: scale(axis, -1), heightM: -heightM, from, radiusM: diameterM / 2 }
}

const KINDS = [
  'open',
  'honeycomb',
  'cells',
  'opening',
  'window',
  'past-cap',
  'past-window',
  'lamp-behind',
  'intensities',
  'overcast',
] as const
type Four = readonly [number, number, number, number]

/** The gate as the shader reads it (gatePass in emission.glsl), where packCircle doesn't: a number for the kind, and two vec4. */
export function packGate(gate: Gate): { readonly kind: number; readonly a: Four; readonly b: Four } {
  // Of a combed opening the circle's part is packCircle's.
  const kind = KINDS.indexOf(gate.kind === 'combed-opening' ? 'honeycomb' : gate.kind)
  const none: Four = [0, 0, 0, 0]
  switch (gate.kind) {
    case 'open':
    case 'opening':
    case 'past-cap':
    case 'overcast':
      return { kind, a: none, b: none }
    case 'honeycomb':
    case 'combed-opening':
      return { kind, a: [gate.depthOverWidth, gate.wallLoss, 0, 0], b: none }
    case 'cells':
      return { kind, a: [gate.depthOverWidth, 0, 0, 0], b: none }
    case 'lamp-behind':
      return { kind, a: [gate.zM, gate.radiusM, 0, 0], b: none }
    case 'window':
    case 'past-window':
      return { kind, a: [gate.zM, gate.widthM, gate.heightM, 0], b: none }
    case 'intensities':
      return { kind, ...packIntensities(gate.grid, gate.side) }
  }
}
