import { expect, test } from 'vitest'
import { DARK, forwardLobe, gaussLegendre, ggx, keepLobes, keptLuminance, luminanceOf } from '../../../src/photometry'
import { dot, hash32, normalize, radians, type Vec3 } from '../../../src/space'

const NORMAL: Vec3 = [0, 0, 1]
const tilted = (deg: number): Vec3 => [Math.sin(radians(deg)), 0, Math.cos(radians(deg))]

/** ∫ f(ω) dω over the upper half space. */
function overHalfSpace(f: (direction: Vec3) => number, rings = 200, spokes = 200): number {
  let sum = 0
  for (const { x: cosine, weight } of gaussLegendre(rings)) {
    const sine = Math.sqrt(1 - cosine * cosine)
    for (let k = 0; k < spokes; k++) {
      const angle = (2 * Math.PI * (k + 0.5)) / spokes
      sum += f([sine * Math.cos(angle), sine * Math.sin(angle), cosine]) * weight
    }
  }
  return (sum * 2 * Math.PI) / spokes
}

/** Λ of GGX and the one-sided masking G₁ = 1/(1 + Λ): [Heitz2014] eq. 43 and 72. */
function g1(direction: Vec3, alpha: number): number {
  const tan2 = 1 / direction[2] ** 2 - 1
  return 2 / (1 + Math.sqrt(1 + alpha ** 2 * tan2))
}

/**
 * Weak white furnace, E. Heitz, Understanding the masking-shadowing function (JCGT 3(2), 2014) eq. 85: with masking of the
 * view alone, D·G₁(o)/(4|cosθo|) integrates to exactly 1 over all directions, lower half space too. D is taken from ggx by
 * dividing its height-correlated G₂ = 1/(1 + Λi + Λo) out; what leaves downwards is counted by the mirror law.
 */
test.each([0.15, 0.3, 0.5, 0.7])('weak white furnace, roughness %s', (roughness) => {
  const alpha = roughness ** 2
  const d = (half: Vec3) => ggx(NORMAL, half, half, alpha) * 4 * half[2] ** 2 * (2 / g1(half, alpha) - 1)
  for (const deg of [0, 30, 60, 80]) {
    const out = tilted(deg)
    // dω_i = 4(o·h) dω_h, so the furnace is ∫ D·G₁·(o·h)₊/cosθo dω_h.
    const total = overHalfSpace((half) => d(half) * Math.max(0, dot(out, half))) * (g1(out, alpha) / out[2])
    expect(total).toBeCloseTo(1, 3)
  }
})

test('a metal without loss never gives back more than it gets, and nearly all of it when smooth', () => {
  for (const roughness of [0.2, 0.35, 0.5, 0.7])
    for (const deg of [0, 30, 60, 80]) {
      const share = overHalfSpace((out) => ggx(NORMAL, tilted(deg), out, roughness ** 2) * out[2])
      expect(share).toBeLessThan(1.0005)
      if (roughness <= 0.35 && deg <= 60) expect(share).toBeGreaterThan(0.95)
    }
})

test('both ways round: f(i, o) = f(o, i) (Helmholtz)', () => {
  for (const [a, b] of [
    [10, 70],
    [35, -60],
    [0, 45],
  ])
    expect(ggx(NORMAL, tilted(a), tilted(b), 0.25)).toBeCloseTo(ggx(NORMAL, tilted(b), tilted(a), 0.25), 12)
})

test('the forward lobe carries all of its light: 1 at straight incidence', () => {
  for (const exponent of [4, 11, 30])
    expect(overHalfSpace((out) => forwardLobe(out[2], out[2], exponent) * out[2])).toBeCloseTo(1, 5)
})

test('the parts add up, and nothing shines backwards', () => {
  const place = { ...DARK, point: [0, 0, 0] as Vec3, normal: NORMAL, areaM2: 1, incident: tilted(20), alpha: 0.25 }
  const all = { ...place, diffuse: 0.3, specular: 2, forward: 0, beam: 1.5, beamExponent: 4 }
  const parts = [
    { ...place, diffuse: 0.3 },
    { ...place, specular: 2 },
    { ...place, beam: 1.5, beamExponent: 4 },
  ]
  const sum = parts.reduce((total, part) => total + luminanceOf(part, tilted(-30)), 0)
  expect(luminanceOf(all, tilted(-30))).toBeCloseTo(sum, 12)
  expect(luminanceOf(all, tilted(100))).toBe(0)
})

/** What readings ask thousands of times against the same sum written plainly: several lights on one place, from all sides. */
test.each([
  ['silver', { specular: 0.88, alpha: 0.25, forward: 0, exponent: 11 }],
  ['nearly a mirror', { specular: 0.88, alpha: 0.01, forward: 0, exponent: 11 }],
  ['shoot-through with a lobe', { specular: 0, alpha: 0.25, forward: 0.3, exponent: 11 }],
] as const)('lobes kept for a place are the lobes themselves: %s', (_, shaping) => {
  let draw = 0
  const random = () => hash32(draw++, 21) / 2 ** 31 - 1
  const unit = () => normalize([random(), random(), random()])
  const lights = Array.from({ length: 12 }, () => ({ illuminance: 2 + random(), incident: unit() }))
  const rows = keepLobes(NORMAL, lights, shaping)
  let bright = 0
  for (let i = 0; i < 400; i++) {
    // Every other one close about a light's mirror image, where a narrow lobe is.
    const [x, y, z] = lights[i % 12]!.incident
    const off = unit()
    const to = i % 2 ? normalize([-x + 0.002 * off[0], -y + 0.002 * off[1], Math.abs(z) + 0.002 * off[2]]) : unit()
    if (to[2] <= 0) continue
    const sum = lights.reduce((all, { illuminance, incident }) => {
      const glossy = shaping.specular * ggx(NORMAL, incident, to, shaping.alpha)
      return all + illuminance * (glossy + shaping.forward * forwardLobe(-dot(incident, to), to[2], shaping.exponent))
    }, 0)
    const kept = keptLuminance(rows, shaping, to[2], to)
    if (sum > 1e-3) bright++
    expect(Math.abs(kept - sum)).toBeLessThanOrEqual(1e-8 * sum)
  }
  expect(bright).toBeGreaterThan(50)
})
