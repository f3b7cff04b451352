import { describe, expect, test } from 'vitest'
import { defaultModifier, modellingCandela } from '../../src/gear'
import { recombinationOf } from '../../src/render'
import { type ModellingLamp, type Source, setHead } from '../../src/sitting'
import { inputOf, lamp, setOf, take } from './set'

const dish = (letter: string, azimuth: number, rest: Partial<Source> = {}): Source => ({
  ...lamp(letter, { az: azimuth, modifier: defaultModifier('dish') }),
  ...rest,
})
const halogen: ModellingLamp = { lamp: 'halogen', powerW: 150, colourTemperatureK: 3200, followsDial: true }
const start = setOf([dish('A', 40), dish('B', -40, { role: 'fill' })], { reExpose: 'nothing' })
const named = (a: Partial<ModellingLamp>, b: Partial<ModellingLamp>, bStops = -1) => {
  const withA = setHead(start, 'source-A', { modelling: { ...halogen, ...a } })
  return setHead(withA, 'source-B', { modelling: { ...halogen, ...b }, powerStops: bStops })
}

describe('modelling lamps against flash', () => {
  test('with the dial they show the ratio of the flash; one always full shows a light one stop down too bright by that stop', () => {
    expect(take(named({}, {})).value('modelling.B.ratio')).toBeCloseTo(0, 9)
    const [a, b] = start.sources.map(({ head }) => head.powerStops)
    expect(take(named({}, { followsDial: false })).value('modelling.B.ratio')).toBeCloseTo(1, 9)
    expect(a).toBe(b)
  })
  test('half the watts are a stop; another kind of lamp goes by its lumens, 90 against 20 a watt (common practice, no source)', () => {
    expect(take(named({}, { powerW: 75 })).value('modelling.B.ratio')).toBeCloseTo(-1, 9)
    expect(take(named({}, { lamp: 'LED' })).value('modelling.B.ratio')).toBeCloseTo(Math.log2(90 / 20), 9)
    expect(take(named({}, { colourTemperatureK: 5500 })).of('modelling.B.ratio').sentence).toMatch(
      /5500 K is cooler than 3200 K/,
    )
  })
  test('its share at the shutter is I·t over the flash: a stop less for half the time', () => {
    const at = (shutterS: number) => {
      const sitting = named({}, {})
      return take({ ...sitting, camera: { ...sitting.camera, shutterS } }).value('modelling.share')
    }
    expect(at(1 / 60) - at(1 / 120)).toBeCloseTo(1, 9)
    // 150 W of halogen, 3000 lm, 0.75 of them out of the dish over 1.239 sr per cd (emission.md); guide number 3.2·√J with I = 250·GN²/ISO.
    const source = start.sources[0]!
    const guide = source.head.guideNumberM ?? 3.2 * Math.sqrt(source.head.energyJ)
    const flash = 2.5 * guide ** 2 * 2 ** source.head.powerStops
    const candela = ((150 * 20 * 0.75) / 1.239) * 2 ** source.head.powerStops
    expect(Math.abs(at(1 / 60) - Math.log2(candela / 60 / flash))).toBeLessThan(0.01)
    expect(Math.abs(modellingCandela('halogen', 150) / ((150 * 20 * 0.75) / 1.239) - 1)).toBeLessThan(0.001)
  })
  /** The power goes up by two stops from f/8 to f/16: each stop is a factor of √2 in N, ISO 2721. */
  test('where powers give way, a lamp with the dial goes along and keeps its share; one always full does not', () => {
    const at = (fNumber: number, own: Partial<ModellingLamp>, other: Partial<ModellingLamp>) => {
      const sitting = named(own, other)
      return take({ ...sitting, reExpose: 'powers', camera: { ...sitting.camera, fNumber } })
    }
    const [dial, full] = [{ followsDial: true }, { followsDial: false }]
    const step = (id: string, own: Partial<ModellingLamp>, other: Partial<ModellingLamp>) =>
      at(16, own, other).value(id) - at(8, own, other).value(id)
    expect(step('modelling.share', dial, dial)).toBeCloseTo(0, 9)
    expect(step('modelling.share', full, dial)).toBeCloseTo(-2, 9)
    expect(step('modelling.B.ratio', dial, dial)).toBeCloseTo(0, 9)
    expect(step('modelling.B.ratio', dial, full)).toBeCloseTo(-2, 9)
  })
  test('nothing is read of lamps that no head names', () => {
    expect(take(start).readings.some(({ id }) => id.startsWith('modelling.'))).toBe(false)
  })
})

test('the preview weighs the layers by the lamps, the key as bright as by flash, in their own colour', () => {
  const { rig } = inputOf(named({}, { followsDial: false, colourTemperatureK: 5500 }))
  const flash = recombinationOf(rig, null)
  const preview = recombinationOf(rig, null, { modelling: true })
  expect(preview.weights[0]!.factor).toBeCloseTo(flash.weights[0]!.factor, 9)
  expect(preview.weights[1]!.factor / flash.weights[1]!.factor).toBeCloseTo(2, 9)
  // Red over blue: halogen warm, the other as the flash.
  const warmth = ({ rgb }: { rgb: readonly number[] }) => rgb[0]! / rgb[2]!
  expect(warmth(preview.weights[0]!)).toBeGreaterThan(2 * warmth(flash.weights[0]!))
  expect(warmth(preview.weights[1]!)).toBeCloseTo(warmth(flash.weights[1]!), 6)
  // Re-exposed two stops up, the dial takes A's lamp along and not B's: beside A it shows two stops less.
  const up = { factorStops: 2, fNumber: rig.view.fNumber }
  const beside = (modelling: boolean) => {
    const [a, b] = recombinationOf(rig, up, { modelling }).weights
    return { key: a!.factor, ratio: b!.factor / a!.factor }
  }
  expect(beside(true).key).toBeCloseTo(beside(false).key, 9)
  expect(Math.log2(beside(true).ratio / (preview.weights[1]!.factor / preview.weights[0]!.factor))).toBeCloseTo(-2, 9)
  // No shutter hides what burns on.
  expect(preview.weights.every(({ burnsOn }) => burnsOn === true)).toBe(true)
})
