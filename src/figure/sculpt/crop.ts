/**
 * How short hair lies: out of a whorl at the crown, forward over the top and to one side, down at the sides and the nape, in locks
 * whose tips lie over the roots of the next. Millimetres.
 */
import * as data from './data/hair'
import { valueNoise } from './noise'
import { clamp01, ease, mix, smoothStep } from './solids'

/** Angle of the strands about an axis, radians; distance along them from root to tip, mm. */
export type Strand = readonly [number, number]

const [DX, DY, DZ] = data.WHORL
const [CX, CY, CZ] = data.WHORL_CENTRE
/** Square to the whorl's axis, forward over the head. */
const FORWARD = ((): readonly [number, number, number] => {
  const size = Math.hypot(DY, DZ)
  return [0, -DZ / size, DY / size]
})()
const ASIDE = [
  FORWARD[1] * DZ - FORWARD[2] * DY,
  FORWARD[2] * DX - FORWARD[0] * DZ,
  FORWARD[0] * DY - FORWARD[1] * DX,
] as const

/** Radius of the head about which distances along the strands are taken. */
const ROUND = 100

/**
 * The strand through a place: its angle about the whorl, 0 where it runs forward and ±π down the back, where the two sides meet; and
 * how far it has come. What the waves turn it by is less than the angle grows across, or strands would run in whorls.
 */
export function strandCoordinates(px: number, py: number, pz: number): Strand {
  const [x, y, z] = [px - CX, py - CY, pz - CZ]
  const size = Math.hypot(x, y, z) || 1
  const along = ROUND * Math.acos(Math.min(1, Math.max(-1, (x * DX + y * DY + z * DZ) / size)))
  const forward = (x * FORWARD[0] + y * FORWARD[1] + z * FORWARD[2]) / size
  const aside = (x * ASIDE[0] + y * ASIDE[1] + z * ASIDE[2]) / size
  const swirl = data.SWIRL * Math.exp(-along / 32)
  const swept = data.SWEPT_RAD * ease(45, 165, along) * smoothStep(-0.1, 0.75, forward)
  const wave = (valueNoise(along * 0.026 + 9, px * 0.011 + 5, py * 0.011) - 0.5) * 0.17
  const turn = Math.atan2(aside, forward)
  return [turn + swirl - swept + wave * smoothStep(10, 50, along), along]
}

/** Noise of the strand: so many cells a radian round the whorl and a millimetre along. It closes where the two sides meet. */
const around = ([angle, along]: Strand, cells: number, length: number, seed: number): number =>
  valueNoise(Math.cos(angle) * cells + 60 + seed, Math.sin(angle) * cells + 60, along / length + seed)

/**
 * Height of the locks, about −1 to 1. Each rises to its tip and falls off there to the next; where tips lie goes by noise, so that they
 * lie in no row.
 */
export function cropLocks(strand: Strand): number {
  const [, along] = strand
  const layer = along / 34 + 2.2 * around(strand, 5.5, 75, 3)
  const at = layer - Math.floor(layer)
  const tip = at * (1 - smoothStep(0.72, 1, at))
  const tuft = around(strand, 6.5, 34, 11) + 0.6 * around(strand, 13, 26, 17) - 0.8
  // At the whorl all angles meet.
  return smoothStep(6, 34, along) * (1.15 * (tip - 0.33) + 1.6 * tuft)
}

/** How far the tips of locks reach beyond the hairline or fall short of it, from −1 to 1. */
export const fringe = (strand: Strand): number => 2 * clamp01(1.3 * around(strand, 11, 400, 23) - 0.15) - 1

/** Streaks of tone, and what locks hide from the light between them; from 0.46 to 0.9. */
export function cropTone(strand: Strand): number {
  const streak = 0.6 * around(strand, 16, 40, 5) + 0.4 * around(strand, 34, 30, 7)
  return (0.64 + 0.255 * streak) * mix(0.72, 1, smoothStep(-1.1, 0.5, cropLocks(strand)))
}
