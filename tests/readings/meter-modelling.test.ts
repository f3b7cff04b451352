import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import {
  addMeterPlace,
  firstSitting,
  type MeterCounts,
  type MeterPlace,
  type ModellingLamp,
  type Sitting,
  type Source,
  setCamera,
  setHead,
} from '../../src/sitting'
import { lamp, setOf, stopsBetween, take } from './set'

const room = { ...firstSitting().room, widthM: 16, depthM: 16, heightM: 5 }
const dark = { ...room, wallReflectance: 0, ceilingReflectance: 0, floorReflectance: 0 }
/** In free air, straight before a dish of 18 cm, so far off that it is a point: 0.0004 stop. */
const AIR: readonly [number, number, number] = [1.2, 1.2, 0.5]
const D = 4
const dish = (letter: string, rest: Partial<Source> = {}): Source => ({
  ...lamp(letter),
  centreM: [AIR[0], AIR[1], AIR[2] + D],
  aimM: AIR,
  ...rest,
})
/** Far aside, in view of the meter. */
const aside = (rest: Partial<Source> = {}): Source => dish('B', { centreM: [AIR[0] + 2, AIR[1], AIR[2] + 2], ...rest })
const halogen: ModellingLamp = { lamp: 'halogen', powerW: 150, colourTemperatureK: 3200, followsDial: true }
const named = (sitting: Sitting, change: Partial<ModellingLamp> = {}, id = 'source-A') =>
  setHead(sitting, id, { modelling: { ...halogen, ...change } })
const start = setOf([dish('A')], { reExpose: 'nothing', room: dark })

const readOf = (sitting: Sitting, counts?: MeterCounts, place: Partial<MeterPlace> = {}) => {
  const made = addMeterPlace(sitting, {
    at: { pointM: AIR },
    facing: { aimM: [AIR[0], AIR[1], 5] },
    receptor: 'disc',
    ...(counts && { counts }),
    ...place,
  })
  return take(made.sitting).of(`place.${made.id}`)
}
const shown = (...args: Parameters<typeof readOf>): number => readOf(...args).value as number
const dial = start.sources[0]!.head.powerStops
/**
 * cd on the axis: 20 lm/W (common practice, no source), of which the 65° dish sends out 0.75 over 1.239 sr for each candela
 * (shared/emission.md).
 */
const candela = (watts: number): number => (watts * 20 * 0.75) / 1.239

test('modelling lamps alone: E = I/d² in lx, EV = log₂(E·S/C) whatever the shutter, and N² = E·t·S/C at the one that is set', () => {
  const lux = (candela(150) * 2 ** dial) / D ** 2
  for (const shutterS of [1 / 30, 1 / 125]) {
    const set = setCamera(named(start), { shutterS })
    const { value, also, sentence, why } = readOf(set, 'modelling')
    expect(Math.abs(also!.lux! / lux - 1)).toBeLessThan(0.002)
    // ISO 2720, ISO 2721: C = 250 lx·s.
    expect(Math.abs(also!.ev - Math.log2((lux * set.camera.iso) / 250))).toBeLessThan(0.005)
    expect(Math.abs(stopsBetween(Math.sqrt((lux * shutterS * set.camera.iso) / 250), value as number))).toBeLessThan(
      0.005,
    )
    expect(sentence).toMatch(new RegExp(`modelling lamps only\\. Set .* at 1/${1 / shutterS} s; EV .* lx\\.$`))
    expect(`${sentence} ${why.filled}`).not.toMatch(/lx·s/)
  }
})

test('flash, steady light and modelling lamps add up, with and without each: N² goes with the light', () => {
  const led = aside({ modifier: defaultModifier('led-panel') })
  const set = named(setCamera(setOf([dish('A'), led], { reExpose: 'nothing', room: dark }), { shutterS: 1 / 15 }))
  const of = (counts?: MeterCounts) => shown(set, counts)
  expect(of('no flash')).toBeCloseTo(Math.hypot(of('steady'), of('modelling')), 9)
  expect(of('all')).toBeCloseTo(Math.hypot(of('flash'), of('steady'), of('modelling')), 9)
  expect(of()).toBeCloseTo(Math.hypot(of('flash'), of('steady')), 9)
  // Of one source alone: the panel has no modelling lamp.
  expect(shown(set, 'modelling', { sourceIds: ['source-A'] })).toBeCloseTo(of('modelling'), 9)
  expect(readOf(set, 'modelling', { sourceIds: ['source-B'] }).value).toBeNull()
  // Twice the time: a stop of what shines all along, none of the flash.
  const longer = setCamera(set, { shutterS: 2 / 15 })
  for (const counts of ['steady', 'modelling', 'no flash'] as const)
    expect(stopsBetween(of(counts), shown(longer, counts)), counts).toBeCloseTo(1, 9)
  expect(shown(longer, 'flash')).toBeCloseTo(of('flash'), 9)
  // lx·s where a flash is counted, lux where none is.
  for (const counts of ['flash', 'all', undefined] as const) expect(readOf(set, counts).also!.lux).toBeUndefined()
})

