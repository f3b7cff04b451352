import { describe, expect, test } from 'vitest'
import {
  clearAt,
  entryTo,
  IRIS_Z,
  irisBehind,
  irisNormalAt,
  irisSlopes,
  irisTone,
  PUPIL_RADIUS,
} from '../../src/figure/iris'
import { CORNEA_CENTRE_Z, CORNEA_EDGE, CORNEA_RADIUS } from '../../src/figure/sculpt/data/eye'
import { normalize, radians, type Vec3 } from '../../src/space'

const CORNEA: Vec3 = [0, 0, CORNEA_CENTRE_Z]
const APEX = CORNEA_CENTRE_Z + CORNEA_RADIUS

/** The place of the cornea at a distance from the axis, with its normal. */
function corneaAt(x: number): { readonly p: Vec3; readonly normal: Vec3 } {
  const z = Math.sqrt(CORNEA_RADIUS ** 2 - x * x)
  return { p: [x, 0, CORNEA[2] + z], normal: [x / CORNEA_RADIUS, 0, z / CORNEA_RADIUS] }
}

describe('what a cornea shows', () => {
  /** Gullstrand's schematic eye as eye-optics textbooks print it (from memory): pupil 3.6 mm behind the cornea's front. */
  test('the entrance pupil is 1.13 times as wide as the pupil and lies 3.05 mm behind the front', () => {
    const x = 0.05
    const { p, normal } = corneaAt(x)
    const straight = irisBehind(p, normal, [0, 0, -1])
    const magnified = x / straight[0]
    expect(magnified).toBeGreaterThan(1.12)
    expect(magnified).toBeLessThan(1.14)
    // Two rays from one point of the pupil: the image lies where they meet when drawn on straight.
    const aside = (slope: number) => irisBehind(p, normal, normalize([slope, 0, -1]))[0]
    const step = 1e-3
    const wantedMove = (aside(step) - aside(0)) / step
    // A ray that leans by a slope lands depth/n deeper aside; the image depth scales with the magnification.
    expect(wantedMove * magnified).toBeCloseTo(3.05, 1)
  })

  test('the iris lies 3.6 mm behind the front on the axis', () => {
    expect(irisBehind([0, 0, APEX], [0, 0, 1], [0, 0, -1])).toEqual([0, 0, IRIS_Z])
    expect(APEX - IRIS_Z).toBeCloseTo(3.6, 1)
  })

  /** Snell's law by its own sines. */
  test.each([10, 25, 40])('a ray from %d° aside is bent by the law of sines', (deg) => {
    const angle = radians(deg)
    const q = irisBehind([0, 0, APEX], [0, 0, 1], [-Math.sin(angle), 0, -Math.cos(angle)])
    const sine = -q[0] / Math.hypot(q[0], APEX - q[2])
    expect(sine).toBeCloseTo(Math.sin(angle) / 1.336, 6)
  })

  test('from 60° aside the iris has moved behind its edge by more than a millimetre: it has parallax', () => {
    const { p, normal } = corneaAt(0)
    const q = irisBehind(p, normal, [-Math.sin(radians(60)), 0, -Math.cos(radians(60))])
    expect(q[0]).toBeLessThan(-1)
  })
})

