import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import type { Reading } from '../../src/readings'
import {
  addBackdropGrid,
  addFaceGrid,
  addSitterBehind,
  calibrateSource,
  firstSitting,
  readSitting,
  type Sitting,
  setCamera,
  setGlasses,
  setHead,
  setOwnMeter,
} from '../../src/sitting'
import { lamp, setOf, take } from './set'

const SCENES = new URL('../../scenes/', import.meta.url)
/** Of one kind each: an umbrella and a panel; three of them; a flash on the camera. What else can be read is in the full set. */
const shipped = ['notice-board', 'three-umbrellas', 'flash-on-camera-close-to-wall']
  .map((name) => `${name}.sitting.json`)
  .map((name) => [name, opened(readFileSync(new URL(name, SCENES), 'utf8'))] as const)

function opened(text: string): Sitting {
  const read = readSitting(text)
  if (!('sitting' in read)) throw new Error('a scene does not read')
  return read.sitting
}

/** A set in which whatever can be read is read. */
function fullSet(): Sitting {
  const { backdrop, panels } = firstSitting()
  const named = { lamp: 'halogen' as const, powerW: 150, colourTemperatureK: 3200, followsDial: true }
  const set = setOf(
    [
      lamp('A', { az: 40, el: 30, d: 1.4, modifier: defaultModifier('silver-umbrella') }),
      lamp('B', { az: -20, el: 10, d: 2, role: 'fill' }),
      lamp('C', { az: 150, el: 40, d: 1.4, role: 'hair', modifier: defaultModifier('deep-umbrella') }),
      lamp('D', { az: 60, el: 5, d: 1.8, role: 'kicker', modifier: defaultModifier('led-panel') }),
    ],
    { sitter: { headTurnDeg: 20 }, backdrop, panels, room: firstSitting().room },
  )
  const lit = setHead(setHead(set, 'source-A', { modelling: named }), 'source-B', { modelling: named, t01S: 0.003 })
  const seen = setOwnMeter(setGlasses(setCamera(lit, { shutterS: 1 / 15 }), 'sitter', {}), { domeC: 330 })
  const read = { readFNumber: 8, workedOut: 7, date: '2026-11-26' }
  return addFaceGrid(addBackdropGrid(addSitterBehind(calibrateSource(seen, 'source-A', read)).sitting, 3).sitting)
    .sitting
}
const sky = setOf([lamp('A', { modifier: { kind: 'overcast-sky', illuminanceLx: 10_000 } })], {
  room: { ...firstSitting().room, outdoors: true },
})

/** Numbers that need no band, and why. */
const EXACT: readonly (readonly [RegExp, string])[] = [
  [/^sensitivity\./, 'what a given change does: itself the width of another reading'],
  [/^meter\.dome$/, 'from the constant that the user has set'],
  [/^camera\.ghost$/, 'typed speed times set shutter'],
]
/** Words, whose margin is told beside them. */
const WORDS = [
  /^face\.(pattern|side)$/,
  /\.glare(\..+)?\.(left|right)$/,
  /^backdrop\.shadow\./,
  /^modelling\..\.ratio$/,
  /^camera\.depth$/,
]

const bandless = (readings: readonly Reading[]) =>
  readings.filter(
    ({ id, value, band }) =>
      value !== null &&
      band === null &&
      !EXACT.some(([exact]) => exact.test(id)) &&
      !(typeof value === 'string' && WORDS.some((words) => words.test(id))),
  )

describe('every prediction has its band', () => {
  const sets = [...shipped, ['full set', fullSet()], ['sky', sky]] as readonly (readonly [string, Sitting])[]
  test.each(sets)('%s', (name, sitting) => {
    // A share of bounced light is one of the numbers of the full set.
    const { readings } = take(sitting, name === 'full set' ? 16 : 0)
    expect(bandless(readings).map(({ id }) => id)).toEqual([])
    for (const { id, band, unit, value } of readings) {
      if (!band) continue
      expect(value, id).not.toBeNull()
      expect(band.plusMinus, id).toBeGreaterThan(0)
      // In the reading's own unit; f-numbers, ratios and powers in stops, feet in inches, a clock in minutes.
      const inStops = unit === ':1' || /\.power$/.test(id)
      const own = inStops ? ['stop'] : unit === '' ? ['stop', 'in', 'min'] : [unit]
      expect(own, id).toContain(band.unit)
    }
  })
  test('the list of exact ones is of readings that there are, none of which has a band', () => {
    const { readings } = take(fullSet())
    for (const [exact, why] of EXACT) {
      const found = readings.filter(({ id }) => exact.test(id))
      expect(found.length, why).toBeGreaterThan(0)
      expect(
        found.every(({ band }) => band === null),
        why,
      ).toBe(true)
    }
    // The full set has every kind of number but those of a sky and of ratios by name.
    expect(new Set(readings.map(({ id }) => id.replace(/\b[A-D]\b/, 'X'))).size).toBeGreaterThan(70)
  })
})

