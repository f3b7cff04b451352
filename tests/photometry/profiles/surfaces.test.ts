import { expect, test } from 'vitest'
import { cosineDisc, pointInCells, pointOn, uniformSurface } from '../../../src/photometry'

const disc = uniformSurface({ surface: { shape: 'disc', radiusM: 2 }, luminance: 1 })
const grid = (count: number) =>
  Array.from({ length: count * count }, (_, i) => [
    ((i % count) + 0.5) / count,
    (Math.floor(i / count) + 0.5) / count,
  ]) as readonly (readonly [number, number])[]

test('concentric map: the square’s sides and corners on the rim, its middle in the middle (Shirley and Chiu 1997, fig. 4)', () => {
  const at = (u: number, v: number) => pointInCells(disc, u, v).point
  for (const [u, v, degrees] of [
    [1, 0.5, 0],
    [1, 1, 45],
    [0.5, 1, 90],
    [0, 1, 135],
    [0, 0.5, 180],
    [0, 0, 225],
    [0.5, 0, 270],
    [1, 0, 315],
  ]) {
    const [x, y] = at(u, v)
    expect(x).toBeCloseTo(2 * Math.cos((degrees * Math.PI) / 180), 12)
    expect(y).toBeCloseTo(2 * Math.sin((degrees * Math.PI) / 180), 12)
  }
  expect(Math.hypot(...at(0.5, 0.5))).toBe(0)
})

test('equal areas to equal areas: the moments of the points are those of a disc, ⟨r²⟩ = R²/2 and ⟨r⁴⟩ = R⁴/3', () => {
  const squared = grid(400).map(([u, v]) => {
    const [x, y] = pointInCells(disc, u, v).point
    return x * x + y * y
  })
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length
  expect(mean(squared)).toBeCloseTo(2, 4)
  expect(mean(squared.map((value) => value * value))).toBeCloseTo(16 / 3, 3)
})

test('an octagon’s too: ⟨r²⟩ = a²·(1 + tan²(π/8)/3)/2 of a regular polygon with the apothem a', () => {
  const octagon = uniformSurface({ surface: { shape: 'octagon', widthM: 2 }, luminance: 1 })
  const squared = grid(400).map(([u, v]) => {
    const [x, y] = pointInCells(octagon, u, v).point
    return x * x + y * y
  })
  const mean = squared.reduce((sum, value) => sum + value, 0) / squared.length
  expect(mean).toBeCloseTo((1 + Math.tan(Math.PI / 8) ** 2 / 3) / 2, 4)
  const [x, y] = pointInCells(octagon, 1, 0.5).point
  expect([x, y].map((value) => Math.round(value * 1e9) / 1e9)).toEqual([1, 0])
})

test('cells are nearly square: a sixteenth of the disc is no wider than 1.9 times the side of its square', () => {
  const corner = (i: number, j: number) => pointInCells(disc, i / 4, j / 4).point
  const side = Math.sqrt((Math.PI * 4) / 16)
  for (let i = 0; i < 4; i++)
    for (let j = 0; j < 4; j++) {
      const [a, b, c, d] = [corner(i, j), corner(i + 1, j), corner(i, j + 1), corner(i + 1, j + 1)]
      const longest = Math.max(Math.hypot(a[0] - d[0], a[1] - d[1]), Math.hypot(b[0] - c[0], b[1] - c[1]))
      expect(longest).toBeLessThan(1.9 * side)
    }
})

test('behind a grid, and on flat faces with corners, the points are those of pointOn', () => {
  const lamp = { radiusM: 0.09, axialIntensity: 1, exponent: 1.5 }
  const gridded = cosineDisc({ ...lamp, gate: { kind: 'honeycomb', depthOverWidth: 4, wallLoss: 0.1 } })
  const rectangle = uniformSurface({ surface: { shape: 'rectangle', widthM: 1, heightM: 2 }, luminance: 1 })
  for (const face of [gridded, rectangle]) expect(pointInCells(face, 0.3, 0.8)).toEqual(pointOn(face.surface, 0.3, 0.8))
})
