import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { meetLens, type SpectacleLens } from '../../src/figure'
import {
  DARK,
  fresnelSchlick,
  type Gate,
  gatePass,
  ggx,
  hairGlossTint,
  hairLobe,
  hairOpen,
  intensityPass,
  type LocalCap,
  lensReflectance,
  luminanceOf,
  packCircle,
  packGate,
  packIntensities,
  packLobes,
  STRAND_SPREAD,
  segmentHitsCap,
  segmentHitsCylinder,
  strandCosine,
} from '../../src/photometry'
import { add, cross, directionToWorld, dot, frameTowards, hash32, normalize, scale, type Vec3 } from '../../src/space'
import { CASES, expectClose, onGpu as onAnyGpu } from './shader-values'

/**
 * emission.glsl and lens.glsl against their TypeScript twins on the same random inputs. Floats: 1e-4 of the value. Yes or no: an answer that
 * TypeScript itself changes when the solid grows or shrinks by 1e-4 is left out, and such cases must be few.
 */
const SEEN = readFileSync('src/render/shaders/seen.glsl', 'utf8')
/** The structs and the one function of them that takes no texture. */
const GLOSS = [
  /struct Seen \{[^}]*\};/,
  /vec3 glossOf\([\s\S]*?\n\}/,
  /float hairOpen\([\s\S]*?\n\}/,
  /vec3 hairGlossTint\([\s\S]*?\n\}/,
]
  .map((part) => SEEN.match(part)![0])
  .join('\n')
const SNIPPET = `${readFileSync('src/render/shaders/emission.glsl', 'utf8')}
${readFileSync('src/render/shaders/lens.glsl', 'utf8')}
${readFileSync('src/render/shaders/film.glsl', 'utf8')}
${GLOSS}
Seen shiny(vec3 normal, vec3 toEye, float coat, float roughness, float f0) {
  Seen seen;
  seen.normal = normal;
  seen.toEye = toEye;
  seen.coat = vec4(vec3(coat), roughness);
  seen.f0 = f0;
  seen.isHair = false;
  seen.open = vec3(1.0);
  return seen;
}
Seen hairy(vec3 normal, vec3 strand, vec3 toEye, float roughness, float f0, float open) {
  Seen seen = shiny(normal, toEye, 0.0, roughness, f0);
  seen.isHair = true;
  seen.strand = strand;
  seen.open = vec3(open);
  return seen;
}`

let counter = 0
const random = (low = 0, high = 1) => low + ((high - low) * hash32(counter++, 77)) / 2 ** 32
const vector = (size: number): Vec3 => [random(-size, size), random(-size, size), random(-size, size)]
const unit = (): Vec3 => normalize(vector(1))
/** Inputs must be the same numbers on both sides. */
const single = (v: Vec3): Vec3 => v.map(Math.fround) as unknown as Vec3
const float = (low: number, high: number) => Math.fround(random(low, high))

const onGpu = (expression: string, inputs: readonly (readonly number[])[]) => onAnyGpu(SNIPPET, expression, inputs)

test('lobeLuminance = luminanceOf', async () => {
  const cases = Array.from({ length: CASES }, () => {
    const normal = single(unit())
    const incident = single(normalize(add(normal, scale(unit(), 0.9))))
    const direction = single(normalize(add(normal, scale(unit(), 1.05))))
    const lit = {
      ...DARK,
      point: [0, 0, 0] as Vec3,
      normal,
      incident: counter % 3 === 0 ? single(scale(incident, -1)) : incident,
      areaM2: 1,
      diffuse: float(0, 1),
      specular: float(0, 5),
      alpha: float(0.02, 0.5),
      forward: float(0, 2),
      forwardExponent: float(2, 20),
      beam: float(0, 3),
      beamExponent: float(1, 8),
    }
    return { lit, direction }
  })
  const gpu = await onGpu(
    'lobeLuminance(dot(in0.xyz, in4.xyz), dot(in1.xyz, in4.xyz), in1.w, in2, in3)',
    cases.map(({ lit, direction }) => {
      const { cosI, lobes, beams } = packLobes(lit)
      return [...[...lit.normal, 0], ...[...lit.incident, cosI], ...lobes, ...beams, ...direction]
    }),
  )
  expectClose(
    gpu,
    cases.map(({ lit, direction }) => luminanceOf(lit, direction)),
    (i) => JSON.stringify(cases[i]),
  )
})

