import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { foldShare, lidPass, lidShade, whiteTint } from '../../src/figure/eye-white'
import { entryTo, irisBehind, irisSlopes, irisTone } from '../../src/figure/iris'
import { CORNEA_CENTRE_Z, CORNEA_RADIUS } from '../../src/figure/sculpt/data/eye'
import { EYE_MAP_REACH, eyeMapWay } from '../../src/rig'
import { add, hash32, normalize, scale, type Vec3 } from '../../src/space'
import { CASES, expectClose, onGpu } from './shader-values'

/** eye-optics.glsl against src/figure/iris.ts, eye-white.glsl against eye-white.ts, on the same random inputs, 1e-4 of the value. */
const SNIPPET = `#define PI 3.141592653589793
${readFileSync('src/render/shaders/eye-optics.glsl', 'utf8')}
${readFileSync('src/render/shaders/eye-white.glsl', 'utf8')}`

let counter = 0
const random = (low: number, high: number) => low + ((high - low) * hash32(counter++, 41)) / 2 ** 32
const float = (low: number, high: number) => Math.fround(random(low, high))
const single = (v: Vec3): Vec3 => v.map(Math.fround) as unknown as Vec3
/** Unit, within about 70° of the sight. */
const outwards = (): Vec3 => single(normalize([random(-1, 1), random(-1, 1), random(0.5, 1)]))
const onCornea = (n: Vec3): Vec3 => single(add([0, 0, CORNEA_CENTRE_Z], scale(n, CORNEA_RADIUS)))

test('irisBehind', async () => {
  const cases = Array.from({ length: CASES }, () => {
    const normal = single(normalize([random(-0.7, 0.7), random(-0.7, 0.7), 1]))
    return { normal, p: onCornea(normal), ray: single(scale(outwards(), -1)), axis: counter % 3 }
  })
  const gpu = await onGpu(
    SNIPPET,
    'irisBehind(in0.xyz, in1.xyz, in2.xyz)[int(in0.w)]',
    cases.map(({ p, normal, ray, axis }) => [...p, axis, ...normal, 0, ...ray]),
  )
  expectClose(
    gpu.map((value) => value + 20),
    cases.map(({ p, normal, ray, axis }) => irisBehind(p, normal, ray)[axis] + 20),
    (i) => JSON.stringify(cases[i]),
  )
})

test('entryTo', async () => {
  const cases = Array.from({ length: CASES }, () => ({
    q: single([random(-4, 4), random(-4, 4), 9.6]),
    towards: outwards(),
    irisNormal: single(normalize([random(-0.5, 0.5), random(-0.5, 0.5), 1])),
  }))
  const gpu = await onGpu(
    SNIPPET,
    'entryTo(in0.xyz, in1.xyz, in2.xyz).share + entryTo(in0.xyz, in1.xyz, in2.xyz).at.x + 20.0',
    cases.map(({ q, towards, irisNormal }) => [...q, 0, ...towards, 0, ...irisNormal]),
  )
  const twin = ({ q, towards, irisNormal }: (typeof cases)[number]) => {
    const { share, at } = entryTo(q, towards, irisNormal)
    return share + at[0] + 20
  }
  expectClose(gpu, cases.map(twin), (i) => JSON.stringify(cases[i]))
})

const irisPlaces = () =>
  Array.from({ length: CASES }, () => ({ x: float(-4.2, 4.2), y: float(-4.2, 4.2), footprintMm: float(0.01, 0.3) }))

test('irisTone', async () => {
  const cases = irisPlaces()
  const gpu = await onGpu(
    SNIPPET,
    '1.0 + irisTone(in0.xy, in0.z)',
    cases.map(({ x, y, footprintMm }) => [x, y, footprintMm]),
  )
  expectClose(
    gpu,
    cases.map(({ x, y, footprintMm }) => 1 + irisTone(x, y, footprintMm)),
    (i) => JSON.stringify(cases[i]),
  )
})

