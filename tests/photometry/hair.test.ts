import { describe, expect, test } from 'vitest'
import {
  CUTICLE_TILT,
  fresnelSchlick,
  HAIR_F0,
  HAIR_LEAVES_MASS,
  HAIR_ROUGHNESS,
  hairLobe,
  hairOpen,
  MEAN_HAIR_TONE,
  STRAND_SPREAD,
  strandCosine,
} from '../../src/photometry'
import { sitterAlbedo } from '../../src/rig/skin'
import { add, degrees, dot, normalize, radians, type Vec3 } from '../../src/space'

const UP: Vec3 = [0, 0, 1]
/** Root to tip. */
const STRAND: Vec3 = [1, 0, 0]
const ALPHA = HAIR_ROUGHNESS ** 2
const direction = (fromNormalDeg: number, azimuthDeg: number): Vec3 => [
  Math.sin(radians(fromNormalDeg)) * Math.cos(radians(azimuthDeg)),
  Math.sin(radians(fromNormalDeg)) * Math.sin(radians(azimuthDeg)),
  Math.cos(radians(fromNormalDeg)),
]
const schlick = (a: Vec3, b: Vec3) => fresnelSchlick(HAIR_F0, Math.acos(Math.min(1, dot(normalize(add(a, b)), a))))

/** ∫ f·cos over the half-space: midpoints in equal areas of the disc under it. */
function reflected(f: (incident: Vec3) => number, rings = 100, sectors = 200): number {
  let sum = 0
  for (let i = 0; i < rings; i++) {
    const sine = Math.sqrt((i + 0.5) / rings)
    const height = Math.sqrt(1 - sine * sine)
    for (let j = 0; j < sectors; j++) {
      const a = (2 * Math.PI * (j + 0.5)) / sectors
      sum += f([sine * Math.cos(a), sine * Math.sin(a), height])
    }
  }
  return (sum * Math.PI) / (rings * sectors)
}
const VIEWS = [0, 30, 60, 80].flatMap((tilt) => [0, 45, 90, 135, 180].map((azimuth) => direction(tilt, azimuth)))

describe('hair gives back no more than it gets', () => {
  test('with a surface that reflects all, seen from anywhere: at most 1', () => {
    // The tilt of the scales takes part of the cosine from one side and gives it to the other.
    for (const view of VIEWS) {
      const share = reflected((incident) => hairLobe(UP, STRAND, incident, view, ALPHA))
      expect(share, view.join()).toBeLessThan(1 + Math.sin(CUTICLE_TILT))
    }
  })
  test("with keratin's reflectance, on top of the fairest mass of hair (0.34): under 1", () => {
    for (const view of VIEWS) {
      const share = reflected((incident) => schlick(incident, view) * hairLobe(UP, STRAND, incident, view, ALPHA))
      expect(share, view.join()).toBeGreaterThan(0)
      expect(share + 0.34, view.join()).toBeLessThan(1)
    }
  })
  test('straight on, at most what normals up to 45° aside send back: sin 45° of a closed row of mirrors', () => {
    const share = reflected((incident) => hairLobe(UP, STRAND, incident, UP, ALPHA))
    expect(share).toBeGreaterThan(0.4)
    expect(share).toBeLessThan(Math.SQRT1_2)
  })
})

/** A share of the light: it goes by quotients alone, whatever the hair's colour, and can't be without end (definition). */
test('gloss goes by what is open to light: as the body there, at the mean tone what leaves the mass, none in the dark', () => {
  for (const reflectance of [0.02, 0.1, 0.34]) {
    expect(hairOpen(MEAN_HAIR_TONE * reflectance, reflectance)).toBeCloseTo(HAIR_LEAVES_MASS, 12)
    expect(hairOpen(0.5 * MEAN_HAIR_TONE * reflectance, reflectance)).toBeCloseTo(0.5 * HAIR_LEAVES_MASS, 12)
    expect(hairOpen(0, reflectance)).toBe(0)
    expect(hairOpen(9 * reflectance, reflectance)).toBeLessThan(2)
  }
})

