import { spline } from './curves'
import * as data from './data/hair'
import { valueNoise } from './noise'
import { clamp01, ease, type Field, mix, smoothStep } from './solids'

const hairline = spline(data.HAIRLINE)
/** Inner face of the shell, this deep under the skin, so that hair is a closed solid. */
export const ROOT_DEPTH = 6

/** The hairline as a run of straight pieces: azimuths evenly spaced, heights. */
const PIECES = 80
const heights = Float64Array.from({ length: PIECES + 1 }, (_, i) => hairline((i * Math.PI) / PIECES))

/** Millimetres inside the hairline, on the head unrolled about its axis; negative outside; without its raggedness. */
export function aboveHairline(x: number, y: number, z: number): number {
  const ax = Math.abs(x)
  const back = z - data.SKULL_AXIS_Z
  const azimuth = Math.atan2(ax, back)
  const width = (Math.max(30, Math.hypot(ax, back)) * Math.PI) / PIECES
  const at = (azimuth / Math.PI) * PIECES
  let nearest = Number.POSITIVE_INFINITY
  for (let i = 0; i < PIECES; i++) {
    const [across, up, rise] = [(at - i) * width, y - heights[i], heights[i + 1] - heights[i]]
    const t = clamp01((across * width + up * rise) / (width * width + rise * rise))
    const [dx, dy] = [across - t * width, up - t * rise]
    nearest = Math.min(nearest, dx * dx + dy * dy)
  }
  return Math.sign(y - hairline(azimuth)) * Math.sqrt(nearest)
}

/** How far the edge strays from the drawn line, mm; within ±RAGGED. */
const drift = (x: number, y: number, z: number): number => (valueNoise(x * 0.06 + 3, y * 0.06, z * 0.06) - 0.5) * 5
const RAGGED = 2.5
/** Farther outside the hairline the surface lies deep under the skin. */
export const OUTSIDE = -9 - RAGGED

/** 1 before the ear, where the sideburn thins out downwards, 0 elsewhere. */
export function sideburn(x: number, y: number, z: number): number {
  const azimuth = Math.atan2(Math.abs(x), z - data.SKULL_AXIS_Z)
  return (
    smoothStep(1.06, 1.2, azimuth) * smoothStep(1.56, 1.46, azimuth) * smoothStep(24, 4, y) * smoothStep(-50, -35, y)
  )
}

/** Over how many millimetres to either side of the hairline hair thins out: short at the forehead, long where it is cut to fade. */
export function fadeWidth(x: number, y: number, z: number): number {
  const nape = z < -80 ? smoothStep(-5, -55, y) : 0
  const overEar = smoothStep(-56, -70, z) * smoothStep(-118, -100, z) * smoothStep(14, 22, y)
  return mix(mix(mix(5.5, 10, sideburn(x, y, z)), 17, nape), 3, overEar)
}

/** How far hair has thinned out at a place of the skin: −1 none is left, 0 half, 1 as dense as inside; and on beyond both. */
export function growth(x: number, y: number, z: number): number {
  return insideHairline(x, y, z) / fadeWidth(x, y, z)
}

/** Millimetres inside the hairline, positive where hair grows. */
export const insideHairline = (x: number, y: number, z: number): number => aboveHairline(x, y, z) + drift(x, y, z)

/** Angle about the axis from forehead to nape; distance along it, mm. */
export type Strand = readonly [number, number]

/**
 * Angle of the strand through a point about the axis from forehead to nape, and how far along that axis it is. The wave
 * turns by a radian in 200 mm at most, less than the angle grows across the strands on a head: else they would run in whorls.
 */
