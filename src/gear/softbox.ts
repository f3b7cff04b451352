import { box, clothFields, fourCornered, sideFields } from './box'
import { numberOf } from './fields'
import { inCentimetres } from './head'
import type { ModifierKind } from './types'

/** Lit face: the front cloth. */
export const softBox: ModifierKind = {
  id: 'softbox',
  label: 'Softbox, silver inside',
  fields: [...sideFields(0.6, 0.9, [0.4, 1.2]), ...clothFields(0.4)],
  build: (modifier) => {
    const [widthM, heightM] = [numberOf(modifier, 'widthM'), numberOf(modifier, 'heightM')]
    const name = `softbox ${Math.round(widthM * 100)} × ${inCentimetres(heightM)}`
    return box(modifier, fourCornered(widthM, heightM, name))
  },
}
