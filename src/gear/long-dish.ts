import { reflector, reflectorFields } from './dish'
import type { ModifierKind } from './types'

/** Deep and narrow: the light of the standard dish thrown into a smaller angle. Opening and beam: common practice, no source. */
export const longDish: ModifierKind = {
  id: 'long-dish',
  label: 'Long-throw dish, 40°',
  fields: reflectorFields(0.26, [0.15, 0.4], [0.23, 0.3]),
  build: (modifier) => reflector(modifier, 40, 'long-throw dish', 0.95),
}
