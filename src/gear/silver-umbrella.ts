import { BLACK, silver, silverFinish } from './cloths'
import { numberOf, share } from './fields'
import type { ModifierKind } from './types'
import { checkUmbrella, FRONT_FIELD, reflectedUmbrella, shaftOf, UMBRELLA_FIELDS } from './umbrella'

/** Silver inside, black outside. Its loss swings by stops near the focus, where the shaft is half the canopy's radius. */
export const silverUmbrella: ModifierKind = {
  id: 'silver-umbrella',
  label: 'Silver umbrella, reflected',
  fields: [...UMBRELLA_FIELDS, share('roughness', 'Roughness of the cloth, α = r²', 0.5, [0.3, 0.6]), FRONT_FIELD],
  shaft: (modifier) => shaftOf(modifier, true),
  build: (modifier) => {
    const roughness = numberOf(modifier, 'roughness')
    const inside = silverFinish(roughness)
    return reflectedUmbrella(modifier, { cloth: silver(roughness), words: 'silver', inside, outside: BLACK })
  },
  check: checkUmbrella,
}
