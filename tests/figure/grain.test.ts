import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readWardrobe, WORN_FILES } from '../../src/figure'
import { outerTriangles } from '../../src/figure/strands/roots'
import { DENSE, hairCover, hairGrain, massCover } from '../../src/figure/worn/grain'
import { HAIR_LEAVES_MASS, hairOpen } from '../../src/photometry'
import { cross, length, subtract, type Vec3 } from '../../src/space'
import { partOf } from './sculpture'

/** Places over a head, in steps that fall on no width's beat. */
const places = Array.from({ length: 40_000 }, (_, i) => [
  ((i * 0.6180339887) % 1) * 500 - 250,
  ((i * 0.7548776662) % 1) * 300,
])
const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length
const spread = (values: readonly number[]) => Math.sqrt(mean(values.map((v) => v * v)) - mean(values) ** 2)

describe('the grain of hair', () => {
  const fine = places.map(([across, along]) => hairGrain(across, along, 0.05))

  test('keeps the mean reflectance and the mean normal, since meter and bounce know nothing of it', () => {
    // One head has few of the widest locks: the mean of a hundred.
    const many = places.map(([across, along]) => hairGrain(across * 10, along * 10, 0.05))
    for (const [of, allowed] of [
      [many, 0.005],
      [fine, 0.02],
    ] as const) {
      expect(Math.abs(mean(of.map(({ tone }) => tone)) - 1)).toBeLessThan(allowed)
      expect(Math.abs(mean(of.map(({ across }) => across)))).toBeLessThan(allowed)
      expect(Math.abs(mean(of.map(({ along }) => along)))).toBeLessThan(allowed)
    }
  })
  test('never takes all light nor gives back more than the fairest mass of hair (0.34) can', () => {
    const tones = fine.map(({ tone }) => tone).sort((a, b) => a - b)
    expect(tones[0]).toBeGreaterThan(0)
    expect(tones[tones.length - 1] * 0.34).toBeLessThan(0.95)
  })
  test('turns the normal some 10° across the strands and less along them', () => {
    expect(spread(fine.map(({ across }) => across))).toBeGreaterThan(Math.tan(Math.PI / 30))
    expect(spread(fine.map(({ across }) => across))).toBeLessThan(Math.tan(Math.PI / 9))
    expect(spread(fine.map(({ along }) => along))).toBeLessThan(spread(fine.map(({ across }) => across)) / 2)
  })
  test('is long along the strand: half a millimetre on it is what it was, half a millimetre aside it is not', () => {
    const moved = (dx: number, dy: number) =>
      spread(places.map(([x, y], i) => hairGrain(x + dx, y + dy, 0.05).tone - fine[i].tone))
    expect(moved(0, 0.5)).toBeLessThan(moved(0.5, 0) / 10)
  })
  test('is gone where a pixel takes in more than its widest lock', () => {
    for (const [across, along] of places.slice(0, 100))
      expect(hairGrain(across, along, 8)).toMatchObject({ across: 0, along: 0, tone: 1, reach: 0 })
  })
})

/** What hides locks from the light moves a highlight from lock to lock: over the head as much must be left (conservation of the mean). */
test.each(['short', 'long'] as const)('gloss of %s hair by what is open to light keeps its mean, within 8 %', (cut) => {
  const { mesh, tint } =
    cut === 'short'
      ? partOf('hair')
      : readWardrobe({ longHair: new Uint8Array(readFileSync(`assets/${WORN_FILES.longHair}`)) }).longHair!
  let [open, area] = [0, 0]
  for (const t of outerTriangles(mesh)) {
    const corners = [0, 1, 2].map((k) => mesh.indices[t + k])
    const [a, b, c] = corners.map((v) => [...mesh.positions.subarray(3 * v, 3 * v + 3)] as unknown as Vec3)
    // What faces the floor, under the ends, is in the dark and seldom seen.
    if (corners.some((v) => mesh.normals[3 * v + 1] < -0.3)) continue
    const size = length(cross(subtract(b, a), subtract(c, a)))
    open += (size * corners.reduce((sum, v) => sum + hairOpen(tint[3 * v + 1], 1), 0)) / (3 * HAIR_LEAVES_MASS)
    area += size
  }
  expect(open / area).toBeGreaterThan(0.92)
  expect(open / area).toBeLessThan(1.08)
})

/** What a mean over pixels must be, and symmetry of the noise about 0: closed forms. */
describe('where strands thin out', () => {
  const coverOf = (growth: number, footprintMm: number) =>
    places.slice(0, 8000).map(([across, along]) => hairCover(growth, hairGrain(across * 10, along * 10, footprintMm)))

  test('half of the skin is covered at growth 0, next to nothing at −1.5 and nearly all at 1.5', () => {
    expect(Math.abs(mean(coverOf(0, 0.05)) - 0.5)).toBeLessThan(0.02)
    expect(mean(coverOf(-1.5, 0.05))).toBeLessThan(0.01)
    expect(mean(coverOf(1.5, 0.05))).toBeGreaterThan(0.99)
  })
  test('single strands show near, and a pixel that takes in many shows their mean: within 0.04 at all growths', () => {
    expect(coverOf(0, 0.05).filter((cover) => cover > 0.02 && cover < 0.98).length).toBeLessThan(3000)
    for (const growth of [-1, -0.5, 0, 0.5, 1])
      for (const footprintMm of [0.34, 1, 3, 9])
        expect(Math.abs(mean(coverOf(growth, footprintMm)) - mean(coverOf(growth, 0.05)))).toBeLessThan(0.04)
  })
  test('the more grows, the more is covered, at each place', () => {
    for (const [across, along] of places.slice(0, 500)) {
      const grain = hairGrain(across, along, 0.3)
      const covers = [-2, -1, -0.5, 0, 0.5, 1, 2].map((growth) => hairCover(growth, grain))
      expect(covers).toEqual([...covers].sort((a, b) => a - b))
    }
  })
  test('the mass of hair has no hole where it is not asked, and is bare before the skin is', () => {
    for (const footprintMm of [0.05, 0.4, 2])
      for (const [across, along] of places.slice(0, 4000)) {
        const grain = hairGrain(across, along, footprintMm)
        expect(massCover(DENSE, grain)).toBeGreaterThan(0.9)
        expect(massCover(-0.5, grain)).toBeLessThanOrEqual(hairCover(-0.5, grain))
      }
  })
})
