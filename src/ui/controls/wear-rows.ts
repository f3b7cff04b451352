import { HAIR_CUTS, HEADWEARS } from '../../figure'
import { wearOf } from '../../rig'
import { type Sitter, setSitter } from '../../sitting'
import { choice, type Row } from './model'

const TONES: readonly Sitter['clothes'][] = ['white', 'grey', 'black']

/** How the hair is cut and what covers the head; the tone of that, while there is any. */
export function wearRows(sitter: Sitter): Row[] {
  const { hairCut, headwear } = wearOf(sitter)
  const word = <K extends 'hairCut' | 'headwear' | 'headwearTone'>(
    id: K,
    label: string,
    value: NonNullable<Sitter[K]>,
    choices: readonly NonNullable<Sitter[K]>[],
    named = label,
  ): Row =>
    choice(id, {
      label,
      named,
      value,
      choices,
      change: (sitting, chosen) => setSitter(sitting, sitter.id, { [id]: chosen }),
    })
  return [
    word('hairCut', 'cut', hairCut, HAIR_CUTS, 'hair cut'),
    word('headwear', 'headwear', headwear, HEADWEARS),
    ...(headwear === 'none'
      ? []
      : [word('headwearTone', 'tone', sitter.headwearTone ?? 'grey', TONES, 'headwear tone')]),
  ]
}
