import { describe, expect, test } from 'vitest'
import { buildModifier, defaultModifier, finishOf, MODIFIER_KINDS } from '../../src/gear'
import { dot, pointToWorld } from '../../src/space'

const built = (id: string, change: object = {}) => buildModifier({ ...defaultModifier(id), ...change })
const sidesOfCap = (id: string, change: object = {}) => {
  const cap = built(id, change).solids[0]
  return { outside: finishOf(cap, 'front'), inside: finishOf(cap, 'back') }
}

describe('cloths in other light', () => {
  // Cotton and nylon 0.6 to 0.85 white, 0.02 to 0.06 black, metallised cloth 0.85 to 0.9: common practice, no source.
  test('a white umbrella is white inside and black outside', () => {
    const { inside, outside } = sidesOfCap('white-umbrella')
    if (inside.kind !== 'matt' || outside.kind !== 'matt') throw new Error('matt cloths were expected')
    expect(inside.albedo[1]).toBeGreaterThanOrEqual(0.6)
    expect(inside.albedo[1]).toBeLessThan(0.86)
    expect(outside.albedo[1]).toBeLessThanOrEqual(0.06)
  })

  test('a silver umbrella is a metal inside, as rough as its cloth', () => {
    const { inside, outside } = sidesOfCap('silver-umbrella', { roughness: 0.4 })
    expect(inside).toMatchObject({ kind: 'metal', roughness: 0.4 })
    if (inside.kind === 'metal') for (const f0 of inside.f0) expect(f0).toBeCloseTo(0.88, 2)
    expect(outside.kind).toBe('matt')
  })

  test('a shoot-through umbrella is the same on both sides', () => {
    const { inside, outside } = sidesOfCap('shoot-through-umbrella')
    expect(inside).toEqual(outside)
  })

  test('a softbox’s front is lighter than its cloth alone, by what the lining gives back, and darker than white paper', () => {
    for (const id of ['softbox', 'octa', 'strip']) {
      const front = finishOf(built(id).solids[0], 'front')
      if (front.kind !== 'matt') throw new Error('a matt cloth was expected')
      expect(front.albedo[1]).toBeGreaterThan(0.35)
      expect(front.albedo[1]).toBeLessThan(0.8)
      expect(finishOf(built(id).solids[1], 'front')).toMatchObject({ kind: 'matt', albedo: [0.04, 0.04, 0.04] })
    }
  })
})

test.each(MODIFIER_KINDS.map(({ id }) => id))(
  '%s: each lit surface lies on the side of the solid that it names',
  (id) => {
    const { emitters, solids } = built(id)
    for (const { frame, emission, cloth } of emitters) {
      // Sun is light alone.
      if (!cloth) {
        expect(solids).toEqual([])
        continue
      }
      const solid = solids[cloth.solid]
      for (const [u, v] of [
        [0.1, 0.2],
        [0.5, 0.6],
        [0.9, 0.9],
      ]) {
        const { point } = emission.at(u, v)
        const at = pointToWorld(frame, point)
        if (solid.kind === 'rectangle') expect(Math.abs(at[2] - solid.rect.centre[2])).toBeLessThan(0.005)
        if (solid.kind === 'disc') expect(Math.abs(at[2] - solid.centre[2])).toBeLessThan(0.005)
        if (solid.kind === 'cylinder') {
          expect(Math.min(Math.abs(at[2] - solid.from[2]), Math.abs(at[2] - solid.to[2]))).toBeLessThan(1e-9)
          expect(Math.hypot(at[0], at[1])).toBeLessThanOrEqual(solid.radiusM)
        }
        if (solid.kind === 'cap') {
          const radius = (solid.diameterM ** 2 / 4 + solid.depthM ** 2) / (2 * solid.depthM)
          const centre = solid.rimCentre.map((c, i) => c + solid.axis[i] * (solid.depthM - radius))
          const out = at.map((c, i) => c - centre[i]) as unknown as typeof at
          expect(Math.hypot(...out)).toBeCloseTo(radius, 6)
          const normal = emission.at(u, v).normal
          const ahead = dot(out, pointToWorld({ ...frame, origin: [0, 0, 0] }, normal))
          expect(ahead > 0 ? 'front' : 'back').toBe(cloth.side)
        }
      }
    }
  },
)
