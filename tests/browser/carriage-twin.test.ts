import { readFileSync } from 'node:fs'
import { test } from 'vitest'
import { poseFigure, readFigureAsset } from '../../src/figure'
import { hash32, type Vec3 } from '../../src/space'
import { CASES, expectClose, onGpu } from './shader-values'

/** carriage.glsl against poseFigure on the same places and directions of the head. */
const SNIPPET = readFileSync('src/render/shaders/carriage.glsl', 'utf8')
const asset = readFigureAsset(readFileSync('assets/sitter.glb'))
const places = Object.entries(asset.landmarks).filter(([name]) => !name.startsWith('pupil'))

let counter = 0
const random = (low: number, high: number) => low + ((high - low) * hash32(counter++, 57)) / 2 ** 32

const POSES = 64
const posed = Array.from({ length: POSES }, () =>
  poseFigure(asset, {
    positionM: [random(-1, 1), 0, random(-1, 1)],
    eyeHeightM: random(0.9, 1.7),
    bodyTurnDeg: random(-60, 60),
    headTurnDeg: random(-90, 90),
    headTiltDeg: random(-20, 20),
    chinDeg: random(-20, 20),
    lean: { forwardM: random(-0.1, 0.1), asideM: random(-0.1, 0.1) },
  }),
)
const cases = Array.from({ length: CASES }, (_, i) => {
  const [name, rest] = places[i % places.length]
  const figure = posed[i % POSES]
  const end = figure.landmarks[name as keyof typeof figure.landmarks]
  return { name, rest, end, carriage: figure.carriage, axis: i % 3 }
})
const CARRIAGE = 'Carriage(in0.xyz, in1.xyz, in2.xyz, in3.xyz)'
const asked = (of: (one: (typeof cases)[number]) => Vec3, expression: string) =>
  onGpu(
    SNIPPET,
    expression,
    cases.map((one) => {
      const { pivot, at, head, body } = one.carriage
      return [...pivot, one.axis, ...at, one.rest.headWeight, ...head, 0, ...body, 0, ...of(one)]
    }),
  )
/** Added, so that 1e-4 of the value is half a millimetre, or half a thousandth: a shader's sines are good for 2⁻¹¹ only (GLSL ES, from memory). */
const OFF = 4

test('places', async () => {
  const gpu = await asked(({ rest }) => rest.position, `carryPoint(${CARRIAGE}, in1.w, in4.xyz)[int(in0.w)] + ${OFF}.0`)
  expectClose(
    gpu,
    cases.map(({ end, axis }) => end.position[axis] + OFF),
    (i) => cases[i].name,
  )
})

test('directions', async () => {
  const gpu = await asked(
    ({ rest }) => rest.normal,
    `carryDirection(${CARRIAGE}, in1.w, in4.xyz)[int(in0.w)] + ${OFF}.0`,
  )
  expectClose(
    gpu,
    cases.map(({ end, axis }) => end.normal[axis] + OFF),
    (i) => cases[i].name,
  )
})
