import { BLACK, mattOf, WHITE_MATT, WHITE_SATIN } from './cloths'
import { choice, wordOf } from './fields'
import type { ModifierKind } from './types'
import { checkUmbrella, reflectedUmbrella, UMBRELLA_FIELDS } from './umbrella'

/** White inside, black outside, lamp shining back into it. */
export const whiteUmbrella: ModifierKind = {
  id: 'white-umbrella',
  label: 'White umbrella, reflected',
  fields: [...UMBRELLA_FIELDS, choice('cloth', 'Cloth', ['satin', 'matt'])],
  build: (modifier) => {
    const cloth = wordOf(modifier, 'cloth') === 'satin' ? WHITE_SATIN : WHITE_MATT
    return reflectedUmbrella(modifier, cloth, 'white', { inside: mattOf(cloth), outside: BLACK })
  },
  check: checkUmbrella,
}
