import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { buildModifier, defaultModifier, MODIFIER_KINDS, type Modifier, validateModifier } from '../../src/gear'
import { type Emission, gatePass, luminanceOf, packCircle, packGate, packLobes } from '../../src/photometry'
import { add, hash32, normalize, scale, sobol, type Vec3 } from '../../src/space'
import { CASES, onGpu } from './shader-values'

/**
 * Each profile of radiance as the shader has it against its TypeScript, at random points of every kind of modifier in all its
 * words, in random directions: luminance past the gate, to 1e-4 of what it is before the gate (issue 4). Tables of intensities are
 * read from a texture: that gate is compared in glsl-twins.test.ts, here only its face.
 */
const EMISSION = readFileSync('src/render/shaders/emission.glsl', 'utf8')

const random = (() => {
  let counter = 0
  return () => hash32(counter++, 91) / 2 ** 32
})()
const unit = (): Vec3 => normalize([random() - 0.5, random() - 0.5, random() - 0.5])
/** Inputs must be the same numbers on both sides. */
const single = (v: Vec3): Vec3 => v.map(Math.fround) as unknown as Vec3

/** Every kind as it comes, and with each word of each of its choices that goes with the rest. */
const modifiers: readonly Modifier[] = MODIFIER_KINDS.flatMap(({ id, fields }) => {
  const plain = defaultModifier(id)
  const words = fields.flatMap((field) =>
    field.type === 'choice' ? field.choices.map((word) => [field.id, word]) : [],
  )
  const others = words.map(([field, word]): Modifier => ({ ...plain, [field!]: word! }))
  return [plain, ...others.filter((one) => validateModifier(one, 'modifier').length === 0)]
})
const emissions = modifiers.flatMap((modifier) =>
  buildModifier(modifier).emitters.map(({ emission, part }) => ({
    name: `${JSON.stringify(modifier)} ${part}`,
    emission,
  })),
)

interface Case {
  readonly name: string
  readonly input: readonly number[]
  readonly ungated: number
  readonly passed: number
}

const PROFILES: readonly Emission['profile'][] = ['uniform', 'cosine-disc', 'canopy', 'lobe-table', 'intensity-table']

test.each(PROFILES)('%s', async (profile) => {
  const asked = emissions.filter(({ emission }) => emission.profile === profile)
  expect(asked.length).toBeGreaterThan(0)
  const cases: Case[] = []
  for (let draw = 0; cases.length < CASES && draw < 4 * CASES; draw++) {
    const made = caseOf(asked[draw % asked.length]!, Math.floor(draw / asked.length))
    if (made) cases.push(made)
  }
  expect(cases.length, 'an edge of a gate is a rare thing to meet').toBe(CASES)
  expect(cases.filter(({ passed }) => passed > 0).length).toBeGreaterThan(CASES / 4)
  const gpu = await onGpu(
    EMISSION,
    `lobeLuminance(dot(in0.xyz, in4.xyz), dot(in1.xyz, in4.xyz), in1.w, in2, in3)
      * circlePass(vec4(in5.xyz, in4.w), vec4(in6.xyz, in5.w), in4.xyz, 1e3, 0.0)
      * gatePass(int(in0.w + 0.5), vec4(in6.w, in7.xyz), vec4(0.0), in6.xyz, in4.xyz)`,
    cases.map(({ input }) => input),
  )
  const off = cases.map(({ passed, ungated }, i) => (ungated > 0 ? Math.abs(gpu[i]! - passed) / ungated : gpu[i]!))
  const worst = off.indexOf(Math.max(...off))
  console.log(`${profile}: ${asked.length} emitters, worst ${off[worst]!.toExponential(1)}`)
  expect(off[worst], `${cases[worst]!.name}: shader ${gpu[worst]}, TypeScript ${cases[worst]!.passed}`).toBeLessThan(
    1e-4,
  )
})

/** A point that the picture would draw and a direction from it; null: unlit, or so near an edge of a gate that single precision may tell it otherwise. */
function caseOf({ name, emission }: { readonly name: string; readonly emission: Emission }, i: number): Case | null {
  const drawn = emission.spread([sobol(i, 0), sobol(i, 1), sobol(i, 2), sobol(i, 3)])
  if (!drawn) return null
  const [point, normal, incident] = [drawn.point, drawn.normal, drawn.incident].map(single) as [Vec3, Vec3, Vec3]
  const lit = { ...drawn, point, normal, incident }
  const direction = single(normalize(add(normal, scale(unit(), 1.05))))
  const gate: Emission['gate'] = emission.gate.kind === 'intensities' ? { kind: 'open' } : emission.gate
  const pass = gatePass(gate, point, direction)
  const beside = Array.from({ length: 8 }, () => gatePass(gate, point, normalize(add(direction, scale(unit(), 3e-6)))))
  if (beside.some((other) => Math.abs(other - pass) > 0.01)) return null
  const { cosI, lobes, beams } = packLobes(lit)
  const circle = packCircle(gate, point)
  const { kind, a } = packGate(gate)
  const place = circle.radiusM === -1 && circle.heightM === 0 ? point : circle.from
  const ungated = luminanceOf(lit, direction)
  return {
    ...{ name, ungated, passed: ungated * pass },
    input: [
      ...[...normal, kind, ...incident, cosI, ...lobes, ...beams],
      ...[...direction, circle.heightM, ...circle.normal, circle.radiusM, ...place, ...a.slice(0, 4), 0],
    ],
  }
}
