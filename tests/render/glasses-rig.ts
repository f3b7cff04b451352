import { readFigureAsset } from '../../src/figure'
import { defaultModifier } from '../../src/gear'
import { assembleRig, type Rig } from '../../src/rig'
import { firstSitting, type Sitting, setGlasses } from '../../src/sitting'
import { radians, type Vec3 } from '../../src/space'

/** Both lenses fill the picture: 180 × 75 mm of the face. */
export const PICTURE = { width: 192, height: 80 } as const
const EYE_M = 1.2
const CAMERA: Vec3 = [0, EYE_M, 1.2]

/** A sitter in a black room before a box 1.2 m square at 1.5 m, whose lower edge hangs below the eyes when it is low. */
export function glassesSitting(az: number, el: number, coated: boolean): Sitting {
  const first = firstSitting()
  const [a, e] = [radians(az), radians(el)]
  const d = 1.5
  const sitting: Sitting = {
    ...first,
    sitters: [{ ...first.sitters[0], headTurnDeg: 0, eyeHeightM: EYE_M }],
    sources: [
      {
        ...first.sources[0],
        id: 'key',
        modifier: { ...defaultModifier('softbox'), widthM: 1.2, heightM: 1.2 },
        centreM: [d * Math.cos(e) * Math.sin(a), EYE_M + d * Math.sin(e), d * Math.cos(e) * Math.cos(a)],
        aimM: [0, EYE_M, 0],
      },
    ],
    panels: [],
    backdrop: null,
    meterPlaces: [],
    room: { ...first.room, wallReflectance: 0, ceilingReflectance: 0, floorReflectance: 0 },
    camera: {
      ...first.camera,
      positionM: CAMERA,
      aimM: [0, EYE_M - 0.005, 0],
      sensorWidthMm: 36,
      sensorHeightMm: 15,
      focalLengthMm: (36 * 1.17) / 0.18,
    },
  }
  return setGlasses(sitting, 'sitter', { coated })
}

export const glassesRig = (bytes: Uint8Array, az: number, el: number, coated: boolean): Rig =>
  assembleRig(glassesSitting(az, el, coated), { figure: readFigureAsset(bytes) })
