import { describe, expect, test } from 'vitest'
import {
  cornerFactorParallel,
  discFactorOffAxis,
  discFactorOnAxis,
  discFactorTilted,
  fluxByLines,
  fluxByMidZones,
  fluxByZones,
  irradianceFromPolygon,
  midZoneExcess,
  polygonAboveHorizon,
  roundSourceIrradiance,
  shadowOffset,
  solidAngleOfDisc,
  solidAngleOfDiscOffAxis,
  umbraLength,
  viewFactorPerpendicular,
  viewFactorPerpendicularOffset,
} from '../../src/photometry'
import { normalize, radians, type Vec3 } from '../../src/space'

/** Two roads to one answer: what the published values of tests/truth leave open between their points. */

/** Lambert cosine sum over a fine grid of the surface: no formula shared with what it judges. */
function summed(parts: readonly { readonly at: Vec3; readonly area: number }[], facing: Vec3, normal: Vec3): number {
  return parts.reduce((sum, { at, area }) => {
    const d2 = at[0] ** 2 + at[1] ** 2 + at[2] ** 2
    const d = Math.sqrt(d2)
    const cosIn = (at[0] * normal[0] + at[1] * normal[1] + at[2] * normal[2]) / d
    const cosOut = Math.abs(at[0] * facing[0] + at[1] * facing[1] + at[2] * facing[2]) / d
    return cosIn > 0 ? sum + (cosIn * cosOut * area) / d2 : sum
  }, 0)
}

function discGrid(radius: number, height: number, offset: number, n = 400) {
  return Array.from({ length: n * n }, (_, k) => {
    const r = radius * Math.sqrt((Math.floor(k / n) + 0.5) / n)
    const angle = (2 * Math.PI * ((k % n) + 0.5)) / n
    return {
      at: [r * Math.cos(angle) - offset, r * Math.sin(angle), height] as Vec3,
      area: (Math.PI * radius ** 2) / (n * n),
    }
  })
}

describe('disc', () => {
  test('off the axis, at 0, meets the formula on the axis', () => {
    expect(discFactorOffAxis(0.45, 1.5, 0)).toBeCloseTo(discFactorOnAxis(0.45, 1.5), 14)
    expect(solidAngleOfDiscOffAxis(0.45, 1.5, 0)).toBeCloseTo(solidAngleOfDisc(0.45, 1.5), 13)
  })
  test.each([0, 0.2, 0.45, 1.3])('factor %f m beside the axis = sum over its parts', (offset) => {
    const sum = summed(discGrid(0.45, 0.9, offset), [0, 0, 1], [0, 0, 1])
    expect(Math.PI * discFactorOffAxis(0.45, 0.9, offset)).toBeCloseTo(sum, 5)
  })
  test.each([0, 0.2, 0.7, 1.3])('solid angle %f m beside the axis = sum over its parts', (offset) => {
    const sum = discGrid(0.45, 0.9, offset).reduce((s, { at, area }) => {
      const d = Math.hypot(...at)
      return s + (at[2] * area) / d ** 3
    }, 0)
    expect(solidAngleOfDiscOffAxis(0.45, 0.9, offset)).toBeCloseTo(sum, 5)
  })
  test('the solid angle is continuous across the rim', () => {
    const [inside, at, outside] = [0.45 - 1e-7, 0.45, 0.45 + 1e-7].map((a) => solidAngleOfDiscOffAxis(0.45, 0.3, a))
    expect(inside).toBeCloseTo(at!, 6)
    expect(outside).toBeCloseTo(at!, 6)
  })
  test('a tilted element that the disc sets for is refused, with the function that can do it', () => {
    expect(() => discFactorTilted(0.5, 1, radians(80))).toThrow(/crosses the horizon.*roundSourceIrradiance/)
  })
})