test.each([0, 1] as const)('irisSlopes: axis %d', async (axis) => {
  const cases = irisPlaces()
  const gpu = await onGpu(
    SNIPPET,
    `100.0 + irisSlopes(in0.xy, in0.z)[${axis}]`,
    cases.map(({ x, y, footprintMm }) => [x, y, footprintMm]),
  )
  expectClose(
    gpu,
    cases.map(({ x, y, footprintMm }) => 100 + irisSlopes(x, y, footprintMm)[axis]),
    (i) => JSON.stringify(cases[i]),
  )
})

/** On the ball, before its middle. */
const onBall = (): Vec3 => single(scale(normalize([random(-1, 1), random(-1, 1), random(0.05, 1)]), 12))

test.each([0, 1, 2] as const)('whiteTint: band %d', async (band) => {
  const cases = Array.from({ length: CASES }, () => ({
    p: onBall(),
    footprintMm: float(0.02, 0.3),
  }))
  const gpu = await onGpu(
    SNIPPET,
    `1.0 + whiteTint(in0.xyz, in0.w)[${band}]`,
    cases.map(({ p, footprintMm }) => [...p, footprintMm]),
  )
  expectClose(
    gpu,
    cases.map(({ p, footprintMm }) => 1 + whiteTint(p, footprintMm)[band]),
    (i) => JSON.stringify(cases[i]),
  )
})

test('foldShare', async () => {
  const cases = Array.from({ length: CASES }, onBall)
  const gpu = await onGpu(SNIPPET, '1.0 + foldShare(in0.xyz)', cases)
  expectClose(
    gpu,
    cases.map((p) => 1 + foldShare(p)),
    (i) => JSON.stringify(cases[i]),
  )
})

/** The margins' curves are tabulated in TypeScript: within 0.01 mm, and so some 0.2 % of the shade. */
test.each([0, 1, 2] as const)('lidShade: band %d', async (band) => {
  const cases = Array.from({ length: CASES }, () => ({
    p: onBall(),
    upper: float(-0.3, 0.3),
    lower: float(-0.2, 0.2),
    lid: [float(0, 0.4), float(0, 0.3), float(0, 0.2)] as const,
  }))
  const gpu = await onGpu(
    SNIPPET,
    `lidShade(in0.xyz, in0.w, in1.x, in1.yzw)[${band}]`,
    cases.map(({ p, upper, lower, lid }) => [...p, upper, lower, ...lid]),
  )
  const off = cases.map(({ p, upper, lower, lid }, i) => Math.abs(gpu[i] - lidShade(p, upper, lower, lid)[band]))
  expect(Math.max(...off)).toBeLessThan(0.01)
  expect(off.reduce((sum, value) => sum + value, 0) / CASES).toBeLessThan(5e-4)
})

test('lidPass', async () => {
  const cases = Array.from({ length: CASES }, () => ({
    p: onBall(),
    ray: outwards(),
    upper: float(-0.3, 0.3),
    lower: float(-0.2, 0.2),
  }))
  const gpu = await onGpu(
    SNIPPET,
    'lidPass(in0.xyz, in1.xyz, in0.w, in1.w)',
    cases.map(({ p, ray, upper, lower }) => [...p, upper, ...ray, lower]),
  )
  const off = cases.map(({ p, ray, upper, lower }, i) => Math.abs(gpu[i] - lidPass(p, ray, upper, lower)))
  expect(off.reduce((sum, value) => sum + value, 0) / CASES).toBeLessThan(1e-3)
})

test.each([0, 1] as const)('eyeMapAt: axis %d undoes eyeMapWay', async (axis) => {
  const frame = { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] } as const
  const cases = Array.from({ length: CASES }, () => [float(-1, 1), float(-1, 1)] as const)
  const gpu = await onGpu(
    `#define EYE_MAP_REACH ${EYE_MAP_REACH}
vec2 ${/eyeMapAt[^}]*}/.exec(readFileSync('src/render/shaders/eye-map.glsl', 'utf8'))![0]}`,
    `2.0 + eyeMapAt(in0.xyz)[${axis}]`,
    cases.map(([across, up]) => [...eyeMapWay(frame, across, up), 0]),
  )
  expectClose(
    gpu,
    cases.map((place) => 2 + place[axis]),
    (i) => JSON.stringify(cases[i]),
  )
})
