/** White furnace: under light from everywhere alike, no surface may send back more than it gets. Energy conservation. */
import { describe, expect, test } from 'vitest'
import { sampleGgx } from '../../src/meter/ggx'
import {
  filmPassDiffuse,
  filmShare,
  fresnelSchlick,
  ggx,
  linearFromLab,
  SKIN_F0,
  SKIN_TONES,
  underFilm,
} from '../../src/photometry'
import { SKIN_LAB, skinRoughness } from '../../src/rig/skin'
import { add, dot, normalize, type Vec3 } from '../../src/space'

const NORMAL: Vec3 = [0, 0, 1]
/** Of the direction looked from, down to half a degree over the surface. */
const ANGLES_DEG = [0, 15, 30, 45, 60, 70, 75, 80, 84, 87, 89.5]
const towards = (deg: number): Vec3 => [Math.sin((deg * Math.PI) / 180), 0, Math.cos((deg * Math.PI) / 180)]
const SHINES = [0, 0.25, 0.5, 0.75, 1]

const schlickAt = (half: Vec3, out: Vec3) => fresnelSchlick(SKIN_F0, Math.acos(Math.min(1, dot(half, out))))

/** Part that the gloss sends back, by the meter's way of drawing it: mean of weight · F. */
function drawnGloss(out: Vec3, alpha: number): number {
  const n = 64
  let sum = 0
  for (let i = 0; i < n; i++)
    for (let k = 0; k < n; k++) {
      const drawn = sampleGgx(NORMAL, out, alpha, (i + 0.5) / n, (k + 0.5) / n)
      if (drawn) sum += drawn.weight * schlickAt(normalize(add(drawn.incident, out)), out)
    }
  return sum / n ** 2
}

/** The same by the formula that the picture has, over the half-space: fine rings about the normal. */
function summedGloss(out: Vec3, alpha: number): number {
  const [rings, turns] = alpha < 0.1 ? [1400, 840] : [400, 240]
  let sum = 0
  for (let i = 0; i < rings; i++) {
    const theta = ((i + 0.5) * Math.PI) / 2 / rings
    for (let k = 0; k < turns; k++) {
      const phi = ((k + 0.5) * 2 * Math.PI) / turns
      const incident: Vec3 = [Math.sin(theta) * Math.cos(phi), Math.sin(theta) * Math.sin(phi), Math.cos(theta)]
      const lobe = ggx(NORMAL, incident, out, alpha) * schlickAt(normalize(add(incident, out)), out)
      sum += lobe * Math.cos(theta) * Math.sin(theta)
    }
  }
  return (sum * Math.PI ** 2) / rings / turns
}

/** What the body under the film sends back: over the half-space, by Simpson-like fine steps of the one angle that counts. */
function body(albedo: number, roughness: number, cosOut: number): number {
  const steps = 2000
  let sum = 0
  for (let i = 0; i < steps; i++) {
    const cosIn = (i + 0.5) / steps
    sum += underFilm(albedo, SKIN_F0, roughness, cosIn, cosOut) * 2 * Math.PI * cosIn
  }
  return sum / steps
}

const ALBEDOS = SKIN_TONES.flatMap((tone) => [...linearFromLab(SKIN_LAB[tone])])
const PALEST = Math.max(...ALBEDOS)

describe.each(SHINES)('shine %s', (shine) => {
  const roughness = skinRoughness(shine)
  const alpha = roughness ** 2

  test('no skin sends back more than it gets, at any angle', () => {
    for (const deg of ANGLES_DEG) {
      const out = towards(deg)
      const gloss = drawnGloss(out, alpha)
      expect(gloss, `${deg}°`).toBeGreaterThan(0.01)
      expect(gloss + body(PALEST, roughness, out[2]), `${deg}°`).toBeLessThanOrEqual(1)
      // Even a body that takes nothing, but for the fit's own error.
      expect(gloss + body(1, roughness, out[2]), `white body, ${deg}°`).toBeLessThanOrEqual(1.09)
    }
  })

  test('meter and picture have the same gloss', () => {
    for (const deg of [0, 45, 75]) {
      const [drawn, summed] = [drawnGloss(towards(deg), alpha), summedGloss(towards(deg), alpha)]
      expect(Math.abs(drawn / summed - 1), `${deg}°`).toBeLessThan(0.01)
    }
  })
})

test('a plain sum of matt and gloss would fail: this furnace is hot enough to tell', () => {
  expect(drawnGloss(towards(87), skinRoughness(1) ** 2) + PALEST).toBeGreaterThan(1.05)
})

test.each(SHINES)('shine %s: the film takes what the lobe gives, within the fit', (shine) => {
  const roughness = skinRoughness(shine)
  for (const deg of ANGLES_DEG) {
    const lobe = drawnGloss(towards(deg), roughness ** 2)
    expect(Math.abs(filmShare(SKIN_F0, roughness, towards(deg)[2]) - lobe), `${deg}°`).toBeLessThan(0.085)
  }
})

test('the film is reciprocal, and leaves skin seen from before as bright as its albedo', () => {
  expect(underFilm(0.5, SKIN_F0, 0.35, 0.3, 0.8)).toBe(underFilm(0.5, SKIN_F0, 0.35, 0.8, 0.3))
  // Near smooth, seen straight on: Fresnel's own share at normal incidence.
  expect(filmShare(SKIN_F0, 0.1, 1)).toBeCloseTo(0.0277777777777778, 2)
  // Diffuse light on a smooth film of n 1.4 loses 0.0768 by Fresnel (Walsh 1926); a rough one somewhat less.
  expect(1 - filmPassDiffuse(SKIN_F0, 0.15)).toBeCloseTo(0.0768, 1)
  expect(Math.abs(Math.log2((underFilm(0.5, SKIN_F0, 0.35, 1, 1) * Math.PI) / 0.5))).toBeLessThan(0.05)
})