describe('light on the iris', () => {
  const smooth = irisNormalAt(0, 0)

  /**
   * One refracting surface has a focal length inside of n·r/(n − 1) = 31.0 mm: a beam has narrowed by (31.0 − 3.6)/31.0 when it
   * comes to the iris 3.6 mm behind (paraxial optics, any textbook), and its light lies on an area so much smaller.
   */
  test('straight from ahead it is what the cornea gets, thrown together by the cornea', () => {
    const focal = (1.336 * CORNEA_RADIUS) / 0.336
    const expected = (focal / (focal - (APEX - IRIS_Z))) ** 2
    expect(entryTo([0, 0, IRIS_Z], [0, 0, 1], smooth).share / expected).toBeCloseTo(1, 2)
  })

  /** What enters is what arrives: flux through a strip of the cornea, by another sum than the shares'. */
  test('no light is made or lost between cornea and iris', () => {
    const towards = normalize([0.5, 0, 1])
    const step = 0.05
    let [onIris, through] = [0, 0]
    for (let x = -2; x < 2; x += step)
      for (let y = -2; y < 2; y += step) {
        const q: Vec3 = [x + step / 2, y + step / 2, IRIS_Z]
        const { at, normal, share } = entryTo(q, towards, irisNormalAt(q[0], q[1]))
        expect(Math.hypot(at[0], at[1])).toBeLessThan(5)
        onIris += share * (normal[0] * towards[0] + normal[2] * towards[2]) * step ** 2
      }
    // The same beam's cross-section before the cornea, by its outline.
    const outline = Array.from({ length: 400 }, (_, i): readonly [number, number] => {
      const [side, along] = [Math.floor(i / 100), -2 + (4 * (i % 100)) / 100]
      const [x, y] = [
        [along, -2],
        [2, along],
        [-along, 2],
        [-2, -along],
      ][side]
      const { at } = entryTo([x, y, IRIS_Z], towards, smooth)
      return [at[0] * towards[2] - at[2] * towards[0], at[1]]
    })
    outline.forEach(([x, y], i) => {
      const [u, v] = outline[(i + 1) % outline.length]
      through += (x * v - u * y) / 2
    })
    expect(onIris / through).toBeCloseTo(1, 1)
  })

  /** The bright crescent that portrait photographers know across from the lamp: common practice, no source. */
  test('from 70° aside the far side gets more than the near side', () => {
    const towards: Vec3 = [Math.sin(radians(70)), 0, Math.cos(radians(70))]
    const light = (x: number) => {
      const { share, normal } = entryTo([x, 0, IRIS_Z], towards, smooth)
      return share * Math.max(0, normal[0] * towards[0] + normal[2] * towards[2])
    }
    expect(light(-3.5)).toBeGreaterThan(1.3 * light(3.5))
  })

  test('bent and straight way meet: the ray that enters there is bent to the place', () => {
    const towards = normalize([0.6, 0.2, 1])
    const q: Vec3 = [-2, 1, IRIS_Z + 0.01 * 5]
    const { at, normal } = entryTo(q, towards, smooth)
    const met = irisBehind(at, normal, [-towards[0], -towards[1], -towards[2]])
    for (let k = 0; k < 3; k++) expect(met[k]).toBeCloseTo(q[k], 1)
  })
})

describe('the look of the iris', () => {
  test('black pupil, dark rim', () => {
    expect(irisTone(0.5 * PUPIL_RADIUS, 0, 0.1)).toBe(0)
    const mean = (r: number) => {
      const turns = Array.from({ length: 90 }, (_, i) => (i / 90) * 2 * Math.PI)
      return turns.reduce((sum, a) => sum + irisTone(r * Math.cos(a), r * Math.sin(a), 0.1), 0) / turns.length
    }
    expect(mean(3.6)).toBeGreaterThan(0.7)
    expect(mean(5.7)).toBeLessThan(0.4 * mean(3.6))
  })

  test('its relief is one of tenths of a millimetre, to no side in the mean, and gone where a pixel takes in its fibres', () => {
    const turns = Array.from({ length: 360 }, (_, i) => (i / 360) * 2 * Math.PI)
    const across = (r: number, footprintMm: number) =>
      turns.map((a) => {
        const [x, y] = irisSlopes(r * Math.cos(a), r * Math.sin(a), footprintMm)
        return y * Math.cos(a) - x * Math.sin(a)
      })
    const rms = (values: readonly number[]) => Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length)
    const fine = across(4, 0.03)
    expect(Math.abs(fine.reduce((sum, v) => sum + v, 0) / fine.length)).toBeLessThan(0.05)
    expect(rms(fine)).toBeGreaterThan(0.1)
    expect(rms(fine)).toBeLessThan(1)
    expect(rms(across(4, 0.2))).toBeLessThan(0.5 * rms(fine))
  })

  test('no seam where the angle starts again', () => {
    for (const r of [2, 3, 4.5]) expect(irisTone(-r, 1e-7, 0.05)).toBeCloseTo(irisTone(-r, -1e-7, 0.05), 4)
  })

  test('the limbus is soft, and clear within the cornea', () => {
    expect(clearAt(5)).toBe(1)
    expect(clearAt(6.2)).toBe(0)
    expect(clearAt(CORNEA_EDGE)).toBeGreaterThan(0)
    expect(clearAt(CORNEA_EDGE)).toBeLessThan(1)
  })
})
