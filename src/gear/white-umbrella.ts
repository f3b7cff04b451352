import { BACKED_WHITE, BLACK, mattOf, THROUGH_WHITE, UNBACKED_WHITE, WHITE_CLOTH } from './cloths'
import { choice, optional, wordOf } from './fields'
import type { ModifierKind, Problem } from './types'
import { checkUmbrella, FRONT_FIELD, reflectedUmbrella, shaftOf, UMBRELLA_FIELDS } from './umbrella'

/** White inside, lamp shining back into it; black outside, or without a backing, so that part of the light goes on through. */
export const whiteUmbrella: ModifierKind = {
  id: 'white-umbrella',
  label: 'White umbrella, reflected',
  fields: [
    ...UMBRELLA_FIELDS,
    choice('cloth', 'Cloth', ['satin', 'matt']),
    optional(choice('backing', 'Outside', ['black', 'translucent'])),
    FRONT_FIELD,
  ],
  shaft: (modifier) => shaftOf(modifier, false),
  build: (modifier) => {
    const finish = wordOf(modifier, 'cloth') === 'satin' ? 'satin' : 'matt'
    if (wordOf(modifier, 'backing') === 'black') {
      const cloth = BACKED_WHITE[finish]
      return reflectedUmbrella(modifier, { cloth, words: 'white', inside: mattOf(cloth), outside: BLACK })
    }
    const cloth = UNBACKED_WHITE[finish]
    const backCloth = { ...THROUGH_WHITE, exchange: cloth.exchange }
    const made = { cloth, backCloth, words: 'unbacked white', inside: mattOf(cloth), outside: WHITE_CLOTH }
    return reflectedUmbrella(modifier, made)
  },
  check: (modifier, path): readonly Problem[] => {
    const both = modifier.backing === 'translucent' && modifier.front === 'cloth'
    const problem: Problem = {
      path: `${path}.front`,
      expected: 'none, where the outside is translucent',
      got: '"cloth"',
      advice: 'Take the black outside, or take the front cloth off.',
    }
    return [...checkUmbrella(modifier, path), ...(both ? [problem] : [])]
  },
}
