import { expect, test } from 'vitest'
import { differencePlate, plateOf, spreadOnSitters, stopsMap } from '../../src/camera'

const picture = (width: number, light: (x: number) => number) =>
  plateOf({
    width,
    height: 40,
    rgba: Float32Array.from({ length: 4 * width * 40 }, (_, i) => light(Math.floor(i / 4) % width)),
    sitters: new Uint8Array(width * 40).fill(1),
  })

test('a stop more on one half and two less on the other are +1 and −2, whatever the picture itself', () => {
  const before = picture(60, (x) => 0.05 + x / 100)
  const after = picture(60, (x) => (0.05 + x / 100) * (x < 30 ? 2 : 0.25))
  const difference = differencePlate(before, after)!
  const figures = stopsMap(difference, 1, { width: 8, height: 4 }).figures
  expect(figures.length).toBeGreaterThan(3)
  for (const { x, stops } of figures) expect(stops).toBeCloseTo(x < 30 ? 1 : -2, 4)
  const spread = spreadOnSitters(difference)!
  expect([spread.low, spread.high].map((stops) => Number(stops.toFixed(4)))).toEqual([-2, 1])
  expect(spreadOnSitters(differencePlate(before, before)!)!.middle).toBeCloseTo(0, 9)
})

test('where both are black there is no difference; pictures of other shapes are not compared', () => {
  const black = picture(60, () => 0)
  for (const stops of Object.values(spreadOnSitters(differencePlate(black, black)!)!)) expect(stops).toBeCloseTo(0, 9)
  expect(
    differencePlate(
      picture(40, () => 1),
      black,
    ),
  ).toBeNull()
})
