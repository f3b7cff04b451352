import { exponentFromBeam, lobeTable } from '../photometry'
import { BLACK, grey } from './cloths'
import { choice, length, numberOf, wordOf } from './fields'
import { ahead, inCentimetres } from './head'
import type { Field, ModifierKind } from './types'

const BEAMS_DEG: Readonly<Record<string, number>> = { 'matt front, 120°': 120, 'lenses, 60°': 60, 'lenses, 30°': 30 }
const FAR_BEHIND_M = 1e4

/** Luminous flux at full power, what the front has let through. 20 to 60 W of diodes for its size: common practice, no source. */
const flux: Field = {
  ...{ id: 'fluxLm', label: 'Light at full power', type: 'number', unit: 'lm' },
  ...{ range: [100, 50_000], usual: [2000, 15_000], default: 6000, step: 100 },
}

/** Burns on: what it gives grows with the exposure time. Lit face: the front. */
export const ledPanel: ModifierKind = {
  id: 'led-panel',
  label: 'LED panel, continuous',
  burnsOn: true,
  fields: [
    length('widthM', 'Width', 0.6, [0.05, 2], [0.2, 1.2]),
    length('heightM', 'Height', 0.3, [0.05, 2], [0.2, 1.2]),
    flux,
    choice('beam', 'Front and its beam', ['matt front, 120°', 'lenses, 60°', 'lenses, 30°']),
  ],
  build: (modifier) => {
    const widthM = numberOf(modifier, 'widthM')
    const heightM = numberOf(modifier, 'heightM')
    const exponent = exponentFromBeam(BEAMS_DEG[wordOf(modifier, 'beam')]!)
    // Per cd on the axis, I = cosⁿθ gives 2π/(n + 1) lm; behind lenses every place shines with that cosine about the axis.
    const perCandela = (2 * Math.PI) / (exponent + 1)
    const emission = lobeTable({
      surface: { shape: 'rectangle', widthM, heightM },
      relative: () => 1,
      mean: 1,
      flux: perCandela,
      ...(exponent > 1.001 ? { forward: { share: 1, exponent, lamp: [0, 0, -FAR_BEHIND_M] as const } } : {}),
    })
    return {
      emitters: [{ id: 'front', part: 'front', frame: ahead(0), emission, cloth: { solid: 0, side: 'front' } }],
      solids: [
        {
          kind: 'rectangle',
          rect: { centre: [0, 0, -0.002], halfU: [widthM / 2, 0, 0], halfV: [0, heightM / 2, 0] },
          albedo: grey(0.6),
          back: { kind: 'matt', albedo: BLACK },
        },
      ],
      litFace: { shape: 'rectangle', widthM, heightM },
      steadyCd: numberOf(modifier, 'fluxLm') / perCandela,
      tint: [1, 1, 1],
      name: `LED panel ${Math.round(widthM * 100)} × ${inCentimetres(heightM)}`,
    }
  },
}
