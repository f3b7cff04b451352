import { spline } from './curves'
import * as data from './data/hair'
import { valueNoise } from './noise'
import { clamp01, ease, type Field, mix, smoothStep } from './solids'

const hairline = spline(data.HAIRLINE)
/** Inner face of the shell, this deep under the skin, so that hair is a closed solid. */
export const ROOT_DEPTH = 6

/** Millimetres above the hairline, near the edge measured across it, not along y; without its raggedness. */
export function aboveHairline(x: number, y: number, z: number): number {
  const ax = Math.abs(x)
  const back = z - data.SKULL_AXIS_Z
  const azimuth = Math.atan2(ax, back)
  const slope = (hairline(azimuth + 0.02) - hairline(azimuth - 0.02)) / 0.04 / Math.max(30, Math.hypot(ax, back))
  const above = y - hairline(azimuth)
  return above / Math.sqrt(1 + slope * slope * Math.exp(-((above / 28) ** 2)))
}

/** How far the edge strays from the drawn line: as the skin goes, and strand by strand. Within ±RAGGED. */
export function raggedness(x: number, y: number, z: number, [angle, along]: Strand): number {
  const drift = (valueNoise(x * 0.06 + 3, y * 0.06, z * 0.06) - 0.5) * 5
  return drift + (valueNoise(angle * 19 + 40, along * 0.02, 11.5) - 0.5) * 6
}
export const RAGGED = 5.5

/** 1 before the ear, where the sideburn thins out downwards, 0 elsewhere. */
export function sideburn(x: number, y: number, z: number): number {
  const azimuth = Math.atan2(Math.abs(x), z - data.SKULL_AXIS_Z)
  return (
    smoothStep(1.06, 1.2, azimuth) * smoothStep(1.5, 1.38, azimuth) * smoothStep(20, 4, y) * smoothStep(-40, -20, y)
  )
}

/** Millimetres inside the hairline, positive where hair grows. */
export const insideHairline = (x: number, y: number, z: number): number =>
  aboveHairline(x, y, z) + raggedness(x, y, z, strandCoordinates(x, y, z))

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
  const wave = (valueNoise(along * 0.016 + 9, x * 0.009 + 5, up * 0.009) - 0.5) * 0.25
  return [Math.atan2(x, up) + wave, along]
}

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
  const sides = mix(2, 6, ease(-30, 54, y)) * mix(0.45, 1, ease(-86, -20, y))
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
    const above = aboveHairline(x, y, z)
    if (above < -9 - RAGGED) return Math.max((skull + 9) * 0.85, inner)
    return Math.max((skull - hairSurface(above, x, y, z)) * 0.85, inner)
  }
}

/** Outside the hairline the surface dives on at the slope it had, then steeply: a feather edge would tear in the mesh. */
export const underSkin = (edge: number, slope: number): number =>
  Math.max(-9, slope * edge - 3 * Math.max(0, -edge - 1.5))

/** From 0 with slope 4 to 1, where neither slope nor curvature jumps. */
export const risen = (t: number): number => 1 - (1 - clamp01(t)) ** 4

/** Height of the hair over a place of the skin, mm; negative outside the hairline. */
export const hairHeight = (x: number, y: number, z: number): number => hairSurface(aboveHairline(x, y, z), x, y, z)

/** Height of the hair over the skull; negative under the skin outside the hairline, so that both meet at an angle. */
function hairSurface(above: number, x: number, y: number, z: number): number {
  const strand = strandCoordinates(x, y, z)
  const edge = above + raggedness(x, y, z, strand)
  const depth = fullDepth(x, y, z)
  const rise = 24 + 46 * ease(10, 74, y) * ease(-110, -30, z) + 26 * ease(-15, -75, y)
  const body = edge < 0 ? underSkin(edge, (4 * depth) / rise) : depth * risen(edge / rise)
  const relief = mix(0.25, 2.2, ease(1, 12, depth)) * ease(-3, 16, edge)
  return body + locks(strand) * relief
}
