import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { colourFromTemperature } from '../../src/photometry'
import {
  addSitter,
  addSitterBehind,
  EditRefused,
  type Head,
  type Sitting,
  setBalanceFromCard,
  setCamera,
  setHead,
} from '../../src/sitting'
import { inputOf, lamp, setOf, take } from './set'

const flash = lamp('A', { az: 20, el: 10, d: 1.6 })
const steady = lamp('B', { az: -30, el: 10, d: 1.6, role: 'fill', modifier: defaultModifier('modelling-lamp') })
const fixed: Partial<Sitting> = { reExpose: 'nothing' }

test('what moves at 2 m/s goes 7.5 mm while t0.1 of 1/267 s lasts, and t0.1 is ln 10/ln 2 of t0.5 where that is known', () => {
  const set = setCamera(setHead(setOf([flash], fixed), 'source-A', { t01S: 0.00375 }), { moverMps: 2 })
  const read = take(set)
  expect(read.value('source.A.movement')).toBeCloseTo(7.5, 9)
  // f/(s·u) by similar triangles: 6000 pixels on the long side of the frame.
  const { focalLengthMm, sensorHeightMm, positionM } = set.camera
  const eyes = inputOf(set).rig.figures[0]!.posed.eyeMidpoint
  const away = Math.hypot(...positionM.map((x, i) => x - eyes[i]!))
  const pixels = (7.5 * 6000 * focalLengthMm) / (1000 * away * sensorHeightMm)
  const said = Number(/: ([\d.]+) pixels/.exec(read.of('source.A.movement').sentence)![1])
  expect(Math.abs(said / pixels - 1)).toBeLessThan(0.02)
  const half = take(setCamera(setHead(setOf([flash], fixed), 'source-A', { t05S: 0.001 }), { moverMps: 2 }))
  // Exponential fall: to a tenth takes ln 10/ln 2 = 3.32 times as long as to a half (trade: about 3).
  expect(half.value('source.A.movement')).toBeCloseTo((2 * Math.log(10)) / Math.log(2), 9)
  expect(take(setOf([flash], fixed)).of('source.A.movement').sentence).toMatch(/which its head does not say/)
})

/** Given two published ends, equal steps of the dial are equal factors (the law that the reading states): at half way the geometric mean. */
test('the flash goes with the dial where its head says both ends, shorter or longer; where it does not, the reading says so', () => {
  const at = (powerStops: number, durations: Partial<Head>, reExpose: Sitting['reExpose'] = 'nothing') =>
    take(
      setCamera(
        { ...setHead(setOf([flash]), 'source-A', { ...durations, lowestStops: -8, powerStops }), reExpose },
        { moverMps: 1 },
      ),
    )
  const mm = (...args: Parameters<typeof at>) => at(...args).value('source.A.movement')
  const cut = { t01S: 0.004, t01LowestS: 0.00025 }
  expect(mm(0, cut)).toBeCloseTo(4, 9)
  expect(mm(-4, cut)).toBeCloseTo(1, 9)
  expect(mm(-8, cut)).toBeCloseTo(0.25, 9)
  expect(at(-4, cut).of('source.A.movement').sentence).toMatch(/t0\.1 1\/1000 s at 1\/16:/)
  // A head that gives less by charging less burns longer at the lowest.
  const charged = { t05S: 0.001, t05LowestS: 0.004 }
  expect(mm(-4, charged)).toBeCloseTo((2 * Math.log(10)) / Math.log(2), 9)
  // Powers that give way take the duration along, to the dial that is shown.
  const given = at(-4, cut, 'powers')
  const dial = given.exposure.perSourceStops['source-A']!
  expect(dial).not.toBeCloseTo(-4, 1)
  expect(given.value('source.A.movement')).toBeCloseTo(4 * 2 ** (dial / 2), 9)
  // Only full power is published: its time stands, and what the dial does to it is not made up.
  expect(mm(-4, { t01S: 0.004 })).toBeCloseTo(4, 9)
  expect(at(-4, { t01S: 0.004 }).of('source.A.movement').sentence).toMatch(
    /at full power; what it is at 1\/16 its head does not say/,
  )
  expect(at(-4, { t01LowestS: 0.00025 }).of('source.A.movement').sentence).toMatch(/which its head does not say/)
})

