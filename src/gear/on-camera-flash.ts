import { cosineDisc, exponentFromBeam } from '../photometry'
import { DARK_METAL } from './cloths'
import { length, numberOf } from './fields'
import { ahead } from './head'
import type { ModifierKind } from './types'

/** Covers a 35 mm lens on a 36 × 24 mm sensor: common practice, no source. */
const BEAM_DEG = 60

/** A small lamp on the camera. Its guide number is stated with its own reflector, so its axial intensity is the unit itself. */
export const onCameraFlash: ModifierKind = {
  id: 'on-camera-flash',
  label: 'On-camera flash',
  onCamera: 'in the shoe',
  fields: [length('diameterM', 'Lit window, as a disc of the same area', 0.05, [0.01, 0.1], [0.03, 0.07])],
  build: (modifier) => {
    const diameterM = numberOf(modifier, 'diameterM')
    const lamp = { radiusM: diameterM / 2, exponent: exponentFromBeam(BEAM_DEG), axialIntensity: 1 }
    return {
      emitters: [
        {
          id: 'window',
          part: 'front',
          frame: ahead(0),
          emission: cosineDisc(lamp),
          cloth: { solid: 0, side: 'front' },
        },
      ],
      solids: [
        { kind: 'cylinder', from: [0, 0, 0], to: [0, 0, -0.1], radiusM: diameterM / 2 + 0.005, albedo: DARK_METAL },
      ],
      litFace: { shape: 'disc', widthM: diameterM, heightM: diameterM },
      tint: [1, 1, 1],
      name: 'on-camera flash',
    }
  },
}
