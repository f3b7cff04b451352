import { defaultModifier } from '../gear'
import type { Sitting, Source } from './types'

/**
 * The key of the first sitting: 45° to camera right of the lens axis, 35° above the eye line, taped 1.00 m from the rim
 * plane to the near cheek of a head turned 15° to camera right. The point is centreAt() of that place, to the millimetre.
 */
const KEY: Source = {
  id: 'key',
  letter: 'A',
  role: 'key',
  on: true,
  // 400 J three and a half stops down: about f/8 at the near cheek, one umbrella's loss of two stops included.
  head: { energyJ: 400, guideNumberM: null, powerStops: -3.5, lowestStops: -7, colourTemperatureK: 5500 },
  // A compact head: a longer one would reach into the frame at this distance.
  modifier: { ...defaultModifier('white-umbrella'), bodyM: 0.2 },
  centreM: [0.605, 1.78, 0.583],
  aimM: [0.03, 1.17, 0.03],
  rollDeg: 0,
}

/** The sitting that a first visit opens: one umbrella, one white panel, a pale backdrop, an upright frame. */
export const firstSitting = (): Sitting => ({
  format: 'halfshade.sitting',
  version: 1,
  title: 'Notice board portrait',
  note: '',
  sitters: [
    {
      id: 'sitter',
      xM: 0,
      zM: 0,
      eyeHeightM: 1.2,
      bodyTurnDeg: 0,
      headTurnDeg: 15,
      headTiltDeg: 0,
      chinDeg: 0,
      skin: 'light',
      shine: 0.4,
      hair: 'brown',
      clothes: 'grey',
    },
  ],
  sources: [KEY],
  panels: [
    { id: 'panel', kind: 'white', widthM: 1, heightM: 1.5, centreM: [-0.62, 1.15, 0.1], turnDeg: 90, tiltDeg: 0 },
  ],
  objects: [],
  backdrop: { widthM: 2.72, heightM: 2.4, distanceM: 1.5, reflectance: [0.6, 0.6, 0.6] },
  room: {
    widthM: 4,
    depthM: 5,
    heightM: 2.6,
    xM: 0,
    zM: 0.5,
    wallReflectance: 0.6,
    ceilingReflectance: 0.7,
    floorReflectance: 0.25,
  },
  camera: {
    positionM: [0, 1.2, 1.5],
    aimM: [0, 1.155, 0],
    focalLengthMm: 105,
    sensorWidthMm: 24,
    sensorHeightMm: 36,
    fNumber: 8,
    iso: 100,
    shutterS: 1 / 125,
  },
  reExpose: 'powers',
  meterPlaces: [
    {
      id: 'near-cheek',
      name: 'near cheek',
      at: { sitterId: 'sitter', landmark: 'cheekLeft' },
      receptor: 'disc',
      facing: 'light',
    },
    {
      id: 'far-cheek',
      name: 'far cheek',
      at: { sitterId: 'sitter', landmark: 'cheekRight' },
      receptor: 'disc',
      facing: 'light',
    },
    {
      id: 'forehead',
      name: 'forehead',
      at: { sitterId: 'sitter', landmark: 'foreheadCentre' },
      receptor: 'dome',
      facing: 'lens',
    },
    {
      id: 'behind',
      name: 'backdrop behind the head',
      at: { pointM: [0, 1.2, -1.49] },
      receptor: 'disc',
      facing: 'lens',
    },
  ],
  takes: [],
})
