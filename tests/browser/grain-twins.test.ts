import { readFileSync } from 'node:fs'
import { test } from 'vitest'
import { hairGrain } from '../../src/figure/worn/grain'
import { hash32 } from '../../src/space'
import { CASES, expectClose, onGpu } from './shader-values'

/** grain.glsl against src/figure/worn/grain.ts on the same random inputs, 1e-4 of the value. */
const SNIPPET = readFileSync('src/render/shaders/grain.glsl', 'utf8')

const between = (low: number, high: number, i: number, of: number) =>
  Math.fround(low + ((high - low) * hash32(i, of)) / 2 ** 32)

/** Off zero, so that the tolerance is one of the whole range. */
test.each(['across', 'along', 'tone'] as const)('hairGrain: %s', async (what) => {
  const cases = Array.from({ length: CASES }, (_, i) => ({
    across: between(-260, 260, i, 1),
    along: between(-40, 400, i, 2),
    footprintMm: between(0.05, 4, i, 3),
  }))
  const gpu = await onGpu(
    SNIPPET,
    `2.0 + hairGrain(in0.xy, in0.z).${{ across: 'x', along: 'y', tone: 'z' }[what]}`,
    cases.map(({ across, along, footprintMm }) => [across, along, footprintMm]),
  )
  expectClose(
    gpu,
    cases.map(({ across, along, footprintMm }) => 2 + hairGrain(across, along, footprintMm)[what]),
    (i) => JSON.stringify(cases[i]),
  )
})
