import { box, clothFields, fourCornered, sideFields } from './box'
import { numberOf } from './fields'
import { inCentimetres } from './head'
import type { ModifierKind } from './types'

/** A narrow softbox. */
export const stripBox: ModifierKind = {
  id: 'strip',
  label: 'Strip box, silver inside',
  fields: [...sideFields(0.3, 1.2, [0.22, 1.4]), ...clothFields(0.35)],
  build: (modifier) => {
    const [widthM, heightM] = [numberOf(modifier, 'widthM'), numberOf(modifier, 'heightM')]
    const name = `strip box ${Math.round(widthM * 100)} × ${inCentimetres(heightM)}`
    return box(modifier, fourCornered(widthM, heightM, name))
  },
}
