import { expect, test } from 'vitest'
import {
  angleOfView,
  depthOfField,
  directionThrough,
  framingDistance,
  hyperfocal,
  projectToFrame,
} from '../../src/camera'
import { addScaled, distance, frameTowards, type Vec3 } from '../../src/space'

const lens = { focalLengthMm: 85, sensorWidthMm: 24, sensorHeightMm: 36 }
const position: Vec3 = [0.4, 1.5, 2.6]
const aim: Vec3 = [0, 1.2, 0]
const frame = frameTowards(position, aim)

test('a level camera with the 24 × 36 mm sensor: 12 mm of it at 85 mm are 0.12 m at 0.85 m', () => {
  // Similar triangles through the lens: half the frame's width and half its height.
  const level = frameTowards([0, 1.2, 0.85], [0, 1.2, 0])
  const seen = projectToFrame([0.12, 1.2 + 0.18, 0], level, lens)!
  expect(seen.x).toBeCloseTo(1, 12)
  expect(seen.y).toBeCloseTo(1, 12)
})

test('the aim lands in the middle, at its distance', () => {
  const seen = projectToFrame(aim, frame, lens)!
  expect(seen.x).toBeCloseTo(0, 12)
  expect(seen.y).toBeCloseTo(0, 12)
  expect(seen.depthM).toBeCloseTo(distance(position, aim), 12)
})

test.each([
  [1, 0],
  [0, 1],
  [-0.7, 0.3],
])('a ray through %f, %f comes back there', (x, y) => {
  const point = addScaled(position, directionThrough(x, y, frame, lens), 3)
  const seen = projectToFrame(point, frame, lens)!
  expect(seen.x).toBeCloseTo(x, 12)
  expect(seen.y).toBeCloseTo(y, 12)
})

test('the edge of the frame stands at half the angle of view', () => {
  const ray = directionThrough(1, 0, frame, lens)
  const cosine = ray[0] * frame.z[0] + ray[1] * frame.z[1] + ray[2] * frame.z[2]
  expect(Math.acos(cosine)).toBeCloseTo(angleOfView(24, 85) / 2, 12)
})

test('camera right is +x of the frame, up is up; what is behind does not show', () => {
  expect(projectToFrame([1, 1.2, 0], frame, lens)!.x).toBeGreaterThan(0)
  expect(projectToFrame([0, 1.6, 0], frame, lens)!.y).toBeGreaterThan(0)
  expect(projectToFrame([0, 1.5, 5], frame, lens)).toBeNull()
})

test('framing: at the framing distance the length asked for fills the sensor', () => {
  const u = framingDistance(85, 600, 36)
  // m = f/(u − f), thin lens.
  expect(85 / (u - 85)).toBeCloseTo(36 / 600, 12)
})

test('focused at the hyperfocal distance, sharpness runs from half of it to infinity', () => {
  const h = hyperfocal(85, 8, 0.03)
  const { near, far } = depthOfField(85, 8, 0.03, h)
  expect(near).toBeCloseTo(h / 2, 9)
  expect(far).toBe(Infinity)
})
