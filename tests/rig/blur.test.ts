import { expect, test } from 'vitest'
import { isBlurCut, lookFrom, MOST_BLUR } from '../../src/rig'
import { firstSitting, setCamera } from '../../src/sitting'
import { inputOf, setOf } from '../readings/set'

const BEHIND_M = 2
const backdrop = { ...firstSitting().backdrop!, distanceM: BEHIND_M }
const set = (focalLengthMm = 85) => {
  const bare = setOf([], { backdrop, panels: [] })
  const { positionM } = bare.camera
  return setCamera(bare, { focalLengthMm, positionM: [0, 1.2, positionM[2]], aimM: [0, 1.2, 0] })
}

/** Thin lens: c = f²/(N(s − f))·(u − s)/u on the sensor [the disc of what lies at u, focused at s]; an eighth of its width is the bound. */
test('the page is told that a disc is cut from the f-number on at which the backdrop’s is an eighth of the width', () => {
  const { rig } = inputOf(set())
  const { origin, z } = rig.view.frame
  const depth = (at: readonly number[]) => at.reduce((sum, x, i) => sum + (x - origin[i]!) * z[i]!, 0)
  const s = depth(rig.figures[0]!.posed.eyeMidpoint)
  const u = depth([0, 1.2, -BEHIND_M])
  const limit = (85 ** 2 * (u - s)) / u / (1000 * s - 85) / (rig.view.sensorWidthMm / 8)
  expect(MOST_BLUR).toBe(1 / 8)
  expect(isBlurCut(rig, 0.97 * limit, 85)).toBe(true)
  expect(isBlurCut(rig, 1.03 * limit, 85)).toBe(false)
  expect(isBlurCut(rig, 8, 85)).toBe(false)
})

test('a crop shows the same disc larger: the eye’s is cut where the whole picture’s is not', () => {
  const { rig } = inputOf(set())
  const crop = { ...rig, view: lookFrom(rig, 'eye') }
  expect(isBlurCut(rig, 2.8, 85)).toBe(false)
  expect(isBlurCut(crop, 2.8, 85)).toBe(true)
  expect(isBlurCut(crop, 90, 85)).toBe(false)
})
