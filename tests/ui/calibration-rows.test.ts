import { afterEach, expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { type Sitting, setPower } from '../../src/sitting'
import { calibrationRows } from '../../src/ui/controls/calibration-rows'
import type { NumberRow, Row } from '../../src/ui/controls/model'
import { setDerived, useDerivedNow } from '../../src/ui/derived'
import { lamp, setOf, take } from '../readings/set'

/** Powers give way, as in every scene of the project; f/8 on the lens. */
const start = setOf([lamp('A', { az: 30, el: 20, modifier: defaultModifier('softbox') })], { reExpose: 'powers' })
const f8: Sitting = { ...start, camera: { ...start.camera, fNumber: 8 } }

/** As the page has it: the rows are of the sitting that was read last. */
function rowsOf(sitting: Sitting): readonly Row[] {
  setDerived({
    read: { ...take(sitting), hidden: { lens: [], profile: [] }, turn: 1, set: 1, settled: true, of: sitting },
  })
  const { exposure } = useDerivedNow.getState().read!
  return calibrationRows(sitting.sources[0]!, { sitting, marks: null, exposure }).rows
}
const real = (sitting: Sitting) => rowsOf(sitting).find(({ id }) => id === 'real') as NumberRow
const how = (sitting: Sitting) => rowsOf(sitting).find(({ id }) => id === 'how')
const typed = (sitting: Sitting, fNumber: number): Sitting => real(sitting).change(sitting, fNumber)
const stopsOf = (sitting: Sitting) => sitting.sources[0]!.calibration!.stops

afterEach(() => setDerived({ read: null }))

test('typed again, or otherwise, a reading replaces the one before it: N² goes with the light', () => {
  let sitting = f8
  for (let i = 0; i < 4; i++) {
    sitting = typed(sitting, 8.8)
    expect(stopsOf(sitting)).toBeCloseTo(2 * Math.log2(8.8 / 8), 9)
    expect(real(sitting).value).toBe(8.8)
  }
  expect(stopsOf(typed(sitting, 7.2))).toBeCloseTo(2 * Math.log2(7.2 / 8), 9)
  expect(how(sitting)).toEqual(how(f8))
})

test('the power that gives way falls by what the head gives more', () => {
  const after = typed(f8, 8.8)
  const dial = (sitting: Sitting) => take(sitting).exposure.perSourceStops['source-A']!
  expect(dial(after) - dial(f8)).toBeCloseTo(-2 * Math.log2(8.8 / 8), 9)
})

test('after another change it is a new reading, at the powers that are shown then', () => {
  const once = typed(f8, 8 * Math.SQRT2)
  const moved = setPower({ ...once, reExpose: 'nothing' }, 'source-A', -3)
  const shown = take(moved).value('source.A.alone')
  expect(stopsOf(typed(moved, shown))).toBeCloseTo(1, 9)
})

test('nothing of it can be dragged', () => expect(real(f8).typedOnly).toBe(true))
