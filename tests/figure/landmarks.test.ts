import { expect, test } from 'vitest'
import { LANDMARK_NAMES, type LandmarkName } from '../../src/figure'
import { asset, bust, garment, hair } from './sculpture'

/** The sculptor's drawing: where each place was meant to be, mm. Places not on it are checked by their definition below. */
const DRAWN: Partial<Record<LandmarkName, readonly [number, number, number]>> = {
  eyeCentreLeft: [31.5, 0, 0],
  pupilLeft: [31.5, 0, 13.2],
  glabella: [0, 25.8, 26.2],
  sellion: [0, 3.8, 21.1],
  noseTip: [0, -35.5, 41.2],
  subnasale: [0, -49.3, 26.4],
  stomion: [0, -68, 25.7],
  mouthLeft: [25.5, -67.6, 15.8],
  chin: [0, -96.5, 22],
  menton: [0, -114.3, 0],
  foreheadCentre: [0, 42, 24.7],
  neckFront: [0, -130, -35],
  sternalNotch: [0, -203, -26.8],
  earLeft: [71.8, -17, -71.5],
}

test.each(Object.entries(DRAWN))('%s lies within 1.2 mm of the drawing', (name, drawn) => {
  const { position } = asset.landmarks[name as LandmarkName]
  // Extremes of a rounded profile are shallow: along the profile they may slide, across it they may not.
  expect(Math.abs(position[0] * 1000 - drawn[0])).toBeLessThan(1.2)
  expect(Math.abs(position[1] * 1000 - drawn[1])).toBeLessThan(1.2)
  expect(Math.abs(position[2] * 1000 - drawn[2])).toBeLessThan(1.2)
})

test('left and right are mirror images, left on the side of +x', () => {
  for (const name of LANDMARK_NAMES.filter((n) => n.endsWith('Left'))) {
    const left = asset.landmarks[name]
    const right = asset.landmarks[name.replace(/Left$/, 'Right') as LandmarkName]
    expect(left.position[0]).toBeGreaterThan(0.02)
    expect(right.position).toEqual([-left.position[0], left.position[1], left.position[2]])
    expect(right.headWeight).toBe(left.headWeight)
  }
})

test('every place lies on its surface, with a unit normal out of it', () => {
  for (const name of LANDMARK_NAMES) {
    const { position, normal } = asset.landmarks[name]
    expect(Math.hypot(...normal), name).toBeCloseTo(1, 6)
    if (/^(eye|pupil)/.test(name)) continue
    const field = /^(crown|back)/.test(name) ? hair : name.startsWith('shoulder') ? garment : bust
    const at = (mm: number) => field(...(position.map((v, k) => v * 1000 + normal[k] * mm) as [number, number, number]))
    expect(Math.abs(at(0)), name).toBeLessThan(0.01)
    expect(at(2), name).toBeGreaterThan(0)
    expect(at(-2), name).toBeLessThan(0)
  }
})

test('the nose shadow falls about 25 mm behind the tip', () => {
  const { noseTip, noseShadowCheekLeft } = asset.landmarks
  const behind = (noseTip.position[2] - noseShadowCheekLeft.position[2]) * 1000
  expect(behind).toBeGreaterThan(21)
  expect(behind).toBeLessThan(29)
})

test("the meter's cheek faces forward and outward, over a surface flat enough for a dome", () => {
  const { position, normal } = asset.landmarks.cheekLeft
  expect(normal[2]).toBeGreaterThan(0.6)
  expect(normal[0]).toBeGreaterThan(0.2)
  for (const [dx, dy] of [
    [6, 0],
    [-6, 0],
    [0, 6],
    [0, -6],
  ]) {
    const along = (normal[0] * dx + normal[1] * dy) / normal[2]
    const plane: [number, number, number] = [
      position[0] * 1000 + dx,
      position[1] * 1000 + dy,
      position[2] * 1000 - along,
    ]
    expect(Math.abs(bust(...plane))).toBeLessThan(1)
  }
})

test('head, neck and body: who follows whom', () => {
  const weight = (name: LandmarkName) => asset.landmarks[name].headWeight
  for (const name of ['noseTip', 'chin', 'menton', 'earLeft', 'crown', 'backOfHead', 'eyeCentreLeft'] as const)
    expect(weight(name)).toBe(1)
  for (const name of ['sternalNotch', 'shoulderLeft'] as const) expect(weight(name)).toBe(0)
})
