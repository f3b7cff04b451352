import { describe, expect, test } from 'vitest'
import {
  codeFromLinear,
  exposureScale,
  pictureValueFromLuminance,
  pixelFromLinear,
  SHOULDER_KNEE,
  shoulder,
} from '../../src/camera'
import { fNumberFromLuminousExposure, luminanceFromIlluminance } from '../../src/photometry'

/** Requirement: 18 % grey lands on sRGB 118 in both modes, 88 % white on 241 in the plain one (IEC 61966-2-1 codes). */
describe('the chain from light to code', () => {
  test.each([
    [160, 100],
    [12.5, 400],
    [3000, 50],
  ])('a matt card in the light of its own reading, %f lx·s at ISO %i, lands on its reflectance', (h, iso) => {
    const fNumber = fNumberFromLuminousExposure(h, iso)
    for (const reflectance of [0.03, 0.18, 0.88])
      expect(pictureValueFromLuminance(luminanceFromIlluminance(h, reflectance), iso, fNumber)).toBeCloseTo(
        reflectance,
        12,
      )
  })
  test('grey is 118 in both modes, white 241 in the plain one', () => {
    for (const mode of ['plain', 'shoulder'] as const)
      expect(pixelFromLinear([0.18, 0.18, 0.18], mode)).toEqual([118, 118, 118])
    expect(pixelFromLinear([0.88, 0.88, 0.88], 'plain')).toEqual([241, 241, 241])
  })
  test('one stop more aperture halves the picture value', () => {
    expect(exposureScale(100, 8) / exposureScale(100, 8 * Math.SQRT2)).toBeCloseTo(2, 12)
    expect(exposureScale(200, 8) / exposureScale(100, 8)).toBeCloseTo(2, 12)
  })
})

describe('the shoulder', () => {
  test('is the straight line up to its knee, and leaves it with slope 1', () => {
    for (const x of [0, 0.18, 0.36, SHOULDER_KNEE]) expect(shoulder(x)).toBe(x)
    const step = 1e-6
    expect((shoulder(SHOULDER_KNEE + step) - SHOULDER_KNEE) / step).toBeCloseTo(1, 5)
  })
  test('rises all the way, stays below 1 and below the straight line', () => {
    let last = 0
    for (let x = 0.01; x < 8; x += 0.01) {
      const y = shoulder(x)
      expect(y).toBeGreaterThan(last)
      expect(y).toBeLessThan(1)
      expect(y).toBeLessThanOrEqual(x)
      last = y
    }
  })
  test('white of 88 % comes to 227, as its description says', () => {
    expect(Math.round(codeFromLinear(0.88, 'shoulder'))).toBe(227)
  })
})
