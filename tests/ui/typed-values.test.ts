/**
 * Whatever is typed into any numeric field of the page: taken, or told with what was expected and what was got, and then
 * nothing is changed. The fields are those of the sheets, which are made from the tables of the kinds of gear.
 */
import { beforeEach, describe, expect, test } from 'vitest'
import { MODIFIER_KINDS } from '../../src/gear'
import {
  addMeterPlace,
  addObject,
  addPanel,
  addSitter,
  checkSitting,
  firstSitting,
  problemSentence,
  type Sitting,
  setGlasses,
  setHead,
  setHood,
} from '../../src/sitting'
import type { NumberRow } from '../../src/ui/controls/model'
import { FRESH } from '../../src/ui/controls/modelling-rows'
import { sheetOf } from '../../src/ui/controls/sheet'
import { swapKind } from '../../src/ui/controls/swap-kind'
import { currentSitting, edit, restore, useStore } from '../../src/ui/store'
import { type LengthUnits, parseWithin } from '../../src/ui/values'
import { MARKS, unfolded } from './random-hand'

const UNREADABLE = [
  '',
  '  ',
  'bananas',
  '12 parsecs',
  '1,2,3',
  '1.2.3 m',
  'NaN',
  'Infinity',
  '1e400',
  '--5',
  '5 5',
  '½',
]

const first = firstSitting()
const key = first.sources[0]!.id
const numbers = (sitting: Sitting, id: string): readonly NumberRow[] =>
  sheetOf({ sitting, marks: MARKS, exposure: null }, id)!
    .groups.flatMap(({ rows }) => unfolded(rows))
    .filter((row): row is NumberRow => row.kind === 'number')

/** A sitting with the thing in it, the thing's id, and how many fields it must have at least, or nothing would be asked. */
const THINGS: readonly (readonly [name: string, sitting: Sitting, id: string, least: number])[] = [
  ...MODIFIER_KINDS.map(({ id }) => [id, swapKind(first, key, id), key, 3] as const),
  ...(['numbers', 'joules'] as const).map((dialStyle) => {
    const set = setHead(first, key, { dialStyle, modelling: FRESH.LED })
    return [`a dial in ${dialStyle}, a modelling lamp`, set, key, 18] as const
  }),
  ...['camera', 'room', 'backdrop', 'sitter'].map(
    (id) => [id, setGlasses(setHood(first, {}), 'sitter', { frame: 'metal' }), id, id === 'camera' ? 12 : 4] as const,
  ),
  ...(['ball', 'card', 'flag-before-card'] as const).map((kind) => {
    const { sitting, id } = addObject(first, kind)
    return [kind, sitting, id, 5] as const
  }),
  ...[addPanel(first, 'black'), addMeterPlace(first, {}), addSitter(first)].map(
    ({ sitting, id }, i) => [['panel', 'meter', 'second sitter'][i]!, sitting, id, [8, 3, 9][i]!] as const,
  ),
]

/** As a row's field does: read within its range, then an edit. The words of the fault; null: taken. */
function typeInto(row: NumberRow, text: string, units: LengthUnits): string | null {
  const parsed = parseWithin(row.quantity, text, row.range, units)
  if (!parsed.ok) return parsed.message
  if (edit(row.label, (sitting) => row.change(sitting, parsed.value))) return null
  const notice = useStore.getState().session.notice!
  return `${notice.title} ${notice.problems.map(({ expected, got, advice }) => `expected ${expected}, got ${got}. ${advice}`)}`
}

const beyond = ({ range: [low, high] }: NumberRow): readonly number[] => [
  low > 0 ? low / 4 : low - (high - low) - 1,
  high + (high - low) + 1,
]

describe.each(THINGS)('%s', (_, sitting, id, least) => {
  beforeEach(() => restore(sitting, {}))

  test.each(['metres', 'feet'] as const)('in %s: what cannot be had is told, and nothing is lost', (units) => {
    const rows = numbers(sitting, id)
    expect(rows.length).toBeGreaterThanOrEqual(least)
    const { history } = useStore.getState()
    for (const row of rows) {
      for (const text of UNREADABLE)
        expect(typeInto(row, text, units), `${row.id}: “${text}”`).toMatch(
          text.trim() === '' ? /^expected .+, got nothing$/ : /^expected .+, got “.+”$/,
        )
      for (const value of beyond(row)) {
        const [low, high, got] = [...row.range, value].map((number) => row.quantity.format(number, units))
        expect(typeInto(row, got!, units), `${row.id}: ${got}`).toBe(`expected ${low} to ${high}, got ${got}`)
      }
    }
    expect(useStore.getState().history).toBe(history)
  })

  test('what is shown can be typed, and either end of a range is taken or told', () => {
    for (const row of numbers(sitting, id)) {
      for (const units of ['metres', 'feet'] as const) {
        const shown = row.quantity.format(row.value, units)
        const read = parseWithin(row.quantity, shown, row.range, units)
        expect(read.ok && row.quantity.format(read.value, units), `${row.id} ${units}`).toBe(shown)
      }
      for (const end of row.range) {
        restore(sitting, {})
        const fault = typeInto(row, row.quantity.format(end, 'metres'), 'metres')
        if (fault === null) expect(checkSitting(currentSitting()).map(problemSentence), row.id).toEqual([])
        else {
          expect(fault, row.id).toMatch(/expected .+, got .+/)
          expect(currentSitting(), row.id).toBe(sitting)
        }
      }
    }
  })
})
