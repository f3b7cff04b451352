import { readFileSync } from 'node:fs'
import { test } from 'vitest'
import { skinClouds, skinRelief } from '../../src/figure/skin-relief'
import { yarnTone } from '../../src/figure/worn/yarn'
import { hash32 } from '../../src/space'
import { CASES, expectClose, onGpu } from './shader-values'

/** skin-relief.glsl and yarn.glsl against src/figure/skin-relief.ts and worn/yarn.ts on the same random inputs, 1e-4 of the value. */
const SNIPPET = readFileSync('src/render/shaders/skin-relief.glsl', 'utf8')

/** What a shader is handed: a float. */
const between = (low: number, high: number, i: number, of: number) =>
  Math.fround(low + ((high - low) * hash32(i, of)) / 2 ** 32)

const YARN = SNIPPET + readFileSync('src/render/shaders/yarn.glsl', 'utf8')

/** Off zero, so that the tolerance is one of the whole range. */
test.each([0, 1, 2] as const)('skinRelief: axis %d', async (axis) => {
  const cases = Array.from({ length: CASES }, (_, i) => ({
    place: [between(-90, 90, i, 1), between(-220, 120, i, 2), between(-170, 45, i, 3)] as const,
    footprintMm: between(0.05, 2.6, i, 4),
  }))
  const gpu = await onGpu(
    SNIPPET,
    `2.0 + skinRelief(in0.xyz, in0.w).${'xyz'[axis]}`,
    cases.map(({ place, footprintMm }) => [...place, footprintMm]),
  )
  expectClose(
    gpu,
    cases.map(({ place, footprintMm }) => 2 + skinRelief(place, footprintMm)[axis]),
    (i) => JSON.stringify(cases[i]),
  )
})

test.each([0, 1, 2] as const)('skinClouds: band %d', async (band) => {
  const cases = Array.from({ length: CASES }, (_, i) => ({
    place: [between(-90, 90, i, 1), between(-220, 120, i, 2), between(-170, 45, i, 3)] as const,
    footprintMm: between(0.05, 6, i, 4),
  }))
  const gpu = await onGpu(
    SNIPPET,
    `skinClouds(in0.xyz, in0.w)[${band}]`,
    cases.map(({ place, footprintMm }) => [...place, footprintMm]),
  )
  expectClose(
    gpu,
    cases.map(({ place, footprintMm }) => skinClouds(place, footprintMm)[band]),
    (i) => JSON.stringify(cases[i]),
  )
})

test('yarnTone', async () => {
  const cases = Array.from({ length: CASES }, (_, i) => ({
    place: [between(-260, 260, i, 1), between(-560, -120, i, 2), between(-240, 60, i, 3)] as const,
    footprintMm: between(0.05, 4, i, 4),
  }))
  const gpu = await onGpu(
    YARN,
    'yarnTone(in0.xyz, in0.w)',
    cases.map(({ place, footprintMm }) => [...place, footprintMm]),
  )
  expectClose(
    gpu,
    cases.map(({ place, footprintMm }) => yarnTone(place, footprintMm)),
    (i) => JSON.stringify(cases[i]),
  )
})