test('light that burns on draws a ghost as long as speed × shutter, and says whether it shows', () => {
  const at = (shutterS: number) => take(setCamera(setOf([flash, steady], fixed), { shutterS }))
  expect(at(1 / 100).value('camera.ghost')).toBeCloseTo(10, 9)
  expect(at(1 / 2).of('camera.ghost').sentence).toMatch(/it shows/)
  expect(at(1 / 8000).of('camera.ghost').sentence).toMatch(/it does not show/)
  expect(take(setOf([flash], fixed)).readings.some(({ id }) => id === 'camera.ghost')).toBe(false)
})

test('a grey card under one lamp asks for its own temperature; then the card and the lamp are white', () => {
  const at = (k: number) => setHead(setOf([flash], fixed), 'source-A', { colourTemperatureK: k })
  for (const kelvin of [3400, 4500, 5500, 6500]) {
    const read = take(at(kelvin))
    expect(Math.abs(read.value('camera.balance') - kelvin)).toBeLessThan(2)
    const balanced = setBalanceFromCard(at(kelvin), read.value('camera.balance'))
    const { colour } = inputOf(balanced).rig.sources[0]!
    for (const band of colour) expect(band).toBeCloseTo(1, 2)
  }
  // A lamp warmer than any balance goes: none, and the edit is refused.
  const warm = take(at(2300))
  expect(warm.of('camera.balance').value).toBeNull()
  expect(warm.of('camera.balance').sentence).toMatch(/no balance from 3200 to 7500 K/)
  expect(() => setBalanceFromCard(at(2300), 0)).toThrow(EditRefused)
})

/** A gel that passes nothing of a band leaves none: by definition of the gel's three shares. */
test('a gel that takes a whole band away is told in words, and its light still reaches the cheek', () => {
  const behind = (gelColour: readonly [number, number, number]) =>
    take(setHead(setOf([flash], fixed), 'source-A', { gelColour })).of('camera.balance')
  for (const [gel, words] of [
    [[1, 0.5, 0], /warm, without any blue/],
    [[1, 0, 0], /warm, without any blue/],
    [[0, 0.5, 1], /cold, without any red/],
    [[0, 1, 0], /green, without any red or blue/],
  ] as const) {
    expect(behind(gel).sentence, String(gel)).toMatch(words)
    expect(behind(gel).sentence, String(gel)).toMatch(/no balance from 3200 to 7500 K/)
    expect(behind(gel).sentence).not.toMatch(/Infinity|NaN|no light/)
  }
  const magenta = behind([1, 0, 1])
  expect(`${magenta.sentence} ${magenta.why.filled}`).not.toMatch(/Infinity|NaN|no light/)
  expect(Number.isFinite(magenta.value)).toBe(true)
})

test('a balance colours the lamps and moves no meter, gels or not', () => {
  const set = setHead(setOf([flash], fixed), 'source-A', { gelColour: [1, 0.3, 0.1] })
  const other = setCamera(set, { balanceK: 3400 })
  const [a, b] = [set, other].map((sitting) => inputOf(sitting).rig.sources[0]!)
  expect(b!.axialIntensity).toBe(a!.axialIntensity)
  const plain = inputOf(setCamera(setOf([flash], fixed), { balanceK: 3400 })).rig.sources[0]!
  for (const [i, band] of colourFromTemperature(flash.head.colourTemperatureK, 3400).entries())
    expect(plain.colour[i]).toBeCloseTo(band, 9)
})

test('two rows: told in words, from row to row by the inverse square of a bare lamp on the axis', () => {
  const bulb = lamp('A', { az: 0, el: 0, d: 2.4, modifier: defaultModifier('bare-bulb') })
  const level = (sitting: Sitting): Sitting => ({
    ...sitting,
    sitters: sitting.sitters.map((sitter) => ({ ...sitter, eyeHeightM: 1.2 })),
  })
  const two = addSitter(setOf([bulb], fixed)).sitting
  const four = addSitterBehind(addSitterBehind(two).sitting).sitting
  expect(take(two).of('group.spread').sentence).toMatch(/two abreast/)
  const read = take(level(four))
  expect(read.of('group.spread').sentence).toMatch(/four in two rows/)
  // The heads behind are seen between those before; H as cos/d² of a disc to the lamp: 1/d² at each cheek.
  const key = bulb.centreM
  const h = inputOf(level(four)).rig.figures.map(({ posed }) => {
    const { cheekLeft, cheekRight } = posed.landmarks
    const away = [cheekLeft, cheekRight].map(({ position }) => Math.hypot(...position.map((x, i) => x - key[i]!)))
    return Math.min(...away) ** -2
  })
  const stops = Math.log2((h[2]! + h[3]!) / (h[0]! + h[1]!))
  expect(Math.abs(read.value('group.rows') - stops)).toBeLessThan(0.05)
})