const GATES: readonly (() => Gate)[] = [
  () => ({ kind: 'open' }),
  () => ({ kind: 'honeycomb', depthOverWidth: float(0.5, 4), wallLoss: 0.75 }),
  () => ({ kind: 'cells', depthOverWidth: float(0.5, 3) }),
  () => ({ kind: 'overcast' }),
  () => ({ kind: 'window', zM: float(0, 0.3), widthM: float(0.2, 1), heightM: float(0.2, 1) }),
  () => ({ kind: 'past-window', zM: float(0, 0.3), widthM: float(0.2, 1), heightM: float(0.2, 1) }),
  () => ({ kind: 'lamp-behind', zM: float(-0.6, -0.31), radiusM: float(0.1, 0.6) }),
]
/** Gates that close smoothly, and those that say yes or no. */
const SMOOTH: readonly Gate['kind'][] = ['open', 'honeycomb', 'cells', 'overcast']

test.each(GATES.map((make) => [make().kind, make] as const))('gatePass, %s', async (kind, make) => {
  const cases = Array.from({ length: CASES }, () => ({
    gate: make(),
    point: single(vector(0.3)),
    direction: single(normalize(add(unit(), [0, 0, 0.8]))),
  }))
  const gpu = await onGpu(
    'gatePass(int(in0.w), in2, in3, in0.xyz, in1.xyz)',
    cases.map(({ gate, point, direction }) => {
      const packed = packGate(gate)
      return [...point, packed.kind, ...direction, 0, ...packed.a, ...packed.b]
    }),
  )
  const answers = cases.map(({ gate, point, direction }) => gatePass(gate, point, direction))
  // Cells and combs close smoothly, so near their closing only the absolute difference counts.
  if (SMOOTH.includes(kind)) {
    for (const [i, value] of answers.entries()) expect(Math.abs(gpu[i] - value)).toBeLessThan(1e-4)
    return
  }
  expectSame(gpu, answers, (i, k) => gatePass(grown(cases[i].gate, k), cases[i].point, cases[i].direction))
})

/** Eight angles and 64 planes, whose values stand in the red of the first rows of the inputs; all else is beside them. */
test('intensityPass', async () => {
  const [angles, planes] = [8, 64]
  const red = Array.from({ length: CASES }, () => Array.from({ length: angles }, () => float(0, 1)))
  // Planes of 0° and 360° are alike.
  red[planes - 1] = red[0]!
  const cases = Array.from({ length: CASES }, (_, i) => {
    const [first, last] = i % 2 === 0 ? [0, Math.PI] : [float(0, 0.5), float(1.2, 2.5)]
    const values = Float32Array.from(red.slice(0, planes).flat())
    const side = i % 3 === 0 ? ('back' as const) : ('front' as const)
    return { grid: { planes, angles, first, last, values, peak: 1 }, side, direction: single(unit()) }
  })
  const gpu = await onGpu(
    'intensityPass(data, in0.yzwz * vec4(1.0, 1.0, 1.0, 0.0) + vec4(0.0, 0.0, 0.0, in1.y), vec4(in1.z), in2.yzw)',
    cases.map(({ grid, side, direction }, i) => {
      const { a, b } = packIntensities(grid, side)
      const beside = [a.slice(0, 3), [a[3], b[0], 0], direction, ...Array(angles - 3).fill([0, 0, 0])]
      return beside.flatMap((three, k) => [red[i]![k]!, ...three])
    }),
  )
  const answers = cases.map(({ grid, side, direction }) => intensityPass(grid, side, direction))
  // A table ends where it ends: there an answer jumps.
  const isAtEnd = ({ grid: { first, last }, side, direction: [x, y, z] }: (typeof cases)[number]) => {
    const angle = Math.atan2(Math.hypot(x, y), side === 'front' ? z : -z)
    return Math.min(Math.abs(angle - first), Math.abs(angle - last)) < 1e-5
  }
  const sure = cases.flatMap((one, i) => (isAtEnd(one) ? [] : [i]))
  expect(sure.length).toBeGreaterThan(0.99 * CASES)
  expect(answers.filter((value) => value > 0).length).toBeGreaterThan(CASES / 2)
  for (const i of sure) expect(Math.abs(gpu[i]! - answers[i]!), JSON.stringify(cases[i]!.direction)).toBeLessThan(1e-4)
})

