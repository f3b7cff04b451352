import { expect, test } from 'vitest'
import { directAt } from '../../src/meter'
import { receptorResponse } from '../../src/photometry'
import type { RigSource } from '../../src/rig'
import { normalize, subtract, type Vec3 } from '../../src/space'
import { rigOf, sceneOf, sourceAt } from './fixtures'

const HERE: Vec3 = [0, 1.2, 0]
const front = (d: number): Vec3 => [0, 1.2, d]
const at = (sources: readonly RigSource[], receptor: 'disc' | 'dome' = 'disc', normal: Vec3 = [0, 0, 1]) =>
  directAt(sceneOf(rigOf(sources)), { point: HERE, normal }, receptor)
const total = (sources: readonly RigSource[]) => at(sources).reduce((sum, { rgb }) => sum + rgb[1], 0)
const stops = (ratio: number) => Math.log2(ratio)
const small = (d: number) => sourceAt('A', { shape: 'disc', radiusM: 0.01 }, front(d), HERE)

test('trust 1: a bare small source loses 2.0 stops from 1 to 2 m and 1.0 from 1 to 1.4 m (inverse square)', () => {
  const one = total([small(1)])
  expect(stops(total([small(2)]) / one)).toBeCloseTo(-2, 3)
  expect(stops(total([small(Math.SQRT2)]) / one)).toBeCloseTo(-1, 3)
})

// E/L = π·R²/(R² + d²): disc and coaxial parallel element, Howell catalogue of configuration factors.
for (const d of [0.25, 0.5, 1, 1.5, 3])
  test(`a matt disc 0.9 m wide at ${d} m is the closed form within 0.1 %`, () => {
    const R = 0.45
    const source = sourceAt('A', { shape: 'disc', radiusM: R }, front(d), HERE)
    const expected = (Math.PI * R * R) / (R * R + d * d)
    expect(Math.abs(total([source]) / expected - 1)).toBeLessThan(1e-3)
  })

// Four corner factors (2/π)[A/√(1+A²)·atan(B/√(1+A²)) + …]: parallel rectangle, Howell catalogue.
const squareFactor = (side: number, d: number) => {
  const a = side / 2 / d
  const root = Math.sqrt(1 + a * a)
  return 4 * (a / root) * Math.atan(a / root)
}
for (const d of [0.25, 0.5, 1, 1.5, 3])
  test(`a matt square 1 m wide at ${d} m is the closed form within 0.1 %`, () => {
    const source = sourceAt('A', { shape: 'rectangle', widthM: 1, heightM: 1 }, front(d), HERE)
    expect(Math.abs(total([source]) / squareFactor(1, d) - 1)).toBeLessThan(1e-3)
  })

test('the square at 1 m matches the published value 0.75227 (Lambert polygon formula, RAD-POLY-SQ)', () => {
  expect(squareFactor(1, 1)).toBeCloseTo(0.7522746885, 9)
})

// Offset element, H = h/a, P = R/a: F = ½[1 − (Z − 2P²)/√(Z² − 4P²)], entry B-13 of the Howell catalogue.
test('a disc seen from aside is the catalogue form within 0.2 %', () => {
  const [a, h, R] = [0.5, 1, 0.5]
  const P = R / a
  const Z = 1 + (h / a) ** 2 + P * P
  const F = 0.5 * (1 - (Z - 2 * P * P) / Math.sqrt(Z * Z - 4 * P * P))
  const source = sourceAt('A', { shape: 'disc', radiusM: R }, [a, 1.2, h], [a, 1.2, 0])
  expect(Math.abs(total([source]) / (Math.PI * F) - 1)).toBeLessThan(2e-3)
})

test('a receptor sees only what stands above its horizon: half a square that straddles it', () => {
  // RAD-POLY-HORIZON: 1 m square 1 m off, edge on to the receptor, half below the horizon: E/L = 0.0875102642.
  const source = sourceAt('A', { shape: 'rectangle', widthM: 1, heightM: 1 }, front(1), HERE)
  const [light] = at([source], 'disc', [0, 1, 0])
  expect(Math.abs(light.perCandela / 0.0875102642 - 1)).toBeLessThan(5e-3)
})

