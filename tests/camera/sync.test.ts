import { describe, expect, test } from 'vitest'
import { blurDiameter, darkShare, darkSide, depthOfField, directionThrough, farBlurDiameter } from '../../src/camera'
import { dot, frameTowards } from '../../src/space'

const frame = frameTowards([0.4, 1.5, 2.6], [0, 1.2, 0])
const landscape = { focalLengthMm: 50, sensorWidthMm: 36, sensorHeightMm: 24 }
const upright = { focalLengthMm: 85, sensorWidthMm: 24, sensorHeightMm: 36 }
const places = Array.from({ length: 100 }, (_, i) => -0.99 + 0.02 * i)

/** trade.md §2.11, 1/320 and 1/500 on a shutter that syncs to 1/250: 22 and 50 % at worst, from 1 − t/sync. */
describe.each([
  [1 / 320, 22],
  [1 / 500, 50],
])('a shutter of %f s, synced to 1/250 s', (shutter, percent) => {
  const dark = darkShare(shutter, 1 / 250)
  test.each([
    ['landscape', landscape, 'lower edge'],
    ['upright', upright, 'camera right'],
  ] as const)('%s: that share of the frame is dark, along its %s', (_, lens, edge) => {
    const side = darkSide(frame, lens, dark)!
    const isDark = (x: number, y: number) => dot(directionThrough(x, y, frame, lens), side) > 0
    let count = 0
    for (const x of places)
      for (const y of places) {
        if (!isDark(x, y)) continue
        count++
        // From the edge inwards, straight across the frame.
        if (edge === 'lower edge') expect(isDark(0, y - 0.001)).toBe(true)
        else expect(isDark(x + 0.001, 0)).toBe(true)
      }
    expect(Math.round(count / 100)).toBeCloseTo(percent, -0.5)
    expect(
      edge === 'lower edge' ? isDark(0, -0.999) && !isDark(0, 0.999) : isDark(0.999, 0) && !isDark(-0.999, 0),
    ).toBe(true)
  })
})

test('a shutter long enough darkens nothing', () => {
  expect(darkSide(frame, landscape, darkShare(1 / 200, 1 / 200))).toBeNull()
})

test('a blur of what is far off comes to its limit', () => {
  expect(blurDiameter(85, 2, 1500, 1e9)).toBeCloseTo(farBlurDiameter(85, 2, 1500), 5)
  // The limits of depth in focus come by another formula, H's, and are where the disc is as wide as the circle of confusion.
  const { near, far } = depthOfField(85, 2.8, 0.03, 1750)
  for (const at of [near, far]) expect(blurDiameter(85, 2.8, 1750, at)).toBeCloseTo(0.03, 9)
})
