import { readFileSync } from 'node:fs'
import { test } from 'vitest'
import { hairCover, hairGrain, massCover } from '../../src/figure/worn/grain'
import { hash32 } from '../../src/space'
import { CASES, expectClose, onGpu } from './shader-values'

/** grain.glsl against src/figure/worn/grain.ts on the same random inputs, 1e-4 of the value. */
const SNIPPET = readFileSync('src/render/shaders/grain.glsl', 'utf8')

const between = (low: number, high: number, i: number, of: number) =>
  Math.fround(low + ((high - low) * hash32(i, of)) / 2 ** 32)

/** Off zero, so that the tolerance is one of the whole range. */
test.each([
  ['across', 'slope.x'],
  ['along', 'slope.y'],
  ['tone', 'tone'],
  ['reach', 'reach'],
  ['blur', 'blur'],
] as const)('hairGrain: %s', async (what, member) => {
  const cases = Array.from({ length: CASES }, (_, i) => ({
    across: between(-260, 260, i, 1),
    along: between(-40, 400, i, 2),
    footprintMm: between(0.05, 4, i, 3),
  }))
  const gpu = await onGpu(
    SNIPPET,
    `2.0 + hairGrain(in0.xy, in0.z).${member}`,
    cases.map(({ across, along, footprintMm }) => [across, along, footprintMm]),
  )
  expectClose(
    gpu,
    cases.map(({ across, along, footprintMm }) => 2 + hairGrain(across, along, footprintMm)[what]),
    (i) => JSON.stringify(cases[i]),
  )
})

test.each([
  ['hairCover', hairCover],
  ['massCover', massCover],
] as const)('%s', async (name, cover) => {
  const cases = Array.from({ length: CASES }, (_, i) => ({
    growth: between(-2, 2, i, 4),
    reach: between(-1, 1, i, 5),
    blur: between(0, 0.5, i, 6),
  }))
  const gpu = await onGpu(
    SNIPPET,
    `2.0 + ${name}(in0.x, Grain(vec2(0.0), 1.0, in0.y, in0.z))`,
    cases.map(({ growth, reach, blur }) => [growth, reach, blur]),
  )
  expectClose(
    gpu,
    cases.map(({ growth, ...grain }) => 2 + cover(growth, grain)),
    (i) => JSON.stringify(cases[i]),
  )
})
