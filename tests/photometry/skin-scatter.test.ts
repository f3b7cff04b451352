import { describe, expect, test } from 'vitest'
import { diffuseMeanFreePath, SCATTER_REACH_MM, scatteredWithin, scatterPlaces } from '../../src/photometry'

const BANDS = [0, 1, 2] as const

describe('light scattered in skin', () => {
  /** As later papers quote "skin1" of Jensen et al. 2001: 3.67, 1.37 and 0.68 mm (from memory). */
  test.each([3.67, 1.37, 0.68].map((mm, band) => [band, mm]))(
    'band %d: a diffuse mean free path of %f mm',
    (band, mm) => {
      expect(diffuseMeanFreePath(band)).toBeCloseTo(mm, 2)
    },
  )

  /** The profile times 2πr summed up by the midpoint rule, over the same within reach: the closed form by another way. */
  test.each(BANDS)('band %d: its closed form is the integral of the profile', (band) => {
    const d = diffuseMeanFreePath(band) / (3.5 + 100 * ([0.44, 0.22, 0.13][band] - 0.33) ** 4)
    const upTo = (most: number) => {
      let sum = 0
      const step = most / 4000
      for (let r = step / 2; r < most; r += step) sum += (step * (Math.exp(-r / d) + Math.exp(-r / (3 * d)))) / (4 * d)
      return sum
    }
    for (const r of [0.2, 1, 3]) expect(scatteredWithin(band, r)).toBeCloseTo(upTo(r) / upTo(SCATTER_REACH_MM), 4)
  })
})

describe('the sixteen places of a batch', () => {
  const places = scatterPlaces(16)
  const mean = (value: (place: (typeof places)[number]) => number) =>
    places.reduce((sum, place) => sum + value(place), 0) / places.length

  test.each(BANDS)(
    'band %d: all light comes in somewhere, and a batch, which is turned from the last, leans little to a side',
    (band) => {
      expect(mean(({ share }) => share[band])).toBeCloseTo(1, 10)
      expect(Math.abs(mean(({ x, share }) => x * share[band]))).toBeLessThan(0.3)
      expect(Math.abs(mean(({ y, share }) => y * share[band]))).toBeLessThan(0.3)
    },
  )

  /** Against the integral of r over the profile, by the midpoint rule on its closed form. */
  test.each(BANDS)('band %d: as far off in the mean as its profile, to a twentieth of a millimetre', (band) => {
    let expected = 0
    for (let r = 0.005; r < SCATTER_REACH_MM; r += 0.01)
      expected += r * (scatteredWithin(band, r + 0.005) - scatteredWithin(band, r - 0.005))
    expect(Math.abs(mean(({ x, y, share }) => Math.hypot(x, y) * share[band]) - expected)).toBeLessThan(0.05)
  })

  test('red comes from the farthest, blue from next to where it comes out', () => {
    const away = BANDS.map((band) => mean(({ x, y, share }) => Math.hypot(x, y) * share[band]))
    expect(away[0]).toBeGreaterThan(1.5 * away[1])
    expect(away[1]).toBeGreaterThan(1.5 * away[2])
  })
})
