import { cross, degrees, distance, length, normalize, radians, scale, subtract, type Vec3 } from '../space'
import { type Matrix, rotation } from './rotation'

/**
 * Where the eyes look. A direction is told from the head, degrees: across positive to the sitter's own left (camera right
 * when facing the lens), up positive. A point is in the room, metres.
 */
export type Gaze = { readonly atM: Vec3 } | GazeDirection

export interface GazeDirection {
  readonly acrossDeg: number
  readonly upDeg: number
}

export interface PosedGaze extends GazeDirection {
  /** false: the point lies farther round than eyes turn, and they stop at the end of their range on the way to it. */
  readonly reached: boolean
}

/**
 * How far eyes turn in the head, degrees either way, with ease: a person turns the head beyond. The muscles reach some 45°
 * to 50° across (both from memory).
 */
export const GAZE_ACROSS_DEG = 35
export const GAZE_UP_DEG = 25

/** Of a direction of the head's frame. */
export const gazeTowards = ([x, y, z]: Vec3): GazeDirection => ({
  acrossDeg: degrees(Math.atan2(x, z)),
  upDeg: degrees(Math.atan2(y, Math.hypot(x, z))),
})

export const isWithinReach = ({ acrossDeg, upDeg }: GazeDirection): boolean =>
  Math.abs(acrossDeg) <= GAZE_ACROSS_DEG && Math.abs(upDeg) <= GAZE_UP_DEG

/** Unit vector of the head's frame. */
export function gazeDirection({ acrossDeg, upDeg }: GazeDirection): Vec3 {
  const [a, u] = [radians(acrossDeg), radians(upDeg)]
  return [Math.sin(a) * Math.cos(u), Math.sin(u), Math.cos(a) * Math.cos(u)]
}

const nearestTo = (value: number, limit: number): number => Math.min(limit, Math.max(-limit, value))

/** The point that eyes reach: at itself, or, out of their range, as far off at the end of it. Head's frame, metres. */
export function reachedPoint(at: Vec3): { readonly point: Vec3; readonly gaze: PosedGaze } {
  const wanted = gazeTowards(at)
  if (isWithinReach(wanted)) return { point: at, gaze: { ...wanted, reached: true } }
  const ended = {
    acrossDeg: nearestTo(wanted.acrossDeg, GAZE_ACROSS_DEG),
    upDeg: nearestTo(wanted.upDeg, GAZE_UP_DEG),
  }
  return { point: scale(gazeDirection(ended), length(at)), gaze: { ...ended, reached: false } }
}

/** Nearer than this no eye can point at a thing, metres: it would lie in the eyeball. */
const IN_THE_EYE = 0.012

/** The eyeball's line of sight from its centre to a point. */
export const sightOf = (centre: Vec3, point: Vec3): Vec3 =>
  distance(point, centre) > IN_THE_EYE ? normalize(subtract(point, centre)) : [0, 0, 1]

/** From straight ahead to a direction by the shortest way: an eye does not roll about its own line of sight (Listing's law). */
export function eyeRotation(sight: Vec3): Matrix {
  const axis = cross([0, 0, 1], sight)
  const sine = length(axis)
  return sine > 1e-12 ? rotation(scale(axis, 1 / sine), Math.atan2(sine, sight[2])) : rotation([0, 1, 0], 0)
}
