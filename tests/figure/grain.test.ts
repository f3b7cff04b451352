import { describe, expect, test } from 'vitest'
import { hairGrain } from '../../src/figure/worn/grain'

/** Places over a head, in steps that fall on no width's beat. */
const places = Array.from({ length: 40_000 }, (_, i) => [
  ((i * 0.6180339887) % 1) * 500 - 250,
  ((i * 0.7548776662) % 1) * 300,
])
const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length
const spread = (values: readonly number[]) => Math.sqrt(mean(values.map((v) => v * v)) - mean(values) ** 2)

describe('the grain of hair', () => {
  const fine = places.map(([across, along]) => hairGrain(across, along, 0.05))

  test('keeps the mean reflectance and the mean normal, since meter and bounce know nothing of it', () => {
    // One head has few of the widest locks: the mean of a hundred.
    const many = places.map(([across, along]) => hairGrain(across * 10, along * 10, 0.05))
    for (const [of, allowed] of [
      [many, 0.005],
      [fine, 0.02],
    ] as const) {
      expect(Math.abs(mean(of.map(({ tone }) => tone)) - 1)).toBeLessThan(allowed)
      expect(Math.abs(mean(of.map(({ across }) => across)))).toBeLessThan(allowed)
      expect(Math.abs(mean(of.map(({ along }) => along)))).toBeLessThan(allowed)
    }
  })
  test('never takes all light nor gives back more than the fairest mass of hair (0.34) can', () => {
    for (const { tone } of fine) {
      expect(tone).toBeGreaterThan(0)
      expect(tone * 0.34).toBeLessThan(0.95)
    }
  })
  test('turns the normal some 10° across the strands and less along them', () => {
    expect(spread(fine.map(({ across }) => across))).toBeGreaterThan(Math.tan(Math.PI / 30))
    expect(spread(fine.map(({ across }) => across))).toBeLessThan(Math.tan(Math.PI / 9))
    expect(spread(fine.map(({ along }) => along))).toBeLessThan(spread(fine.map(({ across }) => across)) / 2)
  })
  test('is long along the strand: half a millimetre on it is what it was, half a millimetre aside it is not', () => {
    const moved = (dx: number, dy: number) =>
      spread(places.map(([x, y], i) => hairGrain(x + dx, y + dy, 0.05).tone - fine[i].tone))
    expect(moved(0, 0.5)).toBeLessThan(moved(0.5, 0) / 10)
  })
  test('is gone where a pixel takes in more than its widest lock', () => {
    for (const [across, along] of places.slice(0, 100))
      expect(hairGrain(across, along, 8)).toEqual({ across: 0, along: 0, tone: 1 })
  })
})
