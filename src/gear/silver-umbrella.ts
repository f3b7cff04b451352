import { BLACK, silver, silverFinish } from './cloths'
import { numberOf, share } from './fields'
import type { ModifierKind } from './types'
import { checkUmbrella, reflectedUmbrella, UMBRELLA_FIELDS } from './umbrella'

/** Silver inside, black outside. Its loss swings by stops near the focus, where the shaft is half the canopy's radius. */
export const silverUmbrella: ModifierKind = {
  id: 'silver-umbrella',
  label: 'Silver umbrella, reflected',
  fields: [...UMBRELLA_FIELDS, share('roughness', 'Roughness of the cloth, α = r²', 0.5, [0.3, 0.6])],
  build: (modifier) => {
    const roughness = numberOf(modifier, 'roughness')
    const finishes = { inside: silverFinish(roughness), outside: BLACK }
    return reflectedUmbrella(modifier, silver(roughness), 'silver', finishes)
  },
  check: checkUmbrella,
}
