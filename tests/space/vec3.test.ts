import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  basisAround,
  cross,
  directionToLocal,
  dot,
  frameTowards,
  length,
  normalize,
  pointToLocal,
  pointToWorld,
  rotateAbout,
  subtract,
  type Vec3,
} from '../../src/space'

const coordinate = fc.double({ min: -10, max: 10, noNaN: true })
const point = fc.tuple(coordinate, coordinate, coordinate) as fc.Arbitrary<Vec3>
const direction = point.filter((p) => length(p) > 1e-3).map(normalize)
const close = (a: Vec3, b: Vec3): number => length(subtract(a, b))

describe('frames', () => {
  test('frameTowards: right-handed, unit, z on the target, the target straight ahead', () => {
    fc.assert(
      fc.property(point, point, fc.double({ min: -3, max: 3, noNaN: true }), (from, to, roll) => {
        fc.pre(length(subtract(to, from)) > 1e-2)
        const frame = frameTowards(from, to, roll)
        expect(close(cross(frame.x, frame.y), frame.z)).toBeLessThan(1e-9)
        const ahead = pointToLocal(frame, to)
        expect(Math.hypot(ahead[0], ahead[1])).toBeLessThan(1e-8)
        expect(ahead[2]).toBeCloseTo(length(subtract(to, from)), 9)
      }),
      { seed: 1 },
    )
  })

  test('frameTowards without roll keeps y up: the level axis has no height', () => {
    expect(frameTowards([1, 2, 3], [0, 0.5, 0]).x[1]).toBeCloseTo(0, 12)
    expect(frameTowards([1, 2, 3], [0, 0.5, 0]).y[1]).toBeGreaterThan(0)
  })

  test('a point goes to a frame and back', () => {
    fc.assert(
      fc.property(point, point, direction, (p, origin, axis) => {
        const [x, y] = basisAround(axis)
        const frame = { origin, x, y, z: axis }
        expect(close(pointToWorld(frame, pointToLocal(frame, p)), p)).toBeLessThan(1e-9)
        expect(length(directionToLocal(frame, axis))).toBeCloseTo(1, 12)
      }),
      { seed: 2 },
    )
  })

  test('a rotation keeps lengths and the angle to its axis', () => {
    fc.assert(
      fc.property(point, direction, fc.double({ min: -7, max: 7, noNaN: true }), (p, axis, angle) => {
        const turned = rotateAbout(p, axis, angle)
        expect(length(turned)).toBeCloseTo(length(p), 9)
        expect(dot(turned, axis)).toBeCloseTo(dot(p, axis), 9)
      }),
      { seed: 3 },
    )
  })

  test('no direction: the zero vector is refused with the function named', () => {
    expect(() => normalize([0, 0, 0])).toThrow('space.normalize')
  })
})
