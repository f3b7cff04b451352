import { describe, expect, test } from 'vitest'
import { skinRelief } from '../../src/figure/skin-relief'

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
