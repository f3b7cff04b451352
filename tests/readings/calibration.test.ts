import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import {
  calibrateSource,
  EditRefused,
  firstSitting,
  forgetCalibration,
  moveSource,
  readSitting,
  type Sitting,
  setHead,
  setModifier,
  setPower,
  swapModifier,
  writeSitting,
} from '../../src/sitting'
import { inputOf, lamp, setOf, stopsBetween, take } from './set'

const fixed: Partial<Sitting> = { reExpose: 'nothing' }
const ALONE = 'source.A.alone'
const set = setOf([lamp('A', { az: 30, el: 20, modifier: defaultModifier('white-umbrella') })], fixed)
const workedOut = take(set).value(ALONE)
const real = workedOut * 2 ** (0.6 / 2)
const calibrated = calibrateSource(set, 'source-A', { readFNumber: real, workedOut, date: '2026-11-26' })

test('after one real reading the same place reads it, with the narrower band, and what was worked out is kept', () => {
  const after = take(calibrated)
  // trade.md §4.2: ±0.6 to 0.7 before, 0.2 to 0.3 after.
  expect(after.value(ALONE)).toBeCloseTo(real, 9)
  expect(after.of(ALONE).band).toEqual({ plusMinus: 0.3, unit: 'stop', basis: 'measured' })
  expect(take(set).of(ALONE).band).toEqual({ plusMinus: 0.7, unit: 'stop', basis: 'guessed' })
  expect(after.value('source.A.uncalibrated')).toBeCloseTo(workedOut, 9)
  expect(after.of('exposure.nearCheek.disc.light').band?.basis).toBe('measured')
})

test('every later figure of the pair goes by it: another power, another distance, +0.6 stop', () => {
  for (const change of [
    (s: Sitting) => setPower(s, 'source-A', -5),
    (s: Sitting) => moveSource(s, 'source-A', [1, 1.9, 1.4]),
  ])
    expect(stopsBetween(take(change(set)).value(ALONE), take(change(calibrated)).value(ALONE))).toBeCloseTo(0.6, 9)
})

test('calibrated again it goes by the new reading alone; another modifier or lamp is not calibrated; it can be forgotten', () => {
  const again = calibrateSource(calibrated, 'source-A', { readFNumber: workedOut, workedOut, date: '2026-11-27' })
  expect(take(again).value(ALONE)).toBeCloseTo(workedOut, 9)
  for (const other of [
    swapModifier(calibrated, 'source-A', 'softbox'),
    setModifier(calibrated, 'source-A', { widthM: 1.2 }),
    setHead(calibrated, 'source-A', { energyJ: 600 }),
    forgetCalibration(calibrated, 'source-A'),
  ])
    expect(other.sources[0]!.calibration).toBeUndefined()
  expect(setHead(calibrated, 'source-A', { powerStops: -2 }).sources[0]!.calibration).toBeDefined()
  const read = readSitting(writeSitting(calibrated))
  expect('sitting' in read && read.sitting.sources[0]!.calibration).toEqual(calibrated.sources[0]!.calibration)
})

test('what no meter shows is refused and changes nothing', () => {
  const before = structuredClone(set)
  for (const readFNumber of [0, -8, Number.NaN, Number.POSITIVE_INFINITY, workedOut * 64])
    expect(() => calibrateSource(set, 'source-A', { readFNumber, workedOut, date: '' })).toThrow(EditRefused)
  expect(() => calibrateSource(set, 'source-A', { readFNumber: 8, workedOut: 0, date: '' })).toThrow(/switch it on/)
  expect(set).toEqual(before)
})

/** trade.md §1.2 question 71 [C]: leaning 10 cm towards the key. */
test.each([
  [0.75, 0.41],
  [1, 0.3],
  [1.5, 0.2],
  [2, 0.15],
])('a bare small key %f m off: 10 cm nearer is +%f stop', (tape, stops) => {
  const eyes = setOf([lamp('A', { az: 45, el: 0, d: 2 })], fixed)
  const [x, y, z] = [0, 1, 2].map((i) => eyes.sources[0]!.centreM[i]!) as [number, number, number]
  const far = take(eyes)
  const at = far.of('source.A.tape').value as number
  const cheek = far.of('sensitivity.distance').place.at!
  const k = tape / at
  const near = take(
    moveSource(eyes, 'source-A', [0, 1, 2].map((i) => cheek[i]! + k * ([x, y, z][i]! - cheek[i]!)) as never),
  )
  expect(Math.abs(near.value('sensitivity.distance') - stops)).toBeLessThan(0.015)
})

/** §1.2 question 72 [C]: 10 cm taller, 35° becomes 30° at 1 m and 31° at 1.25 m. */
test.each([
  [1, 30],
  [1.25, 31],
])('a sitter 10 cm taller before a key 35° up and %f m off: %i°', (d, after) => {
  const read = take(setOf([lamp('A', { az: 30, el: 35, d })], fixed))
  expect(Math.round(35 + read.value('sensitivity.taller'))).toBe(after)
})

/** §1.2 question 73 [C]: three abreast, 0.6 m apart. */
test.each([
  [45, 2, 1.2],
  [15, 3, 0.3],
])('three abreast under a key %i° round at %f m: %f stop from end to end', (az, d, stops) => {
  const [first] = firstSitting().sitters
  const beside = [-0.6, 0.6].map((xM, i) => ({ ...first!, id: `beside-${i}`, xM, headTurnDeg: 0, eyeHeightM: 1.2 }))
  // A bare bulb, as a dish gives the ends less than the middle it is aimed at.
  const one = setOf([lamp('A', { az, el: 0, d, modifier: defaultModifier('bare-bulb') })], fixed)
  const set = { ...one, sitters: [...one.sitters, ...beside] }
  const taken = take(set)
  const key = set.sources[0]!.centreM
  const law = (places: readonly (readonly number[])[]): number => {
    const away = places.map(([x, y, z]) => Math.hypot(key[0] - x!, key[1] - y!, key[2] - z!))
    return 2 * Math.log2(Math.max(...away) / Math.min(...away))
  }
  // The table is of points at the three heads; a meter is held at the near cheeks, some centimetres nearer the key.
  expect(Math.abs(taken.value('group.spread') - stops)).toBeLessThan(0.05)
  const cheeks = inputOf(set).rig.figures.map(({ posed }) => posed.landmarks.cheekLeft.position)
  expect(Math.abs(taken.value('group.spread') - law(cheeks))).toBeLessThan(0.05)
  expect(taken.readings.filter(({ id }) => id.startsWith('group.'))).toHaveLength(3)
})
