import { describe, expect, test } from 'vitest'
import type { LandmarkName } from '../../src/figure'
import { growth, hairlineOf } from '../../src/figure/sculpt/hair'
import { asset, partOf } from './sculpture'

const skin = partOf('skin')

/** Growth at a named place. Metres there, millimetres here. */
function growthAt(name: LandmarkName): number {
  const [x, y, z] = asset.landmarks[name].position
  return growth(x * 1000, y * 1000, z * 1000)
}

/** Where hair grows and how it is cut: common knowledge, no source. */
describe('where hair grows', () => {
  test.each([
    'foreheadCentre',
    'glabella',
    'noseTip',
    'cheekLeft',
    'cheekRight',
    'chin',
    'neckFront',
    'earLeft',
    'earRight',
  ] as const)('none at %s', (name) => {
    expect(growthAt(name)).toBeLessThan(-1)
  })

  test('dense over the whole top of the head', () => {
    const { positions } = skin.mesh
    for (let i = 0; i < positions.length; i += 3)
      if (positions[i + 1] > 0.1) expect(skin.grain![i + 2]).toBeGreaterThan(2)
  })

  /** Millimetres in which growth goes from 1 to −1, down the middle of the skin from a height on. */
  function fadeMm(z: (y: number) => number, from: number): number {
    const thins = Array.from({ length: 1200 }, (_, i) => from - i / 10).filter((y) => {
      const grown = growth(0, y, z(y))
      return grown < 1 && grown > -1
    })
    return thins.length / 10
  }

  test('thins out over millimetres at the forehead, and over centimetres where it is cut to fade at the nape', () => {
    const forehead = fadeMm(() => 20, 100)
    expect(forehead).toBeGreaterThan(5)
    expect(forehead).toBeLessThan(20)
    const nape = fadeMm((y) => -150 - (y + 60) * 0.3, -20)
    expect(nape).toBeGreaterThan(25)
    expect(nape).toBeGreaterThan(2 * forehead)
  })

  test('a sideburn gets narrower downwards, and ends before the ear lobe', () => {
    const breadth = (y: number) =>
      Array.from({ length: 400 }, (_, i) => -30 - i / 10).filter((z) => z > -72 && growth(69, y, z) > 0).length / 10
    const breadths = [16, 6, -4, -12].map(breadth)
    expect(breadths[0]).toBeGreaterThan(10)
    expect(breadths).toEqual([...breadths].sort((a, b) => b - a))
    expect(breadths[3]).toBeLessThan(0.6 * breadths[0])
    expect(breadth(-30)).toBe(0)
  })
})

describe('how deep inside the hairline', () => {
  const level = hairlineOf(() => 10).edge
  test('of a straight hairline it is the distance, within 2 %', () => {
    for (const y of [18, 24, 30, 40]) {
      const { inside, deep } = level(0, y, 0)
      expect(inside).toBeCloseTo(y - 10, 6)
      expect(deep / inside).toBeCloseTo(1, 1)
      expect(Math.abs(deep / inside - 1)).toBeLessThan(0.02)
    }
  })

  /** Between a hairline before and one behind, as far from both: the distance alone turns there by twice its slope. */
  test('where two stretches are equally near it has no crease', () => {
    const trench = hairlineOf((azimuth) => (azimuth > 0.8 && azimuth < 1.4 ? -60 : 90)).edge
    const radius = 75
    const at = (azimuth: number) => trench(radius * Math.sin(azimuth), 20, -75 + radius * Math.cos(azimuth))
    const turn = (which: 'inside' | 'deep') =>
      Math.max(
        ...Array.from({ length: 40 }, (_, i) => {
          const a = 1 + i * 0.005
          return Math.abs(at(a - 0.01)[which] - 2 * at(a)[which] + at(a + 0.01)[which])
        }),
      )
    expect(turn('inside')).toBeGreaterThan(1)
    expect(turn('deep')).toBeLessThan(0.35 * turn('inside'))
  })
})
