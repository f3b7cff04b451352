import { uniformSurface } from '../photometry'
import { grey } from './cloths'
import { choice, length, numberOf, wordOf } from './fields'
import { ahead, inMetres } from './head'
import type { Field, ModifierKind } from './types'

/** What a net curtain leaves of the sky's light, all of it spread: common practice, no source. */
const NET_PASS = 0.5
/** A window in other light: glass before a bright outside gives back little, a curtain half. Common practice, no source. */
const ALBEDO = { none: grey(0.08), net: grey(0.4) }

/** An overcast sky is some 2000 to 10,000 cd/m²: common practice, no source. */
const luminance: Field = {
  ...{ id: 'luminanceCdM2', label: 'Luminance of the sky through the glass', type: 'number', unit: 'cd/m²' },
  ...{ range: [1, 30_000], usual: [500, 8000], default: 3000, step: 100 },
}

/** An opening to an even sky: the same luminance from every side, and it burns on. Sun through it is another source. */
export const windowLight: ModifierKind = {
  id: 'window',
  label: 'Window, even sky',
  burnsOn: true,
  fields: [
    length('widthM', 'Width of the opening', 1, [0.2, 4], [0.6, 2]),
    length('heightM', 'Height of the opening', 1.4, [0.2, 3], [0.8, 2]),
    luminance,
    choice('curtain', 'Curtain', ['none', 'net']),
  ],
  build: (modifier) => {
    const widthM = numberOf(modifier, 'widthM')
    const heightM = numberOf(modifier, 'heightM')
    const curtain = wordOf(modifier, 'curtain') === 'net' ? 'net' : 'none'
    const areaM2 = widthM * heightM
    const pass = curtain === 'net' ? NET_PASS : 1
    return {
      emitters: [
        {
          id: 'opening',
          part: 'front',
          frame: ahead(0),
          emission: uniformSurface({ surface: { shape: 'rectangle', widthM, heightM }, luminance: 1 / areaM2 }),
          cloth: { solid: 0, side: 'front' },
        },
      ],
      solids: [
        {
          kind: 'rectangle',
          rect: { centre: [0, 0, -0.002], halfU: [widthM / 2, 0, 0], halfV: [0, heightM / 2, 0] },
          albedo: ALBEDO[curtain],
        },
      ],
      litFace: { shape: 'rectangle', widthM, heightM },
      steadyCd: numberOf(modifier, 'luminanceCdM2') * pass * areaM2,
      tint: [1, 1, 1],
      name: `window ${inMetres(widthM)} × ${inMetres(heightM)}`,
    }
  },
}
