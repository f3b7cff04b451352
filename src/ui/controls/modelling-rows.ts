import { modifierKind } from '../../gear'
import { USUAL_MODELLING } from '../../rig'
import { type ModellingLamp, type Source, setHead } from '../../sitting'
import { quantities } from '../values'
import { choice, fold, number, type Row } from './model'

export const LAMPS = [
  { value: 'usual', label: 'as is common' },
  { value: 'halogen', label: 'halogen' },
  { value: 'LED', label: 'LED' },
] as const

/** What a lamp has when it is named for the first time: common practice, no source. */
export const FRESH: Readonly<Record<ModellingLamp['lamp'], ModellingLamp>> = {
  halogen: USUAL_MODELLING,
  LED: { lamp: 'LED', powerW: 30, colourTemperatureK: 5500, followsDial: true },
}

export const FOLLOWS = [
  { value: 'dial', label: 'with the dial' },
  { value: 'full', label: 'always full' },
] as const

/** The modelling lamp of a flash head; none of what burns on by itself. */
export function modellingRows({ id, head, modifier }: Source): readonly Row[] {
  if (modifierKind(modifier.kind).burnsOn) return []
  const { modelling } = head
  const set = (change: Partial<ModellingLamp>) => (sitting: Parameters<typeof setHead>[0]) =>
    setHead(sitting, id, { modelling: { ...(modelling ?? USUAL_MODELLING), ...change } })
  const own = modelling && [
    number('modellingW', {
      label: 'watts',
      named: 'power of the modelling lamp',
      quantity: quantities.plain('W', 5),
      value: modelling.powerW,
      range: [1, 1000],
      usual: [5, 300],
      change: (sitting, powerW) => set({ powerW })(sitting),
    }),
    number('modellingK', {
      label: 'colour',
      named: 'colour of the modelling lamp',
      quantity: quantities.plain('K', 100),
      value: modelling.colourTemperatureK,
      range: [2000, 20000],
      usual: [2700, 6000],
      change: (sitting, colourTemperatureK) => set({ colourTemperatureK })(sitting),
    }),
    choice('modellingDial', {
      label: 'goes',
      named: 'how the modelling lamp goes',
      value: modelling.followsDial ? 'dial' : 'full',
      choices: FOLLOWS,
      change: (sitting, value) => set({ followsDial: value === 'dial' })(sitting),
    }),
  ]
  return [
    fold('modelling', 'modelling lamp', [
      choice('modellingLamp', {
        label: 'lamp',
        named: 'modelling lamp',
        value: modelling?.lamp ?? 'usual',
        choices: LAMPS,
        change: (sitting, value) =>
          setHead(sitting, id, { modelling: value === 'halogen' || value === 'LED' ? FRESH[value] : undefined }),
      }),
      ...(own ?? []),
    ]),
  ]
}