/** In world coordinates, as packCircle has the point. */
const CIRCLES: readonly (() => { readonly gate: Gate; readonly point: Vec3 })[] = [
  () => ({ gate: { kind: 'opening', zM: float(0, 0.3), radiusM: float(0.1, 0.6) }, point: single(vector(0.3)) }),
  () => {
    const diameterM = float(0.4, 2)
    const depthM = diameterM * float(0.12, 0.45)
    const rimZ = float(-0.5, 0.5)
    // On the shaft, before the rim or within.
    const lampZ = random(0, 1) < 0.7 ? rimZ - float(0.02, 0.6) : rimZ + depthM * float(0.02, 0.4)
    const cap: LocalCap = { rimCentre: [0, 0, rimZ], axis: [0, 0, 1], diameterM, depthM }
    return { gate: { kind: 'past-cap', cap }, point: single([random(-0.09, 0.09), random(-0.09, 0.09), lampZ]) }
  },
]

test.each(CIRCLES.map((make) => [make().gate.kind, make] as const))('circlePass, %s', async (_, make) => {
  const cases = Array.from({ length: CASES }, () => ({
    ...make(),
    direction: single(normalize(add(unit(), [0, 0, 0.8]))),
    frame: frameTowards(vector(2), vector(2), random(0, 6)),
  }))
  const gpu = await onGpu(
    'circlePass(in0, in1, in2.xyz, 1e3, 0.0)',
    cases.map(({ gate, point, direction, frame }) => {
      const { normal, heightM, from, radiusM } = packCircle(gate, point)
      const world = [normal, from, direction].map((v) => directionToWorld(frame, v))
      return [...world[0], heightM, ...world[1], radiusM, ...world[2]]
    }),
  )
  const answers = cases.map(({ gate, point, direction }) => gatePass(gate, point, direction))
  expectSame(gpu, answers, (i, k) => gatePass(grown(cases[i].gate, k), cases[i].point, cases[i].direction))
})

/** The one gate that closes both ways: circle and cells. */
test('circlePass and gatePass, combed-opening', async () => {
  const cases = Array.from({ length: CASES }, () => ({
    gate: {
      kind: 'combed-opening',
      zM: float(0, 0.3),
      radiusM: float(0.1, 0.6),
      depthOverWidth: float(0.5, 4),
      wallLoss: 0.75,
    } as const,
    point: single(vector(0.3)),
    direction: single(normalize(add(unit(), [0, 0, 0.8]))),
  }))
  const gpu = await onGpu(
    'circlePass(in0, in1, in2.xyz, 1e3, 0.0) * gatePass(1, vec4(in2.w, 0.75, 0.0, 0.0), vec4(0.0), in1.xyz, in2.xyz)',
    cases.map(({ gate, point, direction }) => {
      const { normal, heightM, from, radiusM } = packCircle(gate, point)
      const { kind, a } = packGate(gate)
      expect([kind, a[1]]).toEqual([1, 0.75])
      return [...normal, heightM, ...from, radiusM, ...direction, a[0]]
    }),
  )
  const pass = (i: number, k: number) =>
    gatePass({ ...cases[i].gate, radiusM: cases[i].gate.radiusM * k }, cases[i].point, cases[i].direction)
  const off = cases.flatMap((_, i) => (Math.abs(gpu[i] - pass(i, 1)) > 1e-4 ? [i] : []))
  expect(cases.filter((_, i) => pass(i, 1) > 0.01).length).toBeGreaterThan(CASES / 50)
  expect(off.filter((i) => pass(i, 1.001) > 0 === pass(i, 0.999) > 0)).toEqual([])
})

