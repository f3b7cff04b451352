import { describe, expect, test } from 'vitest'
import { skinClouds, skinRelief } from '../../src/figure/skin-relief'

/** Places of a plane of 40 × 40 mm, off the lattice. */
const places = Array.from(
  { length: 6400 },
  (_, i) => [0.13 + (i % 80) * 0.5, 0.07 + Math.floor(i / 80) * 0.5, 11.3] as const,
)
const rms = (footprintMm: number) =>
  Math.sqrt(places.reduce((sum, at) => sum + Math.hypot(...skinRelief(at, footprintMm)) ** 2, 0) / places.length)

describe('the fine relief of skin', () => {
  test('tilts by some degrees in all, to no side in the mean', () => {
    const mean = [0, 1, 2].map((k) => places.reduce((sum, at) => sum + skinRelief(at, 0.1)[k], 0) / places.length)
    for (const value of mean) expect(Math.abs(value)).toBeLessThan(0.005)
    expect(rms(0.1)).toBeGreaterThan(0.02)
    expect(rms(0.1)).toBeLessThan(0.12)
  })

  /** Else it would flicker (sampling theorem). */
  test('fades scale by scale where a pixel takes in more than half of one, and is gone where it takes in all', () => {
    expect(rms(0.3)).toBeLessThan(rms(0.2))
    expect(rms(1)).toBeLessThan(rms(0.5))
    for (const footprintMm of [2.6, 4, 10]) expect(rms(footprintMm)).toBe(0)
  })

  /** A slope of a hundredth moves matt light at 45° by a hundredth: one step of 255 in the display's mid tones (IEC 61966-2-1). */
  test('goes and comes without a pop: a hundredth more footprint changes it by less than a step of the display', () => {
    for (let mm = 0.1; mm < 2.6; mm += 0.02) expect(rms(mm) - rms(mm * 1.01)).toBeLessThan(0.01)
  })

  test('has no jumps: neighbours at 0.01 mm differ by less than 0.02', () => {
    for (const [x, y, z] of places) {
      const [a, b] = [skinRelief([x, y, z], 0.1), skinRelief([x + 0.01, y, z], 0.1)]
      expect(Math.hypot(...a.map((value, k) => value - b[k]))).toBeLessThan(0.02)
    }
  })
})

describe('the clouds of blood and pigment in skin', () => {
  const values = (footprintMm: number, band: number) => places.map((at) => skinClouds(at, footprintMm)[band])
  const mean = (of: readonly number[]) => of.reduce((sum, v) => sum + v, 0) / of.length
  const spread = (of: readonly number[]) => Math.sqrt(mean(of.map((v) => (v - mean(of)) ** 2)))

  /** A patch of skin must be as bright as its albedo: within 2 %, as skin-albedo.test.ts asks of a picture. */
  test('leave the skin as bright as it is, close up and from afar', () => {
    for (const footprintMm of [0.1, 0.4, 1, 3])
      for (const band of [0, 1, 2]) expect(Math.abs(mean(values(footprintMm, band)) - 1)).toBeLessThan(0.01)
  })

  /** Haemoglobin takes green and blue, hardly any red: absorption spectra, in all texts on skin optics. */
  test('are of green and blue more than of red, and no more than some per cent', () => {
    for (const band of [1, 2]) {
      expect(spread(values(0.3, band))).toBeGreaterThan(1.5 * spread(values(0.3, 0)))
      expect(spread(values(0.1, band))).toBeLessThan(0.07)
    }
  })

  /** Else they would flicker (sampling theorem). */
  test('fade where a pixel takes in more than half of one', () => {
    expect(spread(values(1.5, 1))).toBeLessThan(spread(values(0.3, 1)))
    for (const at of places) expect(skinClouds(at, 5.5)).toEqual([1, 1, 1])
  })

  test('are alike on both sides of the face', () => {
    for (const [x, y, z] of places) expect(skinClouds([-x, y, z], 0.5)).toEqual(skinClouds([x, y, z], 0.5))
  })
})
