import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type Camera,
  EditRefused,
  firstSitting,
  moveSource,
  setSourcePlace,
  sourcePlace,
  tapeEnd,
} from '../../src/sitting'
import { centreAt, type PlaceLandmarks, placeOf } from '../../src/sitting/place'
import { rotateAbout, type Vec3 } from '../../src/space'

const camera: Camera = { ...firstSitting().camera, positionM: [0, 1.2, 2], aimM: [0, 1.2, 0] }
/** All four in one point: azimuth, elevation and tape are then plain polar coordinates. */
const ONE_POINT: PlaceLandmarks = {
  eyePoint: [0, 1.2, 0],
  cheekLeft: [0, 1.2, 0],
  cheekRight: [0, 1.2, 0],
  crown: [0, 1.2, 0],
}
/** The head at rest, from the landmark table of the figure: cheeks 51 mm out, 16 mm down, crown 113.5 mm up and 82 mm back. */
const AT_REST: PlaceLandmarks = {
  eyePoint: [0, 1.2, 0],
  cheekLeft: [0.051, 1.184, 0.002],
  cheekRight: [-0.051, 1.184, 0.002],
  crown: [0, 1.3135, -0.082],
}

describe('a place from a point, by hand', () => {
  const half = Math.SQRT1_2
  test.each([
    ['at the camera', [0, 1.2, 2], 0, 0, 2],
    ['camera right', [1, 1.2, 0], 90, 0, 1],
    ['camera left', [-1, 1.2, 0], -90, 0, 1],
    ['behind, camera right', [half, 1.2, -half], 135, 0, 1],
    ['45 up in front', [0, 1.2 + half, half], 0, 45, 1],
    // cos 35°·sin 45° and so on: the key of a schoolbook set.
    ['45 round, 35 up, 1.5 m', [0.86886, 2.06037, 0.86886], 45, 35, 1.5],
  ] as const)('%s', (_, point, azimuth, elevation, tape) => {
    const place = placeOf(point, camera, ONE_POINT)
    expect(place.azimuthFromLensDeg).toBeCloseTo(azimuth, 3)
    expect(place.elevationDeg).toBeCloseTo(elevation, 3)
    expect(place.tapeM).toBeCloseTo(tape, 4)
  })

  test('the tape ends at the nearer cheek, from behind at the crown', () => {
    expect(tapeEnd([1, 1.5, 1], camera, AT_REST)).toBe(AT_REST.cheekLeft)
    expect(tapeEnd([-1, 1.5, 1], camera, AT_REST)).toBe(AT_REST.cheekRight)
    expect(tapeEnd([1, 1.5, -1], camera, AT_REST)).toBe(AT_REST.crown)
    expect(placeOf([1, 1.5, -1], camera, AT_REST).tapeTo).toBe('crown')
    // Straight in front of the cheek, one metre out.
    expect(placeOf([0.051, 1.184, 1.002], camera, AT_REST).tapeM).toBeCloseTo(1, 12)
  })

  test('azimuth turns with the lens axis, the tape and the elevation do not', () => {
    const right: Camera = { ...camera, positionM: [2, 1.2, 0] }
    const place = placeOf([1, 1.5, 1], right, AT_REST)
    expect(place.azimuthFromLensDeg).toBeCloseTo(-45, 9)
    expect(place.elevationDeg).toBe(placeOf([1, 1.5, 1], camera, AT_REST).elevationDeg)
    expect(placeOf([1, 1.5, 1], { ...camera, aimM: [0, 0.9, 0] }, AT_REST)).toEqual(
      placeOf([1, 1.5, 1], camera, AT_REST),
    )
  })
})

const places = fc.record({
  azimuthFromLensDeg: fc.double({ min: -179.9, max: 179.9, noNaN: true }),
  elevationDeg: fc.double({ min: -80, max: 85, noNaN: true }),
  tapeM: fc.double({ min: 0.4, max: 6, noNaN: true }),
})
const turns = fc.record({
  head: fc.double({ min: -1, max: 1, noNaN: true }),
  lens: fc.double({ min: -3, max: 3, noNaN: true }),
})

