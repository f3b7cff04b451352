import { addScaled, dot, type Frame, normalize, subtract, type Vec3 } from '../space'
import { type LensOnSensor, viewTangent } from './fieldOfView'

/** A place in the frame: −1 to 1 from camera left to right and from bottom to top, and its depth along the axis. */
export interface FramePoint {
  readonly x: number
  readonly y: number
  readonly depthM: number
}

/** Both work in the frame of a camera that looks along z with y up: its x is camera left. */

/** Pinhole projection. null: not in front of the lens. A point may lie outside the frame: |x| or |y| above 1. */
export function projectToFrame(point: Vec3, frame: Frame, lens: LensOnSensor): FramePoint | null {
  const from = subtract(point, frame.origin)
  const depthM = dot(from, frame.z)
  if (!(depthM > 0)) return null
  return {
    x: -dot(from, frame.x) / (depthM * viewTangent(lens.sensorWidthMm, lens.focalLengthMm)),
    y: dot(from, frame.y) / (depthM * viewTangent(lens.sensorHeightMm, lens.focalLengthMm)),
    depthM,
  }
}

/** Unit direction from the lens through a place of the frame. */
export function directionThrough(x: number, y: number, frame: Frame, lens: LensOnSensor): Vec3 {
  const aside = -x * viewTangent(lens.sensorWidthMm, lens.focalLengthMm)
  const up = y * viewTangent(lens.sensorHeightMm, lens.focalLengthMm)
  return normalize(addScaled(addScaled(frame.z, frame.x, aside), frame.y, up))
}