/** Measured reflectance of black scalp hair, gloss included: 3 to 6 % over the visible (from memory). */
test('dark hair gives back 3 to 6 % of diffuse light, gloss and body together', () => {
  const from = (view: Vec3) =>
    reflected((incident) => schlick(incident, view) * hairLobe(UP, STRAND, incident, view, ALPHA))
  const mirrored = reflected(from, 6, 12) / Math.PI
  const [r, g, b] = sitterAlbedo({ skin: 'dark', hair: 'dark', clothes: 'grey' }).hair
  const total = HAIR_LEAVES_MASS * mirrored + MEAN_HAIR_TONE * (0.2126 * r + 0.7152 * g + 0.0722 * b)
  expect(total).toBeGreaterThan(0.03)
  expect(total).toBeLessThan(0.06)
})

/** By its definition: the sum over many strands. */
test.each([-0.6, -0.5, -0.3, 0, 0.2, 0.49, 0.5, 0.9])(
  'strands about a cosine of %d get the mean of theirs',
  (cosine) => {
    const count = 4000
    let sum = 0
    for (let i = 0; i < count; i++) sum += Math.max(0, cosine + STRAND_SPREAD * ((2 * i + 1) / count - 1))
    expect(strandCosine(cosine)).toBeCloseTo(sum / count, 6)
  },
)

test('light goes either way alike (Helmholtz)', () => {
  for (const a of VIEWS)
    for (const b of VIEWS) expect(hairLobe(UP, STRAND, a, b, ALPHA)).toBeCloseTo(hairLobe(UP, STRAND, b, a, ALPHA), 12)
})

test('n of keratin 1.55 gives 4.65 % at normal incidence', () => {
  expect(HAIR_F0).toBeCloseTo((0.55 / 2.55) ** 2, 12)
})

/** Light from straight above; the lobe against the angle at which it leaves in the plane of the strand, towards the tip. */
const along = (deg: number) => hairLobe(UP, STRAND, UP, direction(Math.abs(deg), deg < 0 ? 180 : 0), ALPHA)

describe('the highlight', () => {
  const angles = Array.from({ length: 1401 }, (_, i) => -70 + i / 10)
  const peak = angles.reduce((a, b) => (along(b) > along(a) ? b : a))

  test('lies nearer the roots by twice the tilt of the scales', () => {
    expect(Math.abs(peak + degrees(2 * CUTICLE_TILT))).toBeLessThan(1)
  })
  test('is half as bright where a Gaussian of 5° to 10° of half-way angle would be [Marschner03]', () => {
    const half = angles.filter((deg) => along(deg) >= along(peak) / 2)
    // Full width in the angle of leaving is four times the half width in the half-way angle.
    const sigma = (half[half.length - 1] - half[0]) / 4 / Math.sqrt(2 * Math.log(2))
    expect(sigma).toBeGreaterThan(5)
    expect(sigma).toBeLessThan(10)
  })
  test('is drawn out across the strands: at 30° aside it has lost less than a third, along them nearly all', () => {
    const aside = hairLobe(UP, STRAND, UP, normalize([Math.tan(radians(peak)), Math.tan(radians(30)), 1]), ALPHA)
    expect(aside / along(peak)).toBeGreaterThan(0.67)
    expect(along(peak + 30) / along(peak)).toBeLessThan(0.35)
  })
})

/**
 * Round strands side by side: normals turned by φ about the strand show cos φ dφ/2 of the row's area from above, so light
 * from straight above leaves at 2φ, and its power goes with cos φ but for what meets a neighbour. Of the lobe, along its
 * ridge (half-way square to the tilted strand): radiance × cos 2φ × its width along the strand, 2 cos φ in the angle of leaving.
 */
test.each([5, 10, 15, 20])('across the strands it is that of round ones, normals %d° aside', (phi) => {
  const ridge = (deg: number): Vec3 => {
    const up = Math.cos(radians(2 * deg))
    return normalize([-Math.tan(CUTICLE_TILT) * (1 + up), Math.sin(radians(2 * deg)), up])
  }
  const power = (deg: number) => {
    const out = ridge(deg)
    return hairLobe(UP, STRAND, UP, out, 0.1) * out[2] * Math.cos(radians(deg))
  }
  const met = power(phi) / power(0) / Math.cos(radians(phi))
  expect(met).toBeGreaterThan(0.8)
  expect(met).toBeLessThan(1)
})
