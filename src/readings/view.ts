import type { View } from '../rig'
import { addScaled, dot, normalize, subtract, type Vec3 } from '../space'

/** A place in the frame: −1 to 1 from camera left to right and from bottom to top. */
export interface FramePoint {
  readonly x: number
  readonly y: number
  /** Along the lens axis, metres. */
  readonly depthM: number
}

/** A place of the picture as a direction out of the camera. The view's x is camera left: z looks in, y is up. */
export function directionOf({ frame, sensorWidthMm, sensorHeightMm, focalLengthMm }: View, x: number, y: number): Vec3 {
  const aside = (-x * sensorWidthMm) / (2 * focalLengthMm)
  const up = (y * sensorHeightMm) / (2 * focalLengthMm)
  return normalize(addScaled(addScaled(frame.z, frame.x, aside), frame.y, up))
}

/** Where a point falls in the frame; null behind the camera. */
export function projected({ frame, sensorWidthMm, sensorHeightMm, focalLengthMm }: View, p: Vec3): FramePoint | null {
  const out = subtract(p, frame.origin)
  const depthM = dot(out, frame.z)
  if (depthM <= 0) return null
  return {
    x: (-dot(out, frame.x) * 2 * focalLengthMm) / (depthM * sensorWidthMm),
    y: (dot(out, frame.y) * 2 * focalLengthMm) / (depthM * sensorHeightMm),
    depthM,
  }
}
