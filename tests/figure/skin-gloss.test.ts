import { describe, expect, test } from 'vitest'
import { skinGlossOffset } from '../../src/figure/skin-gloss'
import { partOf } from './sculpture'

const skin = partOf('skin')
const places = Array.from({ length: skin.mesh.positions.length / 3 }, (_, v) =>
  [0, 1, 2].map((k) => skin.mesh.positions[v * 3 + k] * 1000),
) as [number, number, number][]
const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length
const meanWhere = (where: (x: number, y: number, z: number) => boolean) =>
  mean(places.filter((at) => where(...at)).map((at) => skinGlossOffset(...at)))

describe('where skin shines', () => {
  test('the sitter’s skin has it at every vertex, to no side in the mean of the face: within 0.03 of a dial of 0.4', () => {
    expect(skin.gloss?.length).toBe(places.length)
    expect(Math.abs(meanWhere((_x, y, z) => z > -30 && y > -110 && y < 65))).toBeLessThan(0.03)
  })

  /** The T of forehead and nose is the oily part of a face: common knowledge, no source. */
  test('forehead and nose are smoother than the cheeks, and those than the neck', () => {
    const forehead = meanWhere((x, y, z) => Math.abs(x) < 25 && y > 32 && y < 60 && z > 0)
    const nose = meanWhere((x, y, z) => Math.abs(x) < 7 && y > -40 && y < 0 && z > 15)
    const cheek = meanWhere((x, y, z) => Math.abs(x) > 35 && y > -60 && y < -20 && z > -20)
    const neck = meanWhere((_x, y, z) => y < -140 && z > -80)
    expect(Math.max(forehead, nose)).toBeLessThan(cheek - 0.03)
    expect(cheek).toBeLessThan(neck - 0.03)
  })

  test('a mirrored set reads alike: the same on both sides', () => {
    for (const [x, y, z] of places.slice(0, 500)) expect(skinGlossOffset(-x, y, z)).toBe(skinGlossOffset(x, y, z))
  })
})