function grown(gate: Gate, k: number): Gate {
  if (gate.kind === 'opening' || gate.kind === 'lamp-behind') return { ...gate, radiusM: gate.radiusM * k }
  if (gate.kind === 'window' || gate.kind === 'past-window')
    return { ...gate, widthM: gate.widthM * k, heightM: gate.heightM * k }
  if (gate.kind === 'past-cap')
    return { ...gate, cap: { ...gate.cap, diameterM: gate.cap.diameterM * k, depthM: gate.cap.depthM * k } }
  return gate
}

/** Yes or no: again(i, k) is the answer with the solid k times as large. */
function expectSame(gpu: readonly number[], cpu: readonly number[], again: (i: number, k: number) => number) {
  const share = cpu.filter((value) => value > 0.5).length / CASES
  expect(share, 'both answers must occur').toBeGreaterThan(0.02)
  expect(share).toBeLessThan(0.98)
  const wrong = cpu.flatMap((value, i) => (Math.abs(gpu[i] - value) > 1e-6 ? [i] : []))
  const clear = wrong.filter((i) => again(i, 1.001) === cpu[i] && again(i, 0.999) === cpu[i])
  expect(clear.map((i) => `case ${i}: shader ${gpu[i]}, TypeScript ${cpu[i]}`)).toEqual([])
  expect(wrong.length).toBeLessThan(CASES / 500)
}

const bit = (yes: boolean) => (yes ? 1 : 0)

/** Gloss of a metal is F0·ggx at every angle, as meter and bounce have it; that of skin goes by Schlick's fit. */
test.each(['metal', 'skin'] as const)('glossOf, %s', async (kind) => {
  const cases = Array.from({ length: CASES }, () => {
    const normal = single(unit())
    const aside = () => single(normalize(add(normal, scale(unit(), 0.95))))
    return { normal, towards: aside(), toEye: aside(), roughness: float(0.3, 0.7), f0: float(0.02, 0.95) }
  })
  const sign = kind === 'metal' ? -1 : 1
  const gpu = await onGpu(
    'glossOf(shiny(in0.xyz, in1.xyz, in2.w, in0.w, in1.w), in2.xyz, 0.0).x',
    cases.map(({ normal, towards, toEye, roughness, f0 }) => [
      ...[...normal, sign * roughness],
      ...[...toEye, kind === 'skin' ? f0 : 0],
      ...[...towards, kind === 'metal' ? f0 : 0.5],
    ]),
  )
  const twin = ({ normal, towards, toEye, roughness, f0 }: (typeof cases)[number]) => {
    const half = Math.acos(Math.min(1, dot(normalize(add(towards, toEye)), towards)))
    return ggx(normal, towards, toEye, roughness ** 2) * (kind === 'metal' ? f0 : fresnelSchlick(f0, half))
  }
  expectClose(gpu, cases.map(twin), (i) => JSON.stringify(cases[i]))
})

