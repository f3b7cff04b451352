import type { Gaze, Pose } from '../figure'
import type { Camera, Sitter } from './types'

/** What the sitter does, as the figure takes it. Metres and degrees. camera: of the sitting, for eyes on the lens. */
export const poseOf = (sitter: Sitter, camera: Pick<Camera, 'positionM'>): Pose => ({
  positionM: [sitter.xM, 0, sitter.zM],
  eyeHeightM: sitter.eyeHeightM,
  bodyTurnDeg: sitter.bodyTurnDeg,
  headTurnDeg: sitter.headTurnDeg,
  headTiltDeg: sitter.headTiltDeg,
  chinDeg: sitter.chinDeg,
  gaze: gazeOf(sitter, camera),
  lean: sitter.lean,
})

function gazeOf({ gaze = 'ahead' }: Sitter, { positionM }: Pick<Camera, 'positionM'>): Gaze | undefined {
  if (gaze === 'ahead') return undefined
  return gaze === 'camera' ? { atM: positionM } : gaze
}
