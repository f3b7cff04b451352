import { takeHead, takeModifier, takeStand } from '../../kit'
import type { Source } from '../../sitting'
import { type ChoiceRow, type ControlContext, choice, type FoldRow, fold, note, type Row } from './model'
import { placedByKind } from './swap-kind'

const OTHER = ''

/** Which entries of the kit stand here: chosen, they are copied into the sitting. */
export function kitUseRows({ id, kit: use }: Source, { kit }: ControlContext, ofLamp: boolean): FoldRow {
  const entries = (list: readonly { readonly id: string; readonly name: string }[], none: string) => [
    { value: OTHER, label: none },
    ...list.map((entry) => ({ value: entry.id, label: entry.name })),
  ]
  const row = (what: string, used: string | undefined, spec: Pick<ChoiceRow, 'choices' | 'change'>): Row =>
    choice(`kit ${what}`, {
      label: what,
      named: `${what} of the kit`,
      value: spec.choices.some(({ value }) => value === used) ? used! : OTHER,
      ...spec,
    })
  if (!kit || kit.heads.length + kit.modifiers.length + kit.stands.length === 0)
    return fold('kit', 'from the kit', [
      note('kit-empty', 'Your kit is empty: take the word kit in hand to enter what you own, or open its file.'),
    ])
  return fold('kit', 'from the kit', [
    ...(ofLamp
      ? [
          row('head', use?.headId, {
            choices: entries(kit.heads, 'not of the kit'),
            change: (sitting, to) => (to === OTHER ? sitting : takeHead(sitting, id, kit, to)),
          }),
          row('modifier', use?.modifierId, {
            choices: entries(kit.modifiers, 'not of the kit'),
            change: (sitting, to) =>
              to === OTHER ? sitting : placedByKind(sitting, takeModifier(sitting, id, kit, to), id),
          }),
        ]
      : []),
    row('stand', use?.standId, {
      choices: entries(kit.stands, 'not judged'),
      change: (sitting, to) => takeStand(sitting, id, kit, to === OTHER ? null : to),
    }),
  ])
}