test('glossOf, hair', async () => {
  const cases = Array.from({ length: CASES }, () => {
    const normal = single(unit())
    const strand = single(normalize(cross(normal, unit())))
    const aside = () => single(normalize(add(normal, scale(unit(), 0.95))))
    const [roughness, f0, open] = [float(0.3, 0.7), float(0.02, 0.1), float(0.2, 1.8)]
    return { normal, strand, towards: aside(), toEye: aside(), roughness, f0, open }
  })
  const gpu = await onGpu(
    'glossOf(hairy(in0.xyz, in1.xyz, in2.xyz, in0.w, in1.w, in3.w), in3.xyz, 0.0).x',
    cases.map(({ normal, strand, towards, toEye, roughness, f0, open }) => [
      ...[...normal, roughness],
      ...[...strand, f0],
      ...[...toEye, 0],
      ...[...towards, open],
    ]),
  )
  const twin = ({ normal, strand, towards, toEye, roughness, f0, open }: (typeof cases)[number]) => {
    const half = Math.acos(Math.min(1, dot(normalize(add(towards, toEye)), towards)))
    return open * hairLobe(normal, strand, towards, toEye, roughness ** 2) * fresnelSchlick(f0, half)
  }
  expectClose(gpu, cases.map(twin), (i) => JSON.stringify(cases[i]))
})

test.each(['of strands', 'of a surface'])('litCosine %s', async (what) => {
  const isHair = what === 'of strands'
  const cases = Array.from({ length: CASES }, () => ({ cosine: float(-1, 1), spread: isHair ? STRAND_SPREAD : 0 }))
  const gpu = await onGpu(
    'litCosine(in0.x, in0.y)',
    cases.map(({ cosine, spread }) => [cosine, spread]),
  )
  expectClose(
    gpu,
    cases.map(({ cosine }) => (isHair ? strandCosine(cosine) : Math.max(0, cosine))),
    (i) => JSON.stringify(cases[i]),
  )
})

test('hairOpen', async () => {
  const cases = Array.from({ length: CASES }, () => ({ painted: float(0.001, 0.4), reflectance: float(0.02, 0.4) }))
  const gpu = await onGpu(
    'hairOpen(in0.x, in0.y)',
    cases.map(({ painted, reflectance }) => [painted, reflectance]),
  )
  expectClose(
    gpu,
    cases.map(({ painted, reflectance }) => hairOpen(painted, reflectance)),
    (i) => JSON.stringify(cases[i]),
  )
})

test.each([0, 1, 2] as const)('hairGlossTint: band %d', async (band) => {
  const cases = Array.from({ length: CASES }, () => single([float(0.02, 0.4), float(0.02, 0.4), float(0.02, 0.4)]))
  const gpu = await onGpu(
    `hairGlossTint(in0.xyz)[${band}]`,
    cases.map((reflectance) => [...reflectance]),
  )
  expectClose(
    gpu,
    cases.map((reflectance) => hairGlossTint(reflectance)[band]),
    (i) => JSON.stringify(cases[i]),
  )
})

test('segmentHitsCylinder', async () => {
  const cases = Array.from({ length: CASES }, () => ({
    ...{ a: single(vector(1)), b: single(vector(1)), from: single(vector(0.5)), to: single(vector(0.5)) },
    radiusM: float(0.05, 0.4),
  }))
  const gpu = await onGpu(
    'segmentHitsCylinder(in0.xyz, in1.xyz, in2.xyz, in3.xyz, in0.w) ? 1.0 : 0.0',
    cases.map((c) => [...c.a, c.radiusM, ...c.b, 0, ...c.from, 0, ...c.to]),
  )
  const answer = (i: number, k: number) => {
    const c = cases[i]
    const middle = scale(add(c.from, c.to), 0.5)
    const end = (p: Vec3): Vec3 => add(scale(p, k), scale(middle, 1 - k))
    return bit(segmentHitsCylinder(c.a, c.b, { from: end(c.from), to: end(c.to), radiusM: c.radiusM * k }))
  }
  expectSame(
    gpu,
    cases.map((_, i) => answer(i, 1)),
    answer,
  )
})

