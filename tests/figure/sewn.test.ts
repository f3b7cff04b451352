import { describe, expect, test } from 'vitest'
import { SEAM_REACH, seamsAt } from '../../src/figure/sculpt/garment'
import { seamProfile } from '../../src/figure/worn/sewn'
import { asset, partOf } from './sculpture'

const { mesh, seams } = partOf('garment')

describe('where the top is sewn', () => {
  test('is known of the top alone', () => {
    for (const part of asset.parts) expect(part.seams !== undefined, part.name).toBe(part.name === 'garment')
    expect(seams!.length / 4).toBe(mesh.positions.length / 3)
    expect(seams!.every((share) => share >= -1 && share <= 1)).toBe(true)
  })

  /** A distance grows by the way along the cloth, or less where it is taken askew (the definition of one). */
  test('told as distances: along edges of the mesh they change by no more than the edge is long', () => {
    for (let t = 0; t < mesh.indices.length; t += 3)
      for (let k = 0; k < 3; k++) {
        const [a, b] = [mesh.indices[t + k], mesh.indices[t + ((k + 1) % 3)]]
        const apart = Math.hypot(...[0, 1, 2].map((i) => mesh.positions[3 * a + i] - mesh.positions[3 * b + i])) * 1000
        for (let i = 0; i < 3; i++)
          expect(Math.abs(seams![4 * a + i] - seams![4 * b + i]) * SEAM_REACH).toBeLessThan(1.15 * apart + 0.05)
      }
  })

  test('the same on both sides', () => {
    for (const [x, y, z] of [
      [40, -190, -40],
      [150, -240, -80],
      [100, -380, -20],
    ] as const)
      expect(seamsAt(x, y, z)).toEqual(seamsAt(-x, y, z))
  })
})

describe('across a seam', () => {
  test('cloth falls into a furrow, rises beside it and is flat again', () => {
    expect(seamProfile(0, 0.1)).toEqual({ slope: 0, dark: 0.2 })
    expect(seamProfile(0.5, 0.1).slope).toBeGreaterThan(0.2)
    expect(seamProfile(2.5, 0.1).slope).toBeLessThan(-0.03)
    expect(Math.abs(seamProfile(9, 0.1).slope)).toBeLessThan(1e-3)
  })

  /** What a pixel takes in is the mean over it: the dark of a line goes on to be as much (conservation of the integral). */
  test.each([0.05, 1, 3, 8])('at %f mm a pixel it takes as much light in all', (footprintMm) => {
    let sum = 0
    for (let mm = -40; mm < 40; mm += 0.01) sum += 0.01 * seamProfile(mm, footprintMm).dark
    expect(sum).toBeCloseTo(0.2 * 0.7 * Math.sqrt(Math.PI), 3)
  })
})
