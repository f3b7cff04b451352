import { type Source, setHead } from '../../sitting'
import { quantities } from '../values'
import { choice, type FoldRow, fold, number } from './model'

export const STEPS = [
  { value: '', label: 'without steps' },
  { value: '0.1', label: 'tenths' },
  { value: String(1 / 3), label: 'thirds' },
  { value: '0.5', label: 'halves' },
  { value: '1', label: 'whole stops' },
] as const

/** How far down the dial of a head goes, and in which steps. */
export function dialRows({ id, head }: Source): FoldRow {
  const now = head.stepStops === undefined ? '' : String(head.stepStops)
  const known = STEPS.some(({ value }) => value === now)
  return fold('dial-range', 'dial', [
    number('lowest', {
      label: 'lowest',
      named: 'lowest power',
      quantity: quantities.power,
      value: head.lowestStops,
      range: [-12, Math.min(0, head.powerStops)],
      change: (sitting, lowestStops) => setHead(sitting, id, { lowestStops }),
    }),
    choice('steps', {
      label: 'steps',
      named: 'steps of the dial',
      value: now,
      choices: known ? STEPS : [...STEPS, { value: now, label: `${now} stop` }],
      change: (sitting, value) => setHead(sitting, id, { stepStops: value === '' ? undefined : Number(value) }),
    }),
  ])
}
