import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { thresholdAt } from '../../src/render/coverage'
import { hash32 } from '../../src/space'
import { CASES, onGpu } from './shader-values'

/** The shader's thresholds against their TypeScript twin: 1e-5, and 1 is as good as 0. */
const THRESHOLD = readFileSync('src/render/shaders/coverage.glsl', 'utf8').match(/float thresholdAt[\s\S]*?\n\}/)![0]

test('thresholdAt = thresholdAt', async () => {
  const cases = Array.from({ length: CASES }, (_, i) => {
    const number = (k: number) => hash32(i * 4 + k, 9) / 2 ** 32
    return [Math.floor(4000 * number(0)), Math.floor(4000 * number(1)), Math.fround(2 * number(2))] as const
  })
  const gpu = await onGpu(THRESHOLD, 'thresholdAt(ivec2(in0.xy), in0.z)', cases)
  gpu.forEach((value, i) => {
    const off = Math.abs(value - thresholdAt(...cases[i]))
    expect(Math.min(off, 1 - off), String(cases[i])).toBeLessThan(1e-5)
  })
})
