import { lampBehind, STANDARD_DISH } from '../photometry'
import { length, numberOf } from './fields'
import { ahead, asSolids, BODY_RADIUS_M, inCentimetres } from './head'
import type { ModifierKind } from './types'

/** The reflector at the tube's far end: common practice, no source. */
const LAMP_RADIUS_M = 0.065

/** A black tube that lets a narrow cone through; what meets its wall is lost. Lit face: the mouth. */
export const snoot: ModifierKind = {
  id: 'snoot',
  label: 'Snoot',
  fields: [
    length('diameterM', 'Mouth', 0.06, [0.02, 0.12], [0.04, 0.08]),
    length('lengthM', 'Length of the tube', 0.2, [0.08, 0.4], [0.15, 0.25]),
    length('bodyM', 'Length of the head behind the tube', 0.3, [0, 0.6], [0.2, 0.45]),
  ],
  build: (modifier) => {
    const diameterM = numberOf(modifier, 'diameterM')
    const lengthM = numberOf(modifier, 'lengthM')
    const bodyM = numberOf(modifier, 'bodyM')
    const emission = lampBehind({
      lamp: { ...STANDARD_DISH, radiusM: LAMP_RADIUS_M },
      lengthM,
      mouthRadiusM: diameterM / 2,
    })
    const radiusM = Math.max(LAMP_RADIUS_M, diameterM / 2) + 0.005
    const tube = [
      { from: [0, 0, 0], to: [0, 0, -lengthM / 2], radiusM: (radiusM + diameterM / 2) / 2 },
      { from: [0, 0, -lengthM / 2], to: [0, 0, -lengthM], radiusM },
    ] as const
    const head = { from: [0, 0, -lengthM], to: [0, 0, -lengthM - bodyM], radiusM: BODY_RADIUS_M } as const
    return {
      emitters: [{ id: 'mouth', part: 'front', frame: ahead(0), emission, cloth: { solid: 0, side: 'front' } }],
      solids: asSolids(bodyM > 0 ? [...tube, head] : tube),
      litFace: { shape: 'disc', widthM: diameterM, heightM: diameterM },
      tint: [1, 1, 1],
      name: `snoot ${inCentimetres(diameterM)}`,
    }
  },
}
