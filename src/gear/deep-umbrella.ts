import { BLACK, mattOf, silver, silverFinish, WHITE_SATIN } from './cloths'
import { choice, following, length, numberOf, share, wordOf } from './fields'
import type { ModifierKind, Problem } from './types'
import { FRONT_FIELD, reflectedUmbrella, shaftOf } from './umbrella'

const DEEPEST = 0.45

/**
 * A canopy some 40 % deep with the lamp inside it, near the focus of a silver one (half the sphere's radius): narrow and bright
 * on its axis. Its ribs make a cap here; parabolic ones are a little flatter in the middle.
 */
export const deepUmbrella: ModifierKind = {
  id: 'deep-umbrella',
  label: 'Deep umbrella, silver or white',
  fields: [
    length('diameterM', 'Open width, rim to rim', 1.05, [0.6, 2], [0.85, 1.65]),
    following(length('depthM', 'Depth of the canopy', 0.4, [0.2, 0.9], [0.35, 0.65]), 'diameterM'),
    following(length('shaftM', 'Lamp from the apex', 0.3, [0.15, 1], [0.2, 0.5]), 'diameterM'),
    choice('lining', 'Inside', ['silver', 'white']),
    share('roughness', 'Roughness of silver, α = r²', 0.4, [0.3, 0.6]),
    FRONT_FIELD,
    length('bodyM', 'Length of the head behind its dish', 0.3, [0, 0.6], [0.2, 0.45]),
  ],
  shaft: (modifier) => shaftOf(modifier, wordOf(modifier, 'lining') === 'silver'),
  build: (modifier) => {
    const roughness = numberOf(modifier, 'roughness')
    if (wordOf(modifier, 'lining') === 'white')
      return reflectedUmbrella(modifier, {
        ...{ cloth: WHITE_SATIN, words: 'deep white', inside: mattOf(WHITE_SATIN), outside: BLACK },
      })
    return reflectedUmbrella(modifier, {
      ...{ cloth: silver(roughness), words: 'deep silver', inside: silverFinish(roughness), outside: BLACK },
      spreadsAgain: true,
    })
  },
  check: (modifier, path): readonly Problem[] => {
    const [width, depth] = [numberOf(modifier, 'diameterM'), numberOf(modifier, 'depthM')]
    if (depth <= DEEPEST * width) return []
    return [
      {
        path: `${path}.depthM`,
        expected: `at most 45 % of the width, ${(DEEPEST * width).toFixed(2)} m`,
        got: `${depth} m`,
        advice: 'Make it flatter or wider.',
      },
    ]
  },
}