/** trade.md §4.2, one standard deviation before and after a reading with a meter; common practice, no source. */
test('bands of light are those of the trade’s error budget', () => {
  const { of } = take(fullSet())
  expect(of('source.A.alone').band).toMatchObject({ plusMinus: 0.3, basis: 'measured' })
  expect(of('source.A.uncalibrated').band).toMatchObject({ plusMinus: 0.7, basis: 'guessed' })
  expect(of('source.B.alone').band).toMatchObject({ plusMinus: 0.7, basis: 'guessed' })
  expect(of('ratio.nearFar').band).toMatchObject({ plusMinus: 0.7, basis: 'guessed' })
  expect(of('backdrop.stops').band).toMatchObject({ plusMinus: 0.3, basis: 'guessed' })
  expect(of('source.B.movement').band).toMatchObject({ basis: 'published' })
  const named = setHead(setOf([lamp('A')]), 'source-A', { guideNumberM: 60 })
  expect(take(named).of('source.A.alone').band).toMatchObject({ plusMinus: 0.5, basis: 'published' })
})

/** A band is rounded to one digit, so that it may lie off by half of itself; then the tape's 5 cm are counted out by moving. */
test('bands of the tape are what 5 cm do: apparent size, solid angle, frame, depth, perspective', () => {
  const at = (d: number, back = 0) => {
    const set = setOf([lamp('A', { az: 40, el: 20, d, modifier: defaultModifier('softbox') })], { reExpose: 'nothing' })
    const [x, y, z] = set.camera.positionM
    return take(setCamera(set, { positionM: [x, y, z + back] }))
  }
  const [here, moved, stepped] = [at(1.5), at(1.55), at(1.5, 0.05)]
  const judge = (ids: readonly string[], other: typeof here) => {
    for (const id of ids) {
      const ratio = here.of(id).band!.plusMinus / Math.abs(other.value(id) - here.value(id))
      expect(ratio, id).toBeGreaterThan(0.6)
      expect(ratio, id).toBeLessThan(1.7)
    }
  }
  judge(
    ['apparentWidth', 'apparentHeight', 'solidAngle'].map((what) => `source.A.${what}`),
    moved,
  )
  judge(['camera.field', 'camera.depth', 'camera.perspective'], stepped)
})

test('the band of a backdrop’s code is what its 0.3 stop does to it, and of a balance what 10 mired do', () => {
  const { backdrop } = firstSitting()
  const at = (stops: number) => {
    const paper = lamp('B', { role: 'backdrop' })
    const set = setOf(
      [lamp('A', { az: 45, el: 35, d: 1.5 }), { ...paper, centreM: [1.5, 1.4, -0.3], aimM: [0, 1.3, -1.5] }],
      {
        reExpose: 'nothing',
        backdrop,
      },
    )
    // All lamps together: the camera stays, so that the paper alone changes its code.
    const dial = set.sources[0]!.head.powerStops - 1 + stops
    return take(set.sources.reduce((s, { id }) => setHead(s, id, { powerStops: dial }), set))
  }
  const { band } = at(0).of('backdrop.tone.charcoal')
  const change = (at(0.3).value('backdrop.tone.charcoal') - at(-0.3).value('backdrop.tone.charcoal')) / 2
  expect(Math.abs(band!.plusMinus - change)).toBeLessThan(1.5)
  const kelvin = take(setOf([lamp('A')])).of('camera.balance')
  // 1e6/(1e6/5500 − 10) − 5500 = 320.
  expect(kelvin.band!.plusMinus).toBe(300)
})