describe('polygon', () => {
  const rectangle: readonly Vec3[] = [
    [0, 0, 1.5],
    [0.3, 0, 1.5],
    [0.3, 0.45, 1.5],
    [0, 0.45, 1.5],
  ]
  test('a corner rectangle meets the catalogue', () => {
    expect(irradianceFromPolygon(rectangle, [0, 0, 1])).toBeCloseTo(Math.PI * cornerFactorParallel(0.3, 0.45, 1.5), 14)
  })
  test('both windings and any first corner give one answer', () => {
    const value = irradianceFromPolygon(rectangle, [0, 0, 1])
    expect(irradianceFromPolygon([...rectangle].reverse(), [0, 0, 1])).toBeCloseTo(value, 14)
    expect(irradianceFromPolygon([...rectangle.slice(2), ...rectangle.slice(0, 2)], [0, 0, 1])).toBeCloseTo(value, 14)
  })
  test.each([20, 60, 100, 140])('normal turned by %i°: formula with horizon = sum over its parts', (turn) => {
    const normal = normalize([Math.sin(radians(turn)), 0.2, Math.cos(radians(turn))])
    const n = 300
    const parts = Array.from({ length: n * n }, (_, k) => ({
      at: [-1 + (2 * ((k % n) + 0.5)) / n, -1 + (2 * (Math.floor(k / n) + 0.5)) / n, 0.8] as Vec3,
      area: 4 / (n * n),
    }))
    const corners: Vec3[] = [
      [-1, -1, 0.8],
      [1, -1, 0.8],
      [1, 1, 0.8],
      [-1, 1, 0.8],
    ]
    expect(irradianceFromPolygon(corners, normal)).toBeCloseTo(summed(parts, [0, 0, 1], normal), 4)
  })
  test('wholly below the horizon: nothing is left, and nothing arrives', () => {
    expect(polygonAboveHorizon(rectangle, [0, 0, -1])).toEqual([])
    expect(irradianceFromPolygon(rectangle, [0, 0, -1])).toBe(0)
  })
})

test('a round source fades to nothing as it sets, without a step', () => {
  const radius = radians(17)
  const at = (deg: number): number => roundSourceIrradiance(radians(deg), radius)
  expect(at(73 - 1e-6)).toBeCloseTo(at(73 + 1e-6), 7)
  expect(at(107 - 1e-4)).toBeGreaterThanOrEqual(0)
  expect(at(107 - 1e-4)).toBeLessThan(1e-6)
  expect(at(107)).toBe(0)
  expect(at(180)).toBe(0)
})

test('offset rectangles with a common edge meet the plain formula', () => {
  const general = viewFactorPerpendicularOffset([0, 2], [0, 1], [0, 1], [0, 1])
  expect(general).toBeCloseTo(viewFactorPerpendicular(2, 1), 12)
})

test('a blocker as wide as the source has no end to its shadow', () => {
  expect(umbraLength(0.3, 0.3, 1)).toBe(Infinity)
  expect(umbraLength(0.3, 0.1, 1)).toBeCloseTo(0.5, 14)
})

test('a frontal light throws no shadow sideways', () => {
  expect(shadowOffset(0.02, 0, 0)).toEqual({ sideways: 0, down: 0 })
})

describe('flux of a table', () => {
  const degrees = Array.from({ length: 19 }, (_, k) => radians(5 * k))
  test('all rules give 2πI for a source alike over its half-space', () => {
    const even = degrees.map(() => 100)
    expect(fluxByZones(degrees, even)).toBeCloseTo(200 * Math.PI, 9)
    expect(fluxByLines(degrees, even)).toBeCloseTo(200 * Math.PI, 9)
    expect(fluxByMidZones(radians(10), Array(9).fill(100))).toBeCloseTo(200 * Math.PI, 9)
  })
  test.each([5, 10, 15, 30])('mid zones of %i° overrate a cosine by 1/cos(h/2)', (width) => {
    const middles = Array.from({ length: 90 / width }, (_, k) => Math.cos(radians((k + 0.5) * width)))
    expect(fluxByMidZones(radians(width), middles) / Math.PI).toBeCloseTo(midZoneExcess(radians(width)), 12)
  })
  test('zones of 20° do not fill 90°, and the rule does not hold: 0.9848', () => {
    const middles = [10, 30, 50, 70].map((deg) => Math.cos(radians(deg)))
    expect(fluxByMidZones(radians(20), middles) / Math.PI).toBeCloseTo(0.984808, 6)
  })
})
