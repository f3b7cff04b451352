import { cross, dot, type Frame, normalize, scale, subtract, type Vec3 } from '../space'
import type { LensOnSensor } from './fieldOfView'

/** Where a point shows in the frame: −1 to 1 from left to right and from bottom to top, and its depth along the axis. */
export interface FramePoint {
  readonly x: number
  readonly y: number
  readonly depthM: number
}

/**
 * Frame of a camera at a place that aims at a point, level: z back out of the lens away from the subject, x to camera
 * right, y up, so the subject lies at −z as in the world frame with the camera at rest. Throws where the aim is the
 * place itself or straight above or below it: the picture would have no upright.
 */
export function cameraFrame(position: Vec3, aim: Vec3): Frame {
  const z = normalize(subtract(position, aim))
  if (Math.hypot(z[0], z[2]) < 1e-9)
    throw new Error(`camera.cameraFrame: no level for an aim straight up or down: ${position} to ${aim}`)
  const x = normalize(cross([0, 1, 0], z))
  return { origin: position, x, y: cross(z, x), z }
}

/** Pinhole projection. null: not in front of the lens. A point may lie outside the frame: |x| or |y| above 1. */
export function projectToFrame(point: Vec3, frame: Frame, lens: LensOnSensor): FramePoint | null {
  const from = subtract(point, frame.origin)
  const depthM = -dot(from, frame.z)
  if (!(depthM > 0)) return null
  const onSensor = (2 * lens.focalLengthMm) / depthM
  return {
    x: (dot(from, frame.x) * onSensor) / lens.sensorWidthMm,
    y: (dot(from, frame.y) * onSensor) / lens.sensorHeightMm,
    depthM,
  }
}

/** Unit direction from the lens through a place of the frame. */
export function directionThrough(x: number, y: number, frame: Frame, lens: LensOnSensor): Vec3 {
  const right = scale(frame.x, (x * lens.sensorWidthMm) / (2 * lens.focalLengthMm))
  const up = scale(frame.y, (y * lens.sensorHeightMm) / (2 * lens.focalLengthMm))
  return normalize(subtract([right[0] + up[0], right[1] + up[1], right[2] + up[2]], frame.z))
}
