import { describe, expect, test } from 'vitest'
import {
  BALANCE_RANGE_K,
  chromaticityFromXyz,
  colourFromTemperature,
  daylightChromaticity,
  kelvinFromChromaticity,
  LAMP_RANGE_K,
  lampChromaticity,
  linearFromSrgb,
  luminanceFromSrgb,
  planckianChromaticity,
  planckianChromaticityFitted,
  srgbFromLinear,
  srgbFromXyz,
  WHITE,
  xyzFromChromaticity,
  xyzFromSrgb,
} from '../../src/photometry'

test('XYZ and linear sRGB undo each other', () => {
  for (const rgb of [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
    [0.2, 0.7, 0.4],
  ] as const)
    srgbFromXyz(xyzFromSrgb(rgb)).forEach((value, k) => {
      expect(value).toBeCloseTo(rgb[k]!, 12)
    })
})

test('sRGB white is its own white point', () => {
  const [x, y] = chromaticityFromXyz(xyzFromSrgb([1, 1, 1]))
  expect(x).toBeCloseTo(WHITE.D65_SRGB[0], 12)
  expect(y).toBeCloseTo(WHITE.D65_SRGB[1], 12)
})

test('the encoding undoes itself for every 8-bit code', () => {
  for (let code = 0; code <= 255; code++) expect(255 * srgbFromLinear(linearFromSrgb(code / 255))).toBeCloseTo(code, 4)
})

/** CIE 15: D55, D65 are daylight of 5503 and 6504 K. */
test.each([
  [5503, WHITE.D55],
  [6504, WHITE.D65],
] as const)('daylight of %i K meets its illuminant', (kelvin, white) => {
  const [x, y] = daylightChromaticity(kelvin)
  expect(Math.abs(x - white[0])).toBeLessThan(2e-4)
  expect(Math.abs(y - white[1])).toBeLessThan(2e-4)
})

/** CIE 15: illuminant A is a Planckian radiator of 2856 K (2855.5 by today's c₂). */
test('2856 K is illuminant A', () => {
  const [x, y] = planckianChromaticity(2856)
  expect(Math.abs(x - WHITE.A[0])).toBeLessThan(1e-4)
  expect(Math.abs(y - WHITE.A[1])).toBeLessThan(1e-4)
})

/** Kang et al. claim their cubics for 1667 to 25 000 K. */
test.each([1800, 2222, 2500, 4000, 7000, 12000, 20000])('the fit to the locus at %i K', (kelvin) => {
  const [x, y] = planckianChromaticity(kelvin)
  const [fx, fy] = planckianChromaticityFitted(kelvin)
  expect(Math.abs(x - fx)).toBeLessThan(1e-3)
  expect(Math.abs(y - fy)).toBeLessThan(1e-3)
})

describe('colour of a lamp in a balanced picture', () => {
  const lamps = Array.from({ length: 91 }, (_, k) => LAMP_RANGE_K[0] + 200 * k)
  const balances = [BALANCE_RANGE_K[0], 5000, 5500, 6504, BALANCE_RANGE_K[1]]

  test.each(balances)('balance %i K: white at it, luminance 1 and no negative part anywhere', (balance) => {
    expect(colourFromTemperature(balance, balance)).toEqual([1, 1, 1])
    for (const lamp of lamps) {
      const rgb = colourFromTemperature(lamp, balance)
      expect(luminanceFromSrgb(rgb)).toBeCloseTo(1, 12)
      expect(Math.min(...rgb), `${lamp} K`).toBeGreaterThan(0)
    }
  })
  test.each(balances)('balance %i K: warmer lamps are redder, all the way', (balance) => {
    const redOverBlue = lamps.map((lamp) => {
      const [r, , b] = colourFromTemperature(lamp, balance)
      return r / b
    })
    for (let k = 1; k < redOverBlue.length; k++) expect(redOverBlue[k]).toBeLessThan(redOverBlue[k - 1]!)
  })
  test('there is no jump where glow gives way to daylight', () => {
    for (const kelvin of [4000, 5000]) {
      const [below, above] = [lampChromaticity(kelvin - 0.01), lampChromaticity(kelvin + 0.01)]
      expect(Math.abs(below[0] - above[0])).toBeLessThan(1e-5)
      expect(Math.abs(below[1] - above[1])).toBeLessThan(1e-5)
    }
  })
  test('a lamp keeps its temperature by McCamy, from filament to flash', () => {
    for (const kelvin of [2856, 3200, 5500, 6504])
      expect(Math.abs(kelvinFromChromaticity(lampChromaticity(kelvin)) - kelvin)).toBeLessThan(0.005 * kelvin)
  })
  /** sRGB's own white is D65: balanced for 6504 K nothing is adapted, and a lamp keeps its chromaticity. */
  test('balanced for 6504 K a lamp keeps its chromaticity', () => {
    const [x, y] = chromaticityFromXyz(xyzFromSrgb(colourFromTemperature(3200, 6504)))
    const [lx, ly] = chromaticityFromXyz(xyzFromChromaticity(planckianChromaticity(3200)))
    expect(Math.abs(x - lx)).toBeLessThan(2e-4)
    expect(Math.abs(y - ly)).toBeLessThan(2e-4)
  })
  test('a temperature out of range is named', () => {
    expect(() => colourFromTemperature(1500, 5500)).toThrow('temperature: expected 2000 to 20000 K, got 1500 K')
    expect(() => colourFromTemperature(5500, 9000)).toThrow('balance: expected 3200 to 7500 K, got 9000 K')
  })
})
