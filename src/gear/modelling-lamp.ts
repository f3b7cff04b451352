import { BARE_DOME_FLUX, type Candela, DISH_EFFICIENCY } from '../photometry'
import { reflector } from './dish'
import { choice, length, numberOf, wordOf } from './fields'
import type { Field, ModifierKind } from './types'

/** Luminous efficacy, lm/W: common practice, no source. */
const EFFICACY: Readonly<Record<string, number>> = { halogen: 20, LED: 90 }

/** Axial intensity in the 65° standard dish, whose share of the lamp's light counts in either flux. */
export const modellingCandela = (lamp: 'halogen' | 'LED', powerW: number): Candela =>
  (powerW * EFFICACY[lamp]!) / BARE_DOME_FLUX

const watts: Field = {
  ...{ id: 'powerW', label: 'Power', type: 'number', unit: 'W' },
  ...{ range: [5, 1000], usual: [20, 300], default: 150, step: 5 },
}

/** The lamp that burns in a head between flashes, in the standard dish; it adds to the flash by the exposure time. */
export const modellingLamp: ModifierKind = {
  id: 'modelling-lamp',
  label: 'Modelling lamp in a dish, continuous',
  burnsOn: true,
  fields: [
    watts,
    choice('lamp', 'Lamp', ['halogen', 'LED']),
    length('diameterM', 'Opening', 0.18, [0.1, 0.3], [0.17, 0.21]),
    length('bodyM', 'Length of the head behind its dish', 0.3, [0, 0.6], [0.2, 0.45]),
  ],
  build: (modifier) => {
    const dish = reflector({ ...modifier, grid: 'none' }, 65, 'modelling lamp in a dish')
    const lamp = wordOf(modifier, 'lamp')
    const lumens = numberOf(modifier, 'powerW') * EFFICACY[lamp]! * DISH_EFFICIENCY
    return {
      ...dish,
      name: `${lamp} modelling lamp`,
      steadyCd: lumens / dish.emitters[0].emission.flux,
    }
  },
}