export function strandCoordinates(x: number, y: number, z: number): Strand {
  const [y0, z0] = data.FRONT_POLE
  const dy = data.NAPE_POLE[0] - y0
  const dz = data.NAPE_POLE[1] - z0
  const size = Math.hypot(dy, dz)
  const along = ((y - y0) * dy + (z - z0) * dz) / size
  const up = (-(y - y0) * dz + (z - z0) * dy) / size
  const wave = (valueNoise(along * 0.016 + 9, x * 0.009 + 5, up * 0.009) - 0.5) * 0.15
  const swept = data.SWEPT * (ease(5, 105, along) - ease(105, 190, along))
  return [Math.atan2(x + swept, up) + wave + Math.sign(x) * fallen(y, z), along]
}

/** What turns strands from backwards to downwards where they grow before the ear, radians. */
const fallen = (y: number, z: number): number => 0.02 * (z + 74) * smoothStep(26, -2, y) * smoothStep(-88, -76, z)

/** Noise folded to 0 where it crosses its middle; the fold is rounded, or the mesh breaks it into beads. */
export const creased = (noise: number): number => ((2 * noise - 1) ** 2 + 0.04) ** 0.25

/** Locks: long along the strand, narrow across it; about −1 to 1. */
export function locks([angle, along]: Strand): number {
  const broad = creased(valueNoise(angle * 6 + 40, along * 0.011, 1.5))
  const narrow = creased(valueNoise(angle * 14 + 40, along * 0.014, 7.5))
  const fine = valueNoise(angle * 30 + 40, along * 0.016, 9.5)
  return 1.1 * broad + 0.9 * narrow + 0.5 * fine - 1.4
}

/** Full depth of hair over the skin: more on top and in front, close at the sides, cut short to the nape and the sideburn. */
function fullDepth(x: number, y: number, z: number): number {
  const top = ease(22, 112, y)
  const front = ease(-110, 5, z) * ease(40, 92, y)
  const sides = mix(1.6, 5.5, ease(-24, 60, y)) * mix(0.45, 1, ease(-86, -20, y))
  const crown = ease(-60, 30, y) * ease(-50, -130, z)
  const towardsParting = ease(70, -70, x)
  return sides + (6 + 3 * towardsParting) * top + 3.5 * front + 4 * crown
}

/** Deepest hair and locks, mm: beyond it no hair need be computed. */
const DEEPEST = 28

/** Hair as a closed shell over the skull, rising out of the skin at the hairline without a step. */
export function hairField(base: Field): Field {
  return (x, y, z) => {
    const skull = base(x, y, z)
    const inner = -(skull + ROOT_DEPTH)
    if (skull > DEEPEST) return skull - DEEPEST + 3
    if (skull < -ROOT_DEPTH - 4) return inner
    const edge = insideHairline(x, y, z)
    if (edge < OUTSIDE) return Math.max((skull + 9) * 0.85, inner)
    return Math.max((skull - hairSurface(edge, x, y, z)) * 0.85, inner)
  }
}

/** Outside the hairline the surface dives on at the slope it had, then steeply: a feather edge would tear in the mesh. */
export const underSkin = (edge: number, slope: number): number =>
  Math.max(-9, slope * edge - 3 * Math.max(0, -edge - 1.5))

/** From 0 to 1, where neither slope nor curvature jumps. */
export const risen = (t: number): number => 1 - (1 - clamp01(t)) ** RISING
/** Its slope at 0. */
export const RISING = 3

/** Height of the hair over a place of the skin, mm; negative outside the hairline. */
export const hairHeight = (x: number, y: number, z: number): number => hairSurface(insideHairline(x, y, z), x, y, z)

/** Height of the hair over the skull; negative under the skin outside the hairline, so that both meet at an angle. */
function hairSurface(edge: number, x: number, y: number, z: number): number {
  const strand = strandCoordinates(x, y, z)
  const depth = fullDepth(x, y, z)
  const rise = 42 + 50 * ease(10, 74, y) * ease(-110, -30, z) + 10 * ease(-15, -75, y)
  const body = edge < 0 ? underSkin(edge, (RISING * depth) / rise) : depth * risen(edge / rise)
  const relief = mix(0.25, 3.2, ease(1, 13, depth)) * ease(0, 22, edge)
  return body + locks(strand) * relief
}
