import { gatePass } from '../photometry'
import type { View } from '../rig'
import { directionToLocal, normalize, subtract, type Vec3 } from '../space'
import type { Stage } from './stage'
import type { Caution } from './types'

/**
 * Share of the front glass that light from a place reaches past the hood, 0 to 1: as through one cell of a honeycomb, since the
 * hood is as wide as the glass. 1 without a hood.
 */
export function pastHood({ hood, frame }: View, from: Vec3): number {
  if (!hood) return 1
  const cell = { kind: 'honeycomb', depthOverWidth: hood.depthM / hood.diameterM, wallLoss: 1 } as const
  return gatePass(cell, [0, 0, 0], directionToLocal(frame, normalize(subtract(from, frame.origin))))
}

/** Said where the rim of the hood stands in the light to the corners of the frame. The entrance pupil counts as at the front glass. */
export function hoodCaution({ scene, exposure }: Stage): Caution | null {
  const { hood, frame, sensorWidthMm, sensorHeightMm, focalLengthMm } = scene.rig.view
  if (!hood) return null
  const corner = Math.hypot(sensorWidthMm, sensorHeightMm) / 2 / focalLengthMm
  const pupilM = focalLengthMm / exposure.fNumber / 1000
  if (hood.depthM * corner <= (hood.diameterM - pupilM) / 2) return null
  const sentence = 'The hood darkens the corners of the picture: take a shallower or a wider one.'
  return { id: 'caution.camera.hood', at: frame.origin, sentence }
}
