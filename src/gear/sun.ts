import { SUN_MOST, SUN_WIDTH_PER_DISTANCE, uniformSurface } from '../photometry'
import { ahead } from './head'
import type { Field, ModifierKind } from './types'

/** Its disc is drawn at this distance and as wide as it looks from there: 3 m nearer or farther the light differs by 0.6 %. */
export const SUN_STANDS_M = 1000
const RADIUS_M = (SUN_STANDS_M * SUN_WIDTH_PER_DISTANCE) / 2

/** Candela on the axis that bring 1 lx there, E = I/(d² + r²): counted a lux, since its millionth is lost in half precision. */
const AT_AIM = SUN_STANDS_M ** 2 + RADIUS_M ** 2

/** High in clear air some 80,000 to 100,000 lx: general photometry references, from memory. Less low down and through haze. */
const illuminance: Field = {
  ...{ id: 'illuminanceLx', label: 'Light on a surface that faces the sun, sky left out', type: 'number', unit: 'lx' },
  ...{ range: [10, SUN_MOST], usual: [10_000, 100_000], default: 80_000, step: 1000 },
}

/** An even disc so far off that only its direction counts. It burns on; walls and ceiling keep it out. */
export const sun: ModifierKind = {
  id: 'sun',
  label: 'Sun',
  burnsOn: true,
  remote: { kind: 'far', distanceM: SUN_STANDS_M },
  fields: [illuminance],
  build: ({ illuminanceLx }) => ({
    emitters: [
      {
        id: 'disc',
        part: 'front',
        frame: ahead(0),
        emission: uniformSurface({
          surface: { shape: 'disc', radiusM: RADIUS_M },
          luminance: AT_AIM / (Math.PI * RADIUS_M ** 2),
        }),
      },
    ],
    solids: [],
    litFace: { shape: 'disc', widthM: 2 * RADIUS_M, heightM: 2 * RADIUS_M },
    steadyCd: Number(illuminanceLx),
    tint: [1, 1, 1],
    name: 'the sun',
  }),
}
