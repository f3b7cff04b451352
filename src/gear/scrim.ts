import { cosineDisc, fluxOf, type Lamp, lightOnSheet, lobeTable, STANDARD_DISH } from '../photometry'
import { grey } from './cloths'
import { choice, length, numberOf, wordOf } from './fields'
import { ahead, asSolids, DISH, headCylinders, inMetres, turned } from './head'
import type { ModifierKind } from './types'

const LAMP: Lamp = { ...STANDARD_DISH, radiusM: DISH.openingRadiusM }
const FORWARD_EXPONENT = 11
/** So thick is the frame as drawn: front and back shine from before and behind it. */
const CLOTH_M = 0.002

/** Transmittance, reflectance, and the share of what passes that keeps its direction: common practice, no source. */
const CLOTHS: Readonly<Record<string, { readonly tau: number; readonly rho: number; readonly forward: number }>> = {
  full: { tau: 0.55, rho: 0.35, forward: 0 },
  half: { tau: 0.7, rho: 0.22, forward: 0.3 },
  quarter: { tau: 0.8, rho: 0.12, forward: 0.6 },
}

/** A frame of cloth before a lamp in its standard dish. Lit face: the cloth; part of its light comes back, part goes past it. */
export const scrim: ModifierKind = {
  id: 'scrim',
  label: 'Scrim before a dish',
  fields: [
    length('widthM', 'Width of the frame', 1.2, [0.3, 3], [0.9, 2]),
    length('heightM', 'Height of the frame', 1.2, [0.3, 3], [0.9, 2.4]),
    length('behindM', 'Lamp behind the cloth', 0.8, [0.2, 3], [0.5, 1.5]),
    choice('cloth', 'Cloth', ['full', 'half', 'quarter']),
    length('bodyM', 'Length of the head behind its dish', 0.3, [0, 0.6], [0.2, 0.45]),
  ],
  build: (modifier) => {
    const [widthM, heightM, behindM] = ['widthM', 'heightM', 'behindM'].map((id) => numberOf(modifier, id))
    const bodyM = numberOf(modifier, 'bodyM')
    const { tau, rho, forward } = CLOTHS[wordOf(modifier, 'cloth')]!
    const { illuminance, landed } = lightOnSheet({ widthM, heightM, lamp: LAMP, lampM: behindM })
    const sheet = {
      surface: { shape: 'rectangle', widthM, heightM },
      relative: illuminance,
      mean: landed / (widthM * heightM),
    } as const
    const front = lobeTable({
      ...sheet,
      flux: tau * landed,
      forward: { share: forward, exponent: FORWARD_EXPONENT, lamp: [0, 0, -behindM] },
    })
    const back = lobeTable({ ...sheet, flux: rho * landed, blockers: headCylinders(behindM, 1, bodyM) })
    const past = cosineDisc({
      ...LAMP,
      gate: { kind: 'past-window', zM: behindM, widthM, heightM },
      flux: fluxOf(LAMP) - landed,
    })
    const cloth = { solid: 0, side: 'front' } as const
    return {
      emitters: [
        { id: 'cloth', part: 'front', frame: ahead(0), emission: front, cloth },
        { id: 'rear', part: 'back', frame: turned(-2 * CLOTH_M), emission: back, cloth: { ...cloth, side: 'back' } },
        { id: 'spill', part: 'spill', frame: ahead(-behindM), emission: past, cloth: { solid: 1, side: 'front' } },
      ],
      solids: [
        {
          kind: 'rectangle',
          rect: { centre: [0, 0, -CLOTH_M], halfU: [widthM / 2, 0, 0], halfV: [0, heightM / 2, 0] },
          albedo: grey(rho),
        },
        ...asSolids(headCylinders(-behindM, -1, bodyM)),
      ],
      litFace: { shape: 'rectangle', widthM, heightM },
      tint: [1, 1, 1],
      name: `scrim ${inMetres(widthM)} × ${inMetres(heightM)}`,
    }
  },
}
