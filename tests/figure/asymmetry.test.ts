import { describe, expect, test } from 'vitest'
import { LANDMARK_NAMES, type LandmarkName, withAsymmetry } from '../../src/figure'
import { lidOpening } from '../../src/figure/sculpt/eye'
import { asset } from './sculpture'

const own = withAsymmetry(asset)
const mm = (name: LandmarkName, of = own) => of.landmarks[name].position.map((v) => v * 1000)
const [skin, before] = [own.parts[0].mesh, asset.parts[0].mesh]
const moved = Array.from({ length: before.positions.length / 3 }, (_, v) =>
  Math.hypot(...[0, 1, 2].map((k) => 1000 * (skin.positions[3 * v + k] - before.positions[3 * v + k]))),
)

/** Farkas and Cheung 1981: healthy faces differ between their sides by some 3 mm in the mean (from memory). */
describe('a face of its own', () => {
  test('its sides differ by tenths of a millimetre to a millimetre and a half, as mouth, cheek and nose tell', () => {
    const [left, right] = [mm('mouthLeft'), mm('mouthRight')]
    const aside = [left[0] + right[0], left[1] - right[1], left[2] - right[2]]
    expect(Math.hypot(...aside)).toBeGreaterThan(0.5)
    expect(Math.hypot(...aside)).toBeLessThan(2)
    for (const name of ['noseTip', 'chin', 'stomion'] as const) {
      expect(Math.abs(mm(name)[0]), name).toBeGreaterThan(0.2)
      expect(Math.abs(mm(name)[0]), name).toBeLessThan(1)
    }
    expect(Math.max(...moved)).toBeGreaterThan(0.6)
    expect(Math.max(...moved)).toBeLessThan(1.5)
  })

  test('eyes are where they were, and lids fit them: within a tenth of a millimetre at their margins', () => {
    for (const name of ['eyeCentreLeft', 'eyeCentreRight', 'pupilLeft', 'pupilRight'] as const)
      expect(own.landmarks[name].position).toEqual(asset.landmarks[name].position)
    moved.forEach((distance, v) => {
      const [x, y, z] = [0, 1, 2].map((k) => 1000 * before.positions[3 * v + k])
      if (z > 0 && Math.abs(y) < 9 && lidOpening(Math.abs(x) - 31.5, y) < 1) expect(distance).toBeLessThan(0.1)
    })
  })

  test('normals and landmarks go with the skin: unit, and turned by less than 8°', () => {
    for (let i = 0; i < skin.normals.length; i += 3) {
      const [n, m] = [skin.normals.subarray(i, i + 3), before.normals.subarray(i, i + 3)]
      expect(Math.abs(Math.hypot(...n) - 1)).toBeLessThan(1e-5)
      expect(n[0] * m[0] + n[1] * m[1] + n[2] * m[2]).toBeGreaterThan(Math.cos((8 * Math.PI) / 180))
    }
    for (const name of LANDMARK_NAMES) expect(Math.hypot(...own.landmarks[name].normal)).toBeCloseTo(1, 6)
  })

  test('the same record each time, and nothing else is another', () => {
    expect(withAsymmetry(asset)).toBe(own)
    expect(own.parts.slice(1)).toEqual(asset.parts.slice(1))
    expect(own.headPivot).toBe(asset.headPivot)
  })
})
