import { expect, test } from 'vitest'
import { length, triangleCross, triangleNormal } from '../../src/space'

/** A right triangle, legs 3 along x and 4 along y, after one vertex that is not in it. */
const POSITIONS = [9, 9, 9, 0, 0, 2, 3, 0, 2, 0, 4, 2]

test('counter-clockwise seen from +z: normal +z, twice the area 3 · 4 (right-hand rule)', () => {
  expect(triangleNormal(POSITIONS, 1, 2, 3)).toEqual([0, 0, 1])
  expect(triangleNormal(POSITIONS, 1, 3, 2)).toEqual([0, 0, -1])
  expect(length(triangleCross(POSITIONS, 2, 3, 1))).toBe(12)
})

test('no area, no normal', () => {
  expect(triangleNormal(POSITIONS, 1, 1, 2)).toEqual([0, 0, 0])
})
