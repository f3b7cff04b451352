import { overcastHorizontal, uniformSurface } from '../photometry'
import { ahead } from './head'
import type { Field, ModifierKind } from './types'

/** Farther off than anything that a sitting may hold. What a place gets does not depend on it: each direction has its luminance. */
export const SKY_STANDS_M = 60

/** From a dark winter's day to a bright one: general photometry references, from memory. */
const illuminance: Field = {
  ...{ id: 'illuminanceLx', label: 'Light of the whole sky on level ground', type: 'number', unit: 'lx' },
  ...{ range: [10, 60_000], usual: [1000, 25_000], default: 10_000, step: 100 },
}

/**
 * The CIE overcast sky all round, three times as bright overhead as at the horizon: the same from every place under it, wherever
 * the document has its mark. It burns on; walls and ceiling keep it out, sitters, boards and backdrop hide a part of it.
 */
export const overcastSky: ModifierKind = {
  id: 'overcast-sky',
  label: 'Overcast sky',
  burnsOn: true,
  remote: { kind: 'around', distanceM: SKY_STANDS_M },
  fields: [illuminance],
  build: ({ illuminanceLx }) => ({
    emitters: [
      {
        id: 'dome',
        part: 'front',
        // From the zenith, where the source's frame is, to the middle of the level.
        frame: ahead(SKY_STANDS_M),
        emission: uniformSurface({
          surface: { shape: 'cap', diameterM: 2 * SKY_STANDS_M, depthM: SKY_STANDS_M, hollow: true },
          luminance: 1,
          gate: { kind: 'overcast' },
        }),
      },
    ],
    solids: [],
    litFace: { shape: 'disc', widthM: 2 * SKY_STANDS_M, heightM: 2 * SKY_STANDS_M },
    // Its emission is counted for a zenith of 1 cd/m².
    steadyCd: Number(illuminanceLx) / overcastHorizontal(1),
    tint: [1, 1, 1],
    name: 'the overcast sky',
  }),
}
