import { describe, expect, test } from 'vitest'
import { type BuiltModifier, buildModifier, defaultModifier, MODIFIER_KINDS, modifierKind } from '../../src/gear'
import {
  BARE_DOME_FLUX,
  blockedByCylinder,
  fluxOf,
  gatePass,
  integrateFlux,
  irradianceAt,
  luminanceOf,
  STANDARD_DISH,
  STANDARD_FLUX,
  segmentHitsCap,
} from '../../src/photometry'
import { addScaled, cross, distance, dot, length, normalize, sobol, subtract, type Vec3 } from '../../src/space'

const KINDS = MODIFIER_KINDS.map(({ id }) => id)
const built = (id: string, change: object = {}): BuiltModifier => buildModifier({ ...defaultModifier(id), ...change })
const emissionsOf = (id: string, change: object = {}) =>
  built(id, change).emitters.map(({ emission, id: part }) => [part, emission] as const)
const FACING: Vec3 = [0, 0, -1]

type Draw = 'sample' | 'spread'
const DRAWS: readonly Draw[] = ['sample', 'spread']

function irradianceByPoints(
  emission: BuiltModifier['emitters'][number]['emission'],
  draw: Draw,
  at: Vec3,
  count = emission.profile === 'canopy' ? 4096 : 2048,
): number {
  let sum = 0
  for (let i = 0; i < count; i++) {
    const lit = emission[draw]([sobol(i, 0), sobol(i, 1), sobol(i, 2), sobol(i, 3)])
    if (!lit || blockedByCylinder(lit.point, at, emission.blockers)) continue
    const away = normalize(subtract(at, lit.point))
    const cosines = Math.max(0, dot(away, lit.normal)) * Math.max(0, -dot(away, FACING))
    const pass = gatePass(emission.gate, lit.point, away)
    sum += (luminanceOf(lit, away) * pass * cosines * lit.areaM2) / distance(at, lit.point) ** 2
  }
  return sum / count
}

describe.each(KINDS)('%s', (id) => {
  test('area route and the points of both draws give the same light, within 1 %', () => {
    for (const [part, emission] of emissionsOf(id))
      for (const at of [
        [0, 0, 1.5],
        [0.7, 0.2, 1.2],
      ] as const) {
        const area = irradianceAt(emission, at, FACING, emission.profile === 'canopy' ? 64 : 32)
        for (const draw of DRAWS) {
          const drawn = irradianceByPoints(emission, draw, at)
          if (area === 0) expect(drawn, part).toBe(0)
          else expect(Math.abs(drawn / area - 1), `${id} ${part} at ${at} by ${draw}`).toBeLessThan(0.01)
        }
      }
  })

  test('a point of either draw looks as bright as the same point of the area route, lamp averaged', () => {
    for (const [part, emission] of emissionsOf(id)) {
      const out: Vec3 = normalize([0.2, 0.1, 1])
      const number = 1024
      let summed = 0
      const sampled = { sample: 0, spread: 0 }
      for (let i = 0; i < number; i++) {
        const place = emission.at(sobol(i, 0), sobol(i, 1))
        summed += (emission.luminance(place, out) * place.areaM2) / number
        for (const draw of DRAWS) {
          const lit = emission[draw]([sobol(i, 0), sobol(i, 1), sobol(i, 2), sobol(i, 3)])
          if (lit)
            sampled[draw] += (luminanceOf(lit, out) * gatePass(emission.gate, lit.point, out) * lit.areaM2) / number
        }
      }
      for (const draw of DRAWS)
        if (summed === 0) expect(sampled[draw], part).toBe(0)
        else expect(Math.abs(sampled[draw] / summed - 1), `${part} by ${draw}`).toBeLessThan(0.02)
    }
  })

  test('no flash gives more than its tube has', () => {
    const total = emissionsOf(id).reduce((sum, [, emission]) => sum + emission.flux, 0)
    if (!modifierKind(id).burnsOn) expect(total).toBeLessThanOrEqual(BARE_DOME_FLUX * 1.0001)
  })

  test('frames are right-handed and unit, and the lit face looks along +z', () => {
    for (const { frame, part } of built(id).emitters) {
      for (const axis of [frame.x, frame.y, frame.z]) expect(length(axis)).toBeCloseTo(1, 12)
      expect(cross(frame.x, frame.y)).toEqual(frame.z.map((value) => expect.closeTo(value, 12)))
      if (part === 'front') expect(frame.z).toEqual([0, 0, 1])
      if (part === 'back') expect(frame.z).toEqual([0, 0, -1])
    }
  })
})

/** Brute force over fine directions against the one-dimensional integral: the beam behind a 20° grid. */
test('a gridded dish gives its declared flux', () => {
  const { emission } = built('dish', { grid: '20°' }).emitters[0]
  expect(Math.abs(integrateFlux(emission, 1, 400, 8) / emission.flux - 1)).toBeLessThan(0.002)
  expect(emission.flux).toBeLessThan(0.2 * STANDARD_FLUX)
})

test.each([0.45, 0.6])('matt white umbrella: out = ρΦ(1−F)/(1−ρF), shaft %s', (shaftM) => {
  const { emission } = built('white-umbrella', { cloth: 'matt', shaftM }).emitters[0]
  expect(Math.abs(integrateFlux(emission, 2048, 8, 8) / emission.flux - 1)).toBeLessThan(0.004)
})

test.each(['white-umbrella', 'silver-umbrella', 'shoot-through-umbrella'])(
  '%s: what misses the cloth is the spill, by sampling and by closed form',
  (id) => {
    const { emitters } = built(id)
    const missed = Array.from({ length: 8192 }, (_, i) =>
      emitters[0].emission.sample([sobol(i, 0), sobol(i, 1), sobol(i, 2), sobol(i, 3)]),
    ).filter((lit) => lit === null).length
    const spill = emitters[emitters.length - 1]
    expect(spill.part).toBe('spill')
    expect(Math.abs(missed / 8192 - spill.emission.flux / fluxOf(STANDARD_DISH))).toBeLessThan(0.002)
    expect(Math.abs(integrateFlux(spill.emission, 128, 40, 32) / spill.emission.flux - 1)).toBeLessThan(0.03)
  },
)

test('light that spills past a canopy and the canopy itself are one cap in two frames', () => {
  for (const id of ['white-umbrella', 'shoot-through-umbrella']) {
    const { emitters, solids } = built(id)
    const spill = emitters[emitters.length - 1]
    const cap = solids.find((solid) => solid.kind === 'cap')
    if (cap?.kind !== 'cap') throw new Error('an umbrella without canopy')
    for (let i = 0; i < 500; i++) {
      const local: Vec3 = normalize([sobol(i, 0) - 0.5, sobol(i, 1) - 0.5, 0.4])
      const { origin, x, y, z } = spill.frame
      const world = [0, 1, 2].map((k) => x[k] * local[0] + y[k] * local[1] + z[k] * local[2]) as unknown as Vec3
      const blocked = segmentHitsCap(origin, addScaled(origin, world, 9), cap)
      expect(gatePass(spill.emission.gate, [0, 0, 0], local)).toBe(blocked ? 0 : 1)
    }
  }
})
