import { readFileSync } from 'node:fs'
import { test } from 'vitest'
import { seamProfile } from '../../src/figure/worn/sewn'
import { hash32 } from '../../src/space'
import { CASES, expectClose, onGpu } from './shader-values'

/** seams.glsl against src/figure/worn/sewn.ts on the same random inputs, 1e-4 of the value. */
const SNIPPET = readFileSync('src/render/shaders/seams.glsl', 'utf8')
const between = (low: number, high: number, i: number, of: number) =>
  Math.fround(low + ((high - low) * hash32(i, of)) / 2 ** 32)

/** Off zero, so that the tolerance is one of the whole range. */
test.each(['slope', 'dark'] as const)('seamProfile: %s', async (what) => {
  const cases = Array.from({ length: CASES }, (_, i) => ({
    mm: between(-12, 12, i, 1),
    footprintMm: between(0.05, 6, i, 2),
  }))
  const gpu = await onGpu(
    SNIPPET,
    `2.0 + seamProfile(in0.x, in0.y).${what === 'slope' ? 'x' : 'y'}`,
    cases.map(({ mm, footprintMm }) => [mm, footprintMm]),
  )
  expectClose(
    gpu,
    cases.map(({ mm, footprintMm }) => 2 + seamProfile(mm, footprintMm)[what]),
    (i) => JSON.stringify(cases[i]),
  )
})
