import { expect, test } from 'vitest'
import { lensReflectance, lensSurfaceReflectance } from '../../src/photometry'
import { radians } from '../../src/space'

test('a plain surface mirrors 4 % straight on, a plain lens 7.7 %: ((n − 1)/(n + 1))² and 2r/(1 + r), n = 1.5', () => {
  expect(lensSurfaceReflectance(0, false)).toBeCloseTo(0.04, 12)
  expect(lensReflectance(0, false)).toBeCloseTo(0.08 / 1.04, 12)
})

test('Fresnel at 45° and n = 1.5: 9.2 % across, 0.85 % along, mean 5.0 % (E. Hecht, Optics, fig. 4.49, from memory)', () => {
  expect(lensSurfaceReflectance(radians(45), false)).toBeCloseTo(0.0503, 3)
})

test('a coated surface leaves half a per cent, a coated lens lets 99 % through (makers’ figures)', () => {
  expect(lensSurfaceReflectance(0, true)).toBe(0.005)
  expect(1 - lensReflectance(0, true)).toBeGreaterThan(0.99)
})

test.each([true, false])('nothing is lost nor won, and grazing all is mirrored; coated: %s', (coated) => {
  let last = 0
  for (let angle = 0; angle <= 89.9; angle += 0.5) {
    const r = lensReflectance(radians(angle), coated)
    expect(r).toBeGreaterThanOrEqual(last - 1e-4)
    expect(r).toBeLessThan(1)
    last = r
  }
  expect(lensReflectance(radians(89.99), coated)).toBeGreaterThan(0.98)
})
