import { describe, expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { firstSitting } from '../../src/sitting'
import { addScaled, degrees, distance, dot, normalize, radians, subtract, type Vec3 } from '../../src/space'
import { inputOf, lamp, setOf, stopsBetween, take } from './set'

/** Readings held against closed forms and plain geometry, each named beside its check. */

const small = { ...defaultModifier('dish'), diameterM: 0.1 }
const fixed = { reExpose: 'nothing' } as const

test('the meter at the near cheek, disc and dome, to the light and to the lens: 1, cos θ and (1 + cos θ)/2', () => {
  // Lambert's cosine for the disc; for the dome the cardioid that ISO 2720 asks of a three-dimensional receptor.
  const source = lamp('A', { az: 45, d: 2.4, modifier: small })
  const { value, of } = take(setOf([source], fixed))
  const at = of('exposure.nearCheek.disc.light').place.at!
  const lens = firstSitting().camera.positionM
  const cosine = dot(normalize(subtract(source.centreM, at)), normalize(subtract(lens, at)))
  const under = (id: string) => stopsBetween(value('exposure.nearCheek.disc.light'), value(`exposure.nearCheek.${id}`))
  expect(under('dome.light')).toBeCloseTo(0, 1)
  expect(Math.abs(under('disc.lens') - Math.log2(cosine))).toBeLessThan(0.02)
  expect(Math.abs(under('dome.lens') - Math.log2((1 + cosine) / 2))).toBeLessThan(0.02)
})

test('the chin’s edge on the neck: W·b/a with b found by a ray from the chin, and 10 to 90 % of an even disc 0.687 of it', () => {
  const source = lamp('A', { az: 10, el: 40, d: 2 })
  const sitting = setOf([source], fixed)
  const { rig, caster } = inputOf(sitting)
  const { menton } = rig.figures[0].posed.landmarks
  const away = normalize(subtract(menton.position, source.centreM))
  // From 2 mm off the skin, as light passes the chin and not through it.
  const b = caster.nearest(addScaled(menton.position, menton.normal, 0.002), away)!.distance
  const a = distance(source.centreM, menton.position)
  const { value } = take(sitting)
  expect(value('edge.A.chin.full') / ((180 * b) / a)).toBeCloseTo(1, 1)
  // The dish's beam is as good as even across itself; closed form of the even disc.
  expect(value('edge.A.chin.tenToNinety') / value('edge.A.chin.full')).toBeCloseTo(0.687, 1)
})

test('the chin’s shadow is as deep as the fill beside the key: −1 under +0 and fill at equal light, log₂(1/2)', () => {
  const key = lamp('A', { az: 0, el: 45, d: 2, modifier: small })
  // From below the lens axis it reaches the neck that the chin hides from the key, at the same angle to its skin.
  const fill = { ...lamp('B', { az: 0, el: 0, d: 2, modifier: small }), role: 'fill' as const }
  const depth = (powerStops: number) => {
    const weaker = { ...fill, head: { ...fill.head, powerStops } }
    return take(setOf([{ ...key, head: { ...key.head, powerStops: 0 } }, weaker], fixed)).value('edge.A.chin.depth')
  }
  const [even, four] = [depth(0), depth(-4)]
  expect(even).toBeLessThan(0)
  // Depth is −log₂(1 + key/fill): with s = 2^−depth − 1 the key's share over the fill's goes up by 2⁴.
  expect((2 ** -four - 1) / (2 ** -even - 1) / 16).toBeCloseTo(1, 1)
})

test('how tall a box looks is 2·atan(½ height / distance), straight on', () => {
  const box = { ...defaultModifier('softbox'), widthM: 0.4, heightM: 0.9 }
  const source = lamp('A', { d: 2, modifier: box })
  const { value, of } = take(setOf([source], fixed))
  const from = of('source.A.apparentHeight').place.at!
  expect(value('source.A.apparentHeight')).toBeCloseTo(degrees(2 * Math.atan(0.45 / distance(from, source.centreM))), 0)
  expect(value('source.A.apparentWidth')).toBeCloseTo(degrees(2 * Math.atan(0.2 / distance(from, source.centreM))), 0)
})

test('lens height is the lens’s own above the floor, with its way to the eye line and its tilt', () => {
  const camera = { ...firstSitting().camera, positionM: [0, 1.3, 2] as const, aimM: [0, 1.1, 0] as const }
  const { of } = take(setOf([lamp('A')], { ...fixed, camera }))
  expect(of('camera.lensHeight').value).toBe(1.3)
  // atan(0.2/2) = 5.7°; the eyes of these sets are at 1.20 m.
  expect(of('camera.lensHeight').sentence).toMatch(/0\.10 m above the eye line, tilted −6°/)
})

test('a source aimed at the chin is 0° off it; swung 10° past, 10°', () => {
  const { chin } = inputOf(setOf([])).rig.figures[0].posed.landmarks
  const at: Vec3 = [chin.position[0], chin.position[1], chin.position[2] + 2]
  const aimed = (off: number): Vec3 => [at[0] + 2 * Math.sin(radians(off)), at[1], at[2] - 2 * Math.cos(radians(off))]
  const angle = (off: number) =>
    take(setOf([{ ...lamp('A'), centreM: at, aimM: aimed(off) }], fixed)).value('source.A.aim')
  expect(angle(0)).toBeCloseTo(0, 6)
  expect(angle(10)).toBeCloseTo(10, 6)
})

test('what ten degrees of the head do to the near cheek’s skin: log₂(cos(i ± 10°)/cos i), the worse first', () => {
  const source = lamp('A', { az: 60, d: 2, modifier: small })
  const { value, of } = take(setOf([source], fixed))
  const { rig } = inputOf(setOf([source], fixed))
  const { normal } = rig.figures[0].posed.landmarks.cheekLeft
  const towards = normalize(subtract(source.centreM, of('sensitivity.turn').place.at!))
  const turned = (off: number): Vec3 => {
    const [s, c] = [Math.sin(radians(off)), Math.cos(radians(off))]
    return [normal[0] * c + normal[2] * s, normal[1], normal[2] * c - normal[0] * s]
  }
  const change = [10, -10].map((off) => Math.log2(dot(turned(off), towards) / dot(normal, towards)))
  const worst = Math.abs(change[0]) > Math.abs(change[1]) ? change[0] : change[1]
  expect(Math.abs(value('sensitivity.turn') - worst)).toBeLessThan(0.05)
})

describe('a frame without flash', () => {
  const steady = { ...defaultModifier('led-panel') }
  const stops = (shutterS: number, d: number) =>
    take(
      setOf([lamp('A', { az: 50, d: 2 }), lamp('B', { az: 15, d, modifier: steady })], {
        ...fixed,
        camera: { ...firstSitting().camera, shutterS },
        room: { ...setOf([]).room, depthM: 16 },
      }),
    ).value('camera.blackFrame')

  test('shows steady light as I·t/d²: a stop more at twice the time, two less at twice the distance', () => {
    expect(stops(1 / 60, 3) - stops(1 / 120, 3)).toBeCloseTo(1, 6)
    // Of a panel that is small against 3 m.
    expect(Math.abs(stops(1 / 60, 6) - stops(1 / 60, 3) + 2)).toBeLessThan(0.06)
  })
})

test('a bare lamp close to paper is a caution of heat; farther off, or behind a cloth, it is none', () => {
  const { backdrop } = firstSitting()
  const wall = -backdrop!.distanceM
  const cautions = (gap: number, kind: string) =>
    take(
      setOf(
        [
          {
            ...lamp('A', { modifier: defaultModifier(kind) }),
            centreM: [0.6, 1.2, wall + gap],
            aimM: [0.6, 1.2, wall],
          },
        ],
        { ...fixed, backdrop },
      ),
    ).cautions.filter(({ id }) => id === 'caution.A.heat')
  expect(cautions(0.2, 'bare-bulb')[0]!.sentence).toMatch(/^A's bare lamp is .* from the backdrop: .* scorch/)
  expect(cautions(1, 'bare-bulb')).toEqual([])
  expect(cautions(0.2, 'softbox')).toEqual([])
})

// Common practice, no source.
test('a bare lamp close to the sitter is a caution of heat as well', () => {
  const behind = { ...lamp('A', { modifier: defaultModifier('dish') }), aimM: [0, 1.2, 0] as const }
  const told = (back: number) =>
    take(setOf([{ ...behind, centreM: [0, 1.2, -back] }], { ...fixed, backdrop: null })).cautions.filter(
      ({ id }) => id === 'caution.A.heat',
    )
  expect(told(0.45)[0]!.sentence).toMatch(
    /^A's bare lamp is .* from the sitter: .* scorch hair and cloth, and burn skin\.$/,
  )
  expect(told(1)).toEqual([])
})