/** Both lamps shine through one cloth, so that what it takes from the flash in stops it takes from the lamp. */
test('through a softbox in a pale room the modelling lamp keeps its place under the flash: log₂(I·t/I flash)', () => {
  const box = setOf([dish('A', { modifier: defaultModifier('softbox') })], { reExpose: 'nothing', room })
  const set = named(box)
  const { head } = set.sources[0]!
  const guide = head.guideNumberM ?? 3.2 * Math.sqrt(head.energyJ)
  // Both at the dial's setting: I = 2.5·GN² cd·s [EXP-GN].
  const stops = Math.log2((candela(150) * set.camera.shutterS) / (2.5 * guide ** 2))
  expect(Math.abs(stopsBetween(shown(set, 'flash'), shown(set, 'modelling')) - stops)).toBeLessThan(0.01)
  expect(stopsBetween(shown(set, 'flash'), shown(set, 'modelling'))).toBeCloseTo(take(set).value('modelling.share'), 9)
})

test('where powers give way a lamp with the dial goes along by the two stops from f/8 to f/16, one always full stays', () => {
  const at = (fNumber: number, followsDial: boolean) =>
    shown(setCamera({ ...named(start, { followsDial }), reExpose: 'powers' }, { fNumber }), 'modelling')
  expect(stopsBetween(at(8, true), at(16, true))).toBeCloseTo(2, 9)
  expect(stopsBetween(at(8, false), at(16, false))).toBeCloseTo(0, 9)
})

test('a lamp that no head names is taken as is common and told so; a small battery flash has none', () => {
  expect(readOf(start, 'modelling').sentence).toMatch(/A: lamp not named, taken as halogen 150 W/)
  expect(shown(start, 'modelling')).toBeCloseTo(shown(named(start), 'modelling'), 9)
  expect(readOf(named(start), 'modelling').sentence).not.toMatch(/not named/)
  const small = setOf([dish('A', { modifier: defaultModifier('battery-flash') })], { reExpose: 'nothing', room: dark })
  expect(readOf(small, 'modelling').sentence).toMatch(/A: no modelling lamp/)
  expect(readOf(small, 'modelling').value).toBeNull()
  // Guessed to a stop, as watts are; the flash beside it is not.
  expect(readOf(start, 'modelling').band).toMatchObject({ plusMinus: 1, basis: 'guessed' })
})

test('a spot by modelling lamps: L = ρE/π in cd/m², log₂(ρ·C/(π·K)) against an incident disc there', () => {
  const card = {
    ...{ id: 'card', kind: 'card' as const, centreM: AIR, widthM: 0.4, heightM: 0.4, turnDeg: 0, tiltDeg: 0 },
    reflectance: 0.18,
  }
  // Balanced for the lamp: a grey card stays grey.
  const set = setCamera(named({ ...start, objects: [card] }, { colourTemperatureK: 3200 }), { balanceK: 3200 })
  const spot = readOf(set, 'modelling', { receptor: 'spot' })
  const beside = { at: { pointM: [AIR[0], AIR[1], AIR[2] + 0.005] as const } }
  const over = stopsBetween(shown(set, 'modelling', beside), spot.value as number)
  expect(Math.abs(over - Math.log2((0.18 * 250) / (Math.PI * 12.5)))).toBeLessThan(0.005)
  const nits = Number(/: ([\d.]+) cd\/m², /.exec(spot.sentence)![1])
  expect(Math.abs(nits / ((0.18 * candela(150) * 2 ** dial) / D ** 2 / Math.PI) - 1)).toBeLessThan(0.02)
})