test('four quarter sources are one whole source', () => {
  const whole = sourceAt('A', { shape: 'rectangle', widthM: 1, heightM: 1 }, front(0.8), HERE)
  const quarters = [
    [-0.25, -0.25],
    [0.25, -0.25],
    [-0.25, 0.25],
    [0.25, 0.25],
  ].map(([x, y], i) =>
    sourceAt(`Q${i}`, { shape: 'rectangle', widthM: 0.5, heightM: 0.5 }, [x, 1.2 + y, 0.8], [x, 1.2 + y, 0]),
  )
  expect(Math.abs(stops(total(quarters) / total([whole])))).toBeLessThan(0.002)
})

test('trust 5: half power is −1.00 stop', () => {
  const lamp = (axialIntensity: number) =>
    sourceAt('A', { shape: 'disc', radiusM: 0.4 }, front(1.3), HERE, { axialIntensity })
  expect(stops(total([lamp(500)]) / total([lamp(1000)]))).toBeCloseTo(-1, 12)
})

test('trust 3: two equal lights give +1.0; one 2 stops down adds +0.32', () => {
  const lamp = (id: string, k: number) =>
    sourceAt(id, { shape: 'disc', radiusM: 0.2 }, front(1.3), HERE, { axialIntensity: k })
  const one = total([lamp('A', 1)])
  expect(stops(total([lamp('A', 1), lamp('B', 1)]) / one)).toBeCloseTo(1, 12)
  // log2(1 + 1/4) = 0.3219
  expect(stops(total([lamp('A', 1), lamp('B', 0.25)]) / one)).toBeCloseTo(0.3219, 4)
})

test('trust 2: a 0.9 m matt disc loses 1.32 stops from 0.45 to 0.9 m, not 2 (trade table: 1.32)', () => {
  const disc = (d: number) => sourceAt('A', { shape: 'disc', radiusM: 0.45 }, front(d), HERE)
  expect(stops(total([disc(0.9)]) / total([disc(0.45)]))).toBeCloseTo(-Math.log2(5 / 2), 2)
})

test('a dome answers as (1 + cosθ)/2 and a disc as cosθ; both agree on axis', () => {
  for (const [deg, dome, disc] of [
    // Trade table, calculated: dome to the lens −0.10, −0.23, −0.42; disc −0.21, −0.50, −1.0 stop.
    [0, 0, 0],
    [30, -0.1, -0.21],
    [45, -0.23, -0.5],
    [60, -0.42, -1],
  ]) {
    const angle = (deg * Math.PI) / 180
    const position: Vec3 = [3 * Math.sin(angle), 1.2, 3 * Math.cos(angle)]
    const source = sourceAt('A', { shape: 'disc', radiusM: 0.005 }, position, HERE)
    const facing = at([source], 'disc', normalize(subtract(position, HERE)))[0].perCandela
    expect(stops(at([source], 'dome')[0].perCandela / facing)).toBeCloseTo(dome, 1)
    expect(stops(at([source], 'disc')[0].perCandela / facing)).toBeCloseTo(disc, 1)
  }
  expect(receptorResponse('dome', -1)).toBe(0)
  expect(receptorResponse('disc', -0.2)).toBe(0)
})

test('another thing in the way takes the light; the own gear does not', () => {
  const board = { kind: 'rectangle', rect: { centre: front(0.5), halfU: [0.3, 0, 0], halfV: [0, 0.3, 0] } } as const
  const gear = [{ ...board, albedo: [0, 0, 0] as const }]
  const lamp = sourceAt('A', { shape: 'disc', radiusM: 0.1 }, front(1), HERE)
  const other = { ...sourceAt('B', { shape: 'disc', radiusM: 0.1 }, [2, 1.2, 1], HERE), gear }
  expect(at([{ ...lamp, gear }])[0].perCandela).toBeGreaterThan(0)
  expect(at([lamp, other])[0].perCandela).toBe(0)
})
