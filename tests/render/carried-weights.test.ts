import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { carriedWeights } from '../../src/render/carried-weights'
import { assembleRig, type RigFigure } from '../../src/rig'
import { firstSitting } from '../../src/sitting'

type FigurePart = RigFigure['posed']['parts'][number]['part']

const UP = [0, 1, 0]
const DOWN = [0, -1, 0]
const ASLANT = [0, 0.5, Math.sqrt(3) / 2]

/** Four vertices, of which the last is carried by the other three in equal shares. */
const partOf = (normals: readonly (readonly number[])[]): FigurePart => ({
  name: 'skin',
  mesh: {
    positions: new Float32Array(12),
    normals: Float32Array.from(normals.flat()),
    indices: Uint32Array.from([0, 1, 2]),
  },
  tint: new Float32Array(12).fill(1),
  headWeight: new Float32Array(4),
  proxyIndices: Uint32Array.from([0, 1, 2]),
  proxyCorners: Uint32Array.from([0, 1, 2, 0, 1, 2, 0, 1, 2, 0, 1, 2]),
  proxyWeights: Float32Array.from([1, 0, 0, 0, 1, 0, 0, 0, 1, 1 / 3, 1 / 3, 1 / 3]),
})

const lastOf = (normals: readonly (readonly number[])[]) => [...carriedWeights(partOf(normals)).subarray(9)]

/** Light reaches a surface on the side that it faces; the expected shares are those cosines, added up to one. */
test('a ridge: what faces away carries nothing, the rest go by the cosine of the angle between them', () => {
  const close = (got: readonly number[], expected: readonly number[]) => {
    for (const [i, weight] of got.entries()) expect(weight).toBeCloseTo(expected[i]!, 5)
  }
  close(lastOf([UP, UP, UP, UP]), [1 / 3, 1 / 3, 1 / 3])
  close(lastOf([UP, DOWN, UP, UP]), [1 / 2, 0, 1 / 2])
  close(lastOf([UP, DOWN, ASLANT, UP]), [2 / 3, 0, 1 / 3])
  // No corner faces its way: better their light than none.
  close(lastOf([DOWN, DOWN, DOWN, UP]), [1 / 3, 1 / 3, 1 / 3])
})

test('on the sitter shares add up to one, and a vertex of the proxy keeps its own light', () => {
  const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
  for (const { part } of assembleRig(firstSitting(), { figure }).figures[0]!.posed.parts) {
    const weights = carriedWeights(part)
    const isOff = (vertex: number) =>
      Math.abs(weights[3 * vertex]! + weights[3 * vertex + 1]! + weights[3 * vertex + 2]! - 1) > 1e-5
    const isLent = (vertex: number) =>
      ![0, 1, 2].some((k) => part.proxyCorners[3 * vertex + k] === vertex && weights[3 * vertex + k]! > 0.999)
    expect([...Array(weights.length / 3).keys()].filter(isOff)).toEqual([])
    expect([...new Set(part.proxyIndices)].filter(isLent)).toEqual([])
  }
})