test('segmentHitsCap', async () => {
  const cases = Array.from({ length: CASES }, () => ({
    ...{ a: single(vector(1)), b: single(vector(1)), rimCentre: single(vector(0.3)), axis: single(unit()) },
    ...{ diameterM: float(0.4, 1.4), depthM: float(0.03, 0.19) },
  }))
  const gpu = await onGpu(
    'segmentHitsCap(in0.xyz, in1.xyz, in2.xyz, in3.xyz, in0.w, in1.w) ? 1.0 : 0.0',
    cases.map((c) => [...c.a, c.diameterM, ...c.b, c.depthM, ...c.rimCentre, 0, ...c.axis]),
  )
  const answer = (i: number, k: number) => {
    const { a, b, ...cap } = cases[i]
    return bit(segmentHitsCap(a, b, { ...cap, diameterM: cap.diameterM * k, depthM: cap.depthM * k }))
  }
  expectSame(
    gpu,
    cases.map((_, i) => answer(i, 1)),
    answer,
  )
})

/** Near its edge a lens may be met on one side and missed on the other: such cases are left out, as in expectSame. */
test('meetLens: share of the way, and the normal', async () => {
  const cases = Array.from({ length: CASES }, () => {
    const frame = frameTowards(single(vector(0.3)), single(vector(2)), random(0, 6))
    const [x, y, z] = [frame.x, frame.y, frame.z].map(single)
    const origin = single(frame.origin)
    const lens: SpectacleLens = {
      frame: { origin, x, y, z },
      curvature: counter % 4 === 0 ? 0 : float(0.1, 17),
      halfWidthM: float(0.02, 0.028),
      halfHeightM: float(0.016, 0.024),
    }
    // From about a metre off on either side through a place of the plane near the lens.
    const place = add(origin, add(scale(x, random(-0.03, 0.03)), scale(y, random(-0.025, 0.025))))
    const way = normalize(add(scale(z, counter % 3 === 0 ? -1 : 1), scale(unit(), 0.7)))
    return { lens, from: single(add(place, scale(way, random(0.5, 1.5)))), to: single(add(place, scale(way, -0.2))) }
  })
  const inputs = cases.map(({ lens: { frame, ...lens }, from, to }) => [
    ...[...frame.origin, lens.curvature, ...frame.x, lens.halfWidthM, ...frame.y, lens.halfHeightM, ...frame.z, 0],
    ...[...from, 0, ...to, 0],
  ])
  const lens = 'Lens(in0.xyz, transpose(mat3(in1.xyz, in2.xyz, in3.xyz)), in0.w, vec2(in1.w, in2.w))'
  const shares = await onGpu(`meetLens(${lens}, in4.xyz, in5.xyz).share`, inputs)
  const along = await onGpu(`dot(meetLens(${lens}, in4.xyz, in5.xyz).normal, vec3(0.3, 0.5, 0.8))`, inputs)
  const met = (i: number, k = 1) => {
    const { lens, from, to } = cases[i]
    return meetLens({ ...lens, halfWidthM: lens.halfWidthM * k, halfHeightM: lens.halfHeightM * k }, from, to)
  }
  expectSame(
    shares.map((share) => bit(share > 0)),
    cases.map((_, i) => bit(met(i) !== null)),
    (i, k) => bit(met(i, k) !== null),
  )
  cases.forEach((_, i) => {
    const twin = met(i)
    if (!twin || shares[i] <= 0) return
    expect(Math.abs(shares[i] - twin.share)).toBeLessThan(2e-5)
    expect(Math.abs(along[i] - dot(twin.normal, [0.3, 0.5, 0.8]))).toBeLessThan(2e-4)
  })
})

test('lensReflectance, plain and coated', async () => {
  const cases = Array.from({ length: CASES }, (_, i) => ({ cosine: float(0.02, 1), coated: i % 2 === 0 }))
  const gpu = await onGpu(
    'lensReflectance(in0.x, in0.y > 0.5)',
    cases.map(({ cosine, coated }) => [cosine, bit(coated)]),
  )
  expectClose(
    gpu,
    cases.map(({ cosine, coated }) => lensReflectance(Math.acos(cosine), coated)),
    (i) => JSON.stringify(cases[i]),
  )
})
