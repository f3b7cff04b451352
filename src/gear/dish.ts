import { cosineDisc, equalFluxDish } from '../photometry'
import { COMB_FIELD, combOf } from './comb'
import { length, numberOf, wordOf } from './fields'
import { ahead, asSolids, BODY_RADIUS_M, inCentimetres } from './head'
import type { BuiltModifier, Field, Modifier, ModifierKind } from './types'

/** Of every plain dish: the opening, a grid before it, the head behind it. */
export const reflectorFields = (
  diameterM: number,
  range: readonly [number, number],
  usual: readonly [number, number],
): readonly Field[] => [
  length('diameterM', 'Opening', diameterM, range, usual),
  COMB_FIELD,
  length('bodyM', 'Length of the head behind its dish', 0.3, [0, 0.6], [0.2, 0.45]),
]

/** Lit face: the dish's opening. */
export const dish: ModifierKind = {
  id: 'dish',
  label: 'Standard dish, 65°',
  fields: reflectorFields(0.18, [0.1, 0.3], [0.17, 0.21]),
  build: (modifier) => reflector(modifier, 65, 'dish'),
}

export const wideDish: ModifierKind = {
  id: 'wide-dish',
  label: 'Wide dish, 110°',
  fields: reflectorFields(0.15, [0.1, 0.3], [0.12, 0.18]),
  build: (modifier) => reflector(modifier, 110, 'wide dish'),
}

/**
 * All dishes throw the same flux, 1.239 sr per cd·s of the standard one, so a wider one is darker on its axis. deep: depth as a
 * share of the opening (common practice, no source).
 */
export function reflector(modifier: Modifier, beamDeg: number, words: string, deep = 0.65): BuiltModifier {
  const diameterM = numberOf(modifier, 'diameterM')
  const bodyM = numberOf(modifier, 'bodyM')
  const label = wordOf(modifier, 'grid')
  const comb = combOf(label)
  const depthM = deep * diameterM
  const shell = { from: [0, 0, 0], to: [0, 0, -depthM], radiusM: diameterM / 2 + 0.01 } as const
  const head = { from: [0, 0, -depthM], to: [0, 0, -depthM - bodyM], radiusM: BODY_RADIUS_M } as const
  return {
    emitters: [
      {
        id: 'opening',
        part: 'front',
        frame: ahead(0),
        emission: cosineDisc({
          ...equalFluxDish(beamDeg, diameterM / 2),
          ...(comb ? { gate: { kind: 'honeycomb', ...comb } } : {}),
        }),
        cloth: { solid: 0, side: 'front' },
      },
    ],
    solids: asSolids(bodyM > 0 ? [shell, head] : [shell]),
    litFace: { shape: 'disc', widthM: diameterM, heightM: diameterM },
    tint: [1, 1, 1],
    name: `${words} ${inCentimetres(diameterM)}${label === 'none' ? '' : ` with ${label} grid`}`,
  }
}
