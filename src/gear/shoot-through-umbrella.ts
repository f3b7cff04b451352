import { TRANSLUCENT_BACK, translucentFront, WHITE_CLOTH } from './cloths'
import { numberOf, share } from './fields'
import type { ModifierKind } from './types'
import { checkUmbrella, shaftOf, shootThroughUmbrella, UMBRELLA_FIELDS } from './umbrella'

/** Translucent white, apex towards the sitter, lamp behind it. A third of its light goes back into the room. */
export const shootThrough: ModifierKind = {
  id: 'shoot-through-umbrella',
  label: 'Shoot-through umbrella',
  fields: [...UMBRELLA_FIELDS, share('forwardShare', 'Share of the light that keeps its direction', 0, [0, 0.4])],
  shaft: (modifier) => shaftOf(modifier, false),
  build: (modifier) =>
    shootThroughUmbrella(modifier, translucentFront(numberOf(modifier, 'forwardShare')), TRANSLUCENT_BACK, WHITE_CLOTH),
  check: checkUmbrella,
}
