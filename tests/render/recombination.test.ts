import { expect, test } from 'vitest'
import { darkSide, directionThrough } from '../../src/camera'
import { recombinationOf } from '../../src/render'
import { dot } from '../../src/space'
import { rigs } from './rigs'

const rig = rigs.two()
const lens = rig.view
const banded = { ...rig, view: { ...lens, darkSide: darkSide(lens.frame, lens, 0.3)! } }

test('the dark side is the same line in the picture as in the room', () => {
  const [a, b, c] = recombinationOf(banded, null).dark!
  let dark = 0
  for (let x = -0.95; x < 1; x += 0.1)
    for (let y = -0.95; y < 1; y += 0.1) {
      const inRoom = dot(directionThrough(x, y, lens.frame, lens), banded.view.darkSide) > 0
      expect(a * x + b * y + c > 0).toBe(inRoom)
      if (inRoom) dark++
    }
  expect(dark).toBe(0.3 * 400)
})

test('no band where nothing flashes', () => {
  const steady = { ...banded, sources: banded.sources.map((source) => ({ ...source, burnsOn: true as const })) }
  expect(recombinationOf(steady, null).dark).toBeUndefined()
  expect(recombinationOf(rig, null).dark).toBeUndefined()
})

test('a crop is blurred as the lens that took it, seen larger; without the word all is sharp', () => {
  const sitter = rigs.disc()
  const whole = recombinationOf(sitter, null, { blurOfMm: 90 }).blur!
  // f²/(N(s − f)) over the sensor's width: 8100/(8·(1612 − 90))/36 for a sitter some 1.6 m off.
  expect(whole.farShare).toBeCloseTo(90 ** 2 / (8 * (1000 * whole.focusM - 90)) / 36, 9)
  const crop = { ...sitter, view: { ...sitter.view, focalLengthMm: 450 } }
  expect(recombinationOf(crop, null, { blurOfMm: 90 }).blur!.farShare).toBeCloseTo(5 * whole.farShare, 9)
  expect(recombinationOf(sitter, null).blur).toBeUndefined()
  expect(recombinationOf(sitter, { factorStops: 0, fNumber: 4 }, { blurOfMm: 90 }).blur!.farShare).toBeCloseTo(
    2 * whole.farShare,
    9,
  )
})