function turned({ head, lens }: { head: number; lens: number }): { marks: PlaceLandmarks; camera: Camera } {
  const about = (point: Vec3, angle: number): Vec3 => rotateAbout(point, [0, 1, 0], angle)
  const { eyePoint, cheekLeft, cheekRight, crown } = AT_REST
  return {
    marks: {
      eyePoint: about(eyePoint, head),
      cheekLeft: about(cheekLeft, head),
      cheekRight: about(cheekRight, head),
      crown: about(crown, head),
    },
    camera: { ...camera, positionM: about(camera.positionM, lens) },
  }
}

test('S15 any place asked for is the place that comes of it', () => {
  fc.assert(
    fc.property(places, turns, (asked, turn) => {
      const { marks, camera } = turned(turn)
      const got = placeOf(centreAt(asked, camera, marks), camera, marks)
      expect(got.azimuthFromLensDeg).toBeCloseTo(asked.azimuthFromLensDeg, 6)
      expect(got.elevationDeg).toBeCloseTo(asked.elevationDeg, 6)
      expect(got.tapeM).toBeCloseTo(asked.tapeM, 9)
    }),
    { numRuns: 500 },
  )
})

test('S15 a source left where it is does not jump when its place is typed again', () => {
  const coordinate = fc.double({ min: -4, max: 4, noNaN: true })
  fc.assert(
    fc.property(fc.tuple(coordinate, coordinate, coordinate), turns, ([x, y, z], turn) => {
      fc.pre(Math.hypot(x, z) > 0.5)
      const { marks, camera } = turned(turn)
      const centre: Vec3 = [x, 1.2 + y, z]
      const back = centreAt(placeOf(centre, camera, marks), camera, marks)
      back.forEach((value, i) => {
        expect(value).toBeCloseTo(centre[i], 6)
      })
    }),
    { numRuns: 500 },
  )
})

test('S15 setting one of the three holds the two others and the aim', () => {
  const changes = fc.oneof(
    fc.record({ azimuthFromLensDeg: places.map((p) => p.azimuthFromLensDeg) }),
    fc.record({ elevationDeg: places.map((p) => p.elevationDeg) }),
    fc.record({ tapeM: places.map((p) => p.tapeM) }),
  )
  fc.assert(
    fc.property(changes, (change) => {
      const before = moveSource(firstSitting(), 'key', [0.7, 1.8, 0.6])
      const after = setSourcePlace(before, 'key', change, AT_REST)
      const held = { ...sourcePlace(before.sources[0], before.camera, AT_REST), ...change }
      const got = sourcePlace(after.sources[0], after.camera, AT_REST)
      expect(got.azimuthFromLensDeg).toBeCloseTo(held.azimuthFromLensDeg, 6)
      expect(got.elevationDeg).toBeCloseTo(held.elevationDeg, 6)
      expect(got.tapeM).toBeCloseTo(held.tapeM, 9)
      expect(after.sources[0].aimM).toBe(before.sources[0].aimM)
    }),
  )
})

test('S15 what cannot be is refused with the reason', () => {
  const first = firstSitting()
  // Straight up from the eyes the ray passes the cheeks (51 mm out, 16 mm down) at 53 mm at least.
  expect(() => setSourcePlace(first, 'key', { elevationDeg: 89, tapeM: 0.05 }, AT_REST)).toThrow(
    /tapeM: expected at least 0\.05 m in this direction, got 0\.05/,
  )
  expect(() => setSourcePlace(first, 'key', { azimuthFromLensDeg: 200 }, AT_REST)).toThrow(EditRefused)
  expect(() => setSourcePlace(first, 'key', { tapeM: Number.NaN }, AT_REST)).toThrow(
    /tapeM: expected 0\.05 to 20 m, got NaN/,
  )
})
