import { describe, expect, test } from 'vitest'
import { colourFromTemperature, gelPass, kelvinBehindGel, luminanceFromSrgb } from '../../src/photometry'
import { assembleRig } from '../../src/rig'
import {
  EditRefused,
  firstSitting,
  type Head,
  readSitting,
  type Sitting,
  setHead,
  writeSitting,
} from '../../src/sitting'
import { swapKind } from '../../src/ui/controls/swap-kind'
import { STAND_IN } from './stand-in'

const first = firstSitting()
const { id, head } = first.sources[0]!
const sourceOf = (sitting: Sitting) => assembleRig(sitting, { figure: STAND_IN }).sources[0]!
const plain = sourceOf(first)
const behind = (change: Partial<Head>) => sourceOf(setHead(first, id, change))
const stops = (change: Partial<Head>) => Math.log2(behind(change).axialIntensity / plain.axialIntensity)

describe('gels and neutral density before a head', () => {
  test('neutral density takes its stops and no colour', () => {
    expect(stops({ ndStops: 3 })).toBeCloseTo(-3, 12)
    expect(behind({ ndStops: 3 }).colour).toEqual(plain.colour)
  })

  /** 1e6/5500 + 131 mired is 3196 K: shared/check-values.json COL-MIRED, daylight to a filament lamp. */
  test('a conversion gel makes another colour temperature: mired add up', () => {
    expect(kelvinBehindGel(5500, 1e6 / 3200 - 1e6 / 5500)).toBeCloseTo(3200, 9)
    const warm = behind({ gelMired: 131 }).colour
    const expected = colourFromTemperature(1e6 / (1e6 / 5500 + 131), 5500)
    for (const [i, value] of expected.entries()) expect(warm[i]).toBeCloseTo(value, 9)
    expect(luminanceFromSrgb(warm)).toBeCloseTo(1, 12)
  })

  /** Full CTO takes 2/3 to 1 1/3 stop, full CTB 1 1/2 to 2: common practice, no source. */
  test('and takes what gels of its strength take', () => {
    expect(stops({ gelMired: 131 })).toBeLessThan(-0.66)
    expect(stops({ gelMired: 131 })).toBeGreaterThan(-1.34)
    expect(Math.log2(gelPass(3200, -131))).toBeLessThan(-1.4)
    expect(Math.log2(gelPass(3200, -131))).toBeGreaterThan(-2.1)
    // Two halves take what the whole takes: exp adds up, by lamps of two temperatures.
    const half = gelPass(5500, 65.5) * gelPass(kelvinBehindGel(5500, 65.5), 65.5)
    expect(Math.abs(Math.log2(half / gelPass(5500, 131)))).toBeLessThan(0.03)
    expect(gelPass(5500, 0)).toBe(1)
  })

  test('a coloured gel lets its shares through: white light by the luminance of its colour', () => {
    const gelColour = [0.05, 0.15, 0.7] as const
    expect(2 ** stops({ gelColour })).toBeCloseTo(0.2126 * 0.05 + 0.7152 * 0.15 + 0.0722 * 0.7, 4)
    const { colour } = behind({ gelColour })
    expect(colour[2] / colour[0]).toBeCloseTo((0.7 / 0.05) * (plain.colour[2] / plain.colour[0]), 9)
  })

  test('what burns on, and the sun, have them too; nothing that shines is placed anew', () => {
    for (const kind of ['led-panel', 'measured-lamp', 'sun', 'overcast-sky']) {
      const sitting = swapKind(first, id, kind)
      const dimmed = setHead(sitting, id, { ndStops: 2 })
      expect(Math.log2(sourceOf(dimmed).axialIntensity / sourceOf(sitting).axialIntensity), kind).toBeCloseTo(-2, 9)
    }
  })

  /** Mired add up: 312.5 + 200 is under 2000 K, 1e6/5600 − 131 over 20000 K, 80 − 131 no lamp at all. */
  test('a gel that goes with the flash breaks no set where its modelling lamp would leave what the colours know', () => {
    const expectHeld = (change: Partial<Head>, kelvin: number) =>
      behind(change).modelling!.colour.forEach((band, i) => {
        expect(band).toBeCloseTo(colourFromTemperature(kelvin, 5500)[i]!, 9)
      })
    const led = (colourTemperatureK: number) =>
      ({ lamp: 'LED', powerW: 30, colourTemperatureK, followsDial: true }) as const
    expectHeld({ gelMired: 190 }, 2000)
    expectHeld({ gelMired: -131, modelling: led(5600) }, 20000)
    expectHeld({ gelMired: -131, modelling: led(12500) }, 20000)
  })

  test('left out they are not in the file; what does not go with the lamp is refused, in a file and in an edit (S19)', () => {
    expect(writeSitting(first)).not.toMatch(/gel|ndStops/)
    const kept = setHead(setHead(first, id, { gelMired: 66, ndStops: 1 }), id, { ndStops: undefined })
    expect(writeSitting(kept)).toMatch(/"gelMired": 66/)
    expect(writeSitting(kept)).not.toContain('ndStops')
    expect(() => setHead(first, id, { colourTemperatureK: 2500, gelMired: 200 })).toThrow(EditRefused)
    expect(() => setHead(first, id, { gelColour: [0, 0, 0] })).toThrow(/gelColour: expected at least 0.01/)
    const changed = (change: object) => {
      const source = { ...first.sources[0]!, head: { ...head, ...change } }
      return readSitting(JSON.parse(JSON.stringify({ ...first, sources: [source] })))
    }
    for (const [change, path] of [
      [{ colourTemperatureK: 2500, gelMired: 200 }, 'sources[0].head.gelMired'],
      [{ gelMired: -250, colourTemperatureK: 5500 }, 'sources[0].head.gelMired'],
      [{ gelColour: [0, 0, 0] }, 'sources[0].head.gelColour'],
      [{ ndStops: 20 }, 'sources[0].head.ndStops'],
    ] as const) {
      const read = changed(change)
      expect('problems' in read && read.problems[0]?.path, JSON.stringify(change)).toBe(path)
    }
  })
})
