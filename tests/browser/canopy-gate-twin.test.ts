import { readFileSync } from 'node:fs'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, test } from 'vitest'
import type { LocalCap } from '../../src/photometry'
import { gatePass } from '../../src/photometry/profiles/gates'
import { addScaled, hash32, normalize, type Vec3 } from '../../src/space'
import { CASES, expectClose, onGpu, openGpu } from './shader-values'

/** The way past a canopy as the picture asks it (by the rim's circle) against gatePass (by the sphere), same random lamps and ways. */
const part = (file: string, pattern: RegExp) => readFileSync(`src/render/shaders/${file}`, 'utf8').match(pattern)![0]
const SNIPPET = `${part('visibility.glsl', /float covered\([\s\S]*?\n\}/)}
${part('arrival.glsl', /float canopyPass\([\s\S]*?\n\}/)}`

let browser: Browser
beforeAll(async () => {
  browser = await openGpu()
})
afterAll(() => browser.close())

let counter = 0
const random = (low: number, high: number) => Math.fround(low + ((high - low) * hash32(counter++, 63)) / 2 ** 32)
/** As far as gatePass follows a ray, m. */
const FAR_M = 10

/** Canopies from flat to deep with the lamp on the shaft, in front of the rim or within, and ways to all sides. */
const cases = Array.from({ length: CASES }, () => {
  const diameterM = random(0.6, 2)
  const depthM = Math.fround(diameterM * random(0.12, 0.45))
  const cap: LocalCap = { rimCentre: [0, 0, random(-0.5, 0.5)], axis: [0, 0, 1], diameterM, depthM }
  const before = random(0, 1) < 0.7
  const z = Math.fround(cap.rimCentre[2] + (before ? -random(0.02, 0.6) : random(0.02, 0.4) * depthM))
  const point: Vec3 = [random(-0.09, 0.09), random(-0.09, 0.09), z]
  const direction = normalize([random(-1, 1), random(-1, 1), random(-0.6, 1)]).map(Math.fround) as unknown as Vec3
  return { cap, point, direction, to: addScaled(point, direction, FAR_M).map(Math.fround) }
})

test('canopyPass', async () => {
  const gpu = await onGpu(
    browser,
    SNIPPET,
    'canopyPass(in0.xyz, in1.xyz, 0.0, in2, in3.xyz)',
    cases.map(({ cap, point, to }) => [...to, 0, ...point, 0, ...cap.rimCentre, cap.diameterM / 2, ...cap.axis]),
  )
  expectClose(
    gpu,
    cases.map(({ cap, point, direction }) => gatePass({ kind: 'past-cap', cap }, point, direction)),
    (i) => JSON.stringify(cases[i]),
  )
})
