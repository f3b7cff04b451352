import { expect, test } from 'vitest'
import { ditherAt, ditheredCode } from '../../src/camera'

const SIDE = 128
const places = Array.from({ length: SIDE * SIDE }, (_, i) => [i % SIDE, Math.floor(i / SIDE)] as const)
const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length

/** Triangular density from −1 to 1: mean 0, variance 1/6, a quarter of it beyond ½ (by its integral). */
test.each([0, 1, 2])('band %d: triangular noise of one code either way', (band) => {
  const noise = places.map(([x, y]) => ditherAt(x, y, band))
  expect(Math.max(...noise.map(Math.abs))).toBeLessThan(1)
  expect(Math.abs(mean(noise))).toBeLessThan(0.01)
  expect(Math.abs(mean(noise.map((v) => v * v)) - 1 / 6)).toBeLessThan(0.01)
  expect(Math.abs(mean(noise.map((v) => (Math.abs(v) > 0.5 ? 1 : 0))) - 0.25)).toBeLessThan(0.02)
})

test('bands and neighbours go their own ways', () => {
  const of = (dx: number, dy: number, band: number) => places.map(([x, y]) => ditherAt(x + dx, y + dy, band))
  const [own, ...others] = [of(0, 0, 0), of(0, 0, 1), of(0, 0, 2), of(1, 0, 0), of(0, 1, 0)]
  for (const other of others) expect(Math.abs(mean(own.map((v, i) => v * other[i])) * 6)).toBeLessThan(0.05)
})

/** That is what dither is for (Lipshitz, Wannamaker and Vanderkooy 1992): the mean of the rounded codes is the code itself. */
test.each([40.25, 117.5, 200.9])('level %f: rounded codes have it as their mean', (code) => {
  expect(mean(places.map(([x, y]) => Math.round(ditheredCode(code, x, y, 1))))).toBeCloseTo(code, 1)
})

test('black stays black and white white', () => {
  for (const [x, y] of places) for (const code of [0, 255]) expect(Math.round(ditheredCode(code, x, y, 2))).toBe(code)
})
