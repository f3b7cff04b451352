import { expect, test } from 'vitest'
import { bounceAt, directAt } from '../../src/meter'
import { sampleGgx } from '../../src/meter/ggx'
import { ggx, luminanceFromSrgb } from '../../src/photometry'
import type { Material, RigSource, Surface } from '../../src/rig'
import { add, cross, dot, hash32, length, normalize, type Rect, scale, type Vec3 } from '../../src/space'
import { rigOf, roomOf, sceneOf, sourceAt } from './fixtures'

const SIZE: Vec3 = [3, 2.4, 4]
const random = (i: number, dimension: number) => hash32(i, dimension) / 2 ** 32

/** Every wall of the room shines with luminance 1. */
const glowing = (walls: readonly Surface[]): RigSource[] =>
  walls.map(({ id, rect }) => {
    const normal = normalize(cross(rect.halfU, rect.halfV))
    const across =
      Math.abs(normal[1]) > 0.5
        ? { w: SIZE[0], h: SIZE[2] }
        : Math.abs(normal[0]) > 0.5
          ? { w: SIZE[2], h: SIZE[1] }
          : { w: SIZE[0], h: SIZE[1] }
    return sourceAt(
      id,
      { shape: 'rectangle', widthM: across.w, heightM: across.h },
      rect.centre,
      add(rect.centre, normal),
    )
  })

/** Three boards of one material round the place, none touching a wall: light goes to and fro between them. */
const boards = (front: Material): Surface[] =>
  [
    { centre: [0, 0, -0.5], halfU: [0.5, 0, 0], halfV: [0, 0.4, 0] },
    { centre: [0.7, 0.1, 0.1], halfU: [0, 0, 0.4], halfV: [0, 0.5, 0] },
    { centre: [0.1, -0.6, 0], halfU: [0.5, 0, 0], halfV: [0, 0.1, 0.4] },
  ].map((rect, i) => ({ id: `board${i}`, kind: 'panel', rect: rect as unknown as Rect, front, back: front }))

const PROBE = { point: [0, 0, 0] as Vec3, normal: normalize([0.5, -0.2, -0.8]) }
const inFurnace = (front: Material, receptor: 'disc' | 'dome') => {
  const scene = sceneOf(rigOf(glowing(roomOf(SIZE, 0)), [...roomOf(SIZE, 0), ...boards(front)]))
  const direct = directAt(scene, PROBE, receptor).reduce((sum, { perCandela }) => sum + perCandela, 0)
  const bounced = bounceAt(scene, PROBE, receptor, { paths: 4096 })
  return { direct, bounced: bounced.reduce((sum, { mean }) => sum + luminanceFromSrgb(mean), 0) }
}
const grey = (value: number): Material => ({ kind: 'matt', albedo: [value, value, value] })

test('white furnace: boards of reflectance 1 vanish in a room that glows all over, for disc and dome', () => {
  for (const [receptor, all] of [
    ['disc', Math.PI],
    ['dome', 2 * Math.PI],
  ] as const) {
    const { direct, bounced } = inFurnace(grey(1), receptor)
    expect(bounced / all, 'the boards take up a good part of the view').toBeGreaterThan(0.2)
    expect(Math.abs((direct + bounced) / all - 1)).toBeLessThan(0.02)
  }
})

test('furnace of silver: boards of F0 1, r 0.5 lose what single-scatter GGX loses, and gain nothing', () => {
  // Its directional albedo at α 0.25 runs from 0.92 (facing) to 0.83 (70°): see the quadrature below. Some light meets two boards.
  const { direct, bounced } = inFurnace({ kind: 'metal', f0: [1, 1, 1], roughness: 0.5 }, 'disc')
  const kept = bounced / (Math.PI - direct)
  expect(kept).toBeLessThan(0.92)
  expect(kept).toBeGreaterThan(0.83 ** 2)
})

test('closed room: the area mean of the bounce on the walls is Φρ/(A(1−ρ)) (RAD-CAVITY, Sumpner)', () => {
  const reflectance = 0.6
  const walls = roomOf(SIZE, reflectance)
  const lamp = sourceAt('A', { shape: 'disc', radiusM: 0.2 }, [0.3, 0.2, 0.5], [1, 0.5, -2])
  const scene = sceneOf(rigOf([lamp], walls))
  const area = 2 * (SIZE[0] * SIZE[1] + SIZE[1] * SIZE[2] + SIZE[2] * SIZE[0])
  const places = 250
  let sum = 0
  walls.forEach(({ rect }, w) => {
    const normal = normalize(cross(rect.halfU, rect.halfV))
    const share = (4 * length(rect.halfU) * length(rect.halfV)) / area
    for (let i = 0; i < places; i++) {
      const point = add(
        add(rect.centre, scale(normal, 1e-3)),
        add(scale(rect.halfU, 2 * random(i, 2 * w) - 1), scale(rect.halfV, 2 * random(i, 2 * w + 1) - 1)),
      )
      const [{ mean }] = bounceAt(scene, { point, normal }, 'disc', { paths: 32, seed: hash32(i, 77 + w) })
      sum += (luminanceFromSrgb(mean) * share) / places
    }
  })
  const flux = Math.PI * Math.PI * 0.2 ** 2
  expect(sum / ((flux * reflectance) / (area * (1 - reflectance)))).toBeCloseTo(1, 1.7)
})

test('a black room bounces nothing; the colour of a wall colours the bounce', () => {
  const lamp = sourceAt('A', { shape: 'disc', radiusM: 0.2 }, [0, 0, 1], [0, 0, -1])
  const probe = { point: [0, 0, 0] as Vec3, normal: [0, 0, -1] as Vec3 }
  const [dark] = bounceAt(sceneOf(rigOf([lamp], roomOf(SIZE, 0))), probe, 'disc', { paths: 256 })
  expect(dark.mean).toEqual([0, 0, 0])
  const red = roomOf(SIZE, 0).map((wall) => ({ ...wall, front: { kind: 'matt', albedo: [0.8, 0.1, 0] } as const }))
  const [bled] = bounceAt(sceneOf(rigOf([lamp], red)), probe, 'disc', { paths: 512 })
  expect(bled.mean[0]).toBeGreaterThan(8 * bled.mean[1])
  expect(bled.mean[2]).toBe(0)
})

test('the stated standard error is honest: independent seeds scatter as much as it says', () => {
  const walls = roomOf(SIZE, 0.6)
  const lamp = sourceAt('A', { shape: 'disc', radiusM: 0.2 }, [0.8, 0.6, 1], [0, 0, 0])
  const scene = sceneOf(rigOf([lamp], walls))
  const runs = Array.from(
    { length: 40 },
    (_, seed) => bounceAt(scene, { point: [0, 0, 0], normal: [0, 0, 1] }, 'disc', { paths: 256, seed })[0],
  )
  const values = runs.map(({ mean }) => luminanceFromSrgb(mean))
  const mean = values.reduce((a, b) => a + b) / values.length
  const scatter = Math.sqrt(values.reduce((s, v) => s + (v - mean) ** 2, 0) / (values.length - 1))
  const stated = runs.reduce((s, { standardError }) => s + standardError, 0) / runs.length
  // 40 runs know their own scatter to about 11 %, one standard deviation.
  expect(stated / scatter).toBeGreaterThan(0.65)
  expect(stated / scatter).toBeLessThan(1.5)
})

test('same seed, same answer to the last bit', () => {
  const walls = roomOf(SIZE, 0.6)
  const scene = sceneOf(rigOf([sourceAt('A', { shape: 'disc', radiusM: 0.2 }, [0, 0, 1], [0, 0, 0])], walls))
  const once = () => bounceAt(scene, { point: [0, 0, 0], normal: [0, 1, 0] }, 'dome', { paths: 64, seed: 5 })
  expect(once()).toEqual(once())
})

// Two routes to the directional albedo of a rough metal: quadrature of the BRDF, and the mean sampling weight.
for (const roughness of [0.3, 0.5])
  for (const deg of [0, 45, 70])
    test(`rough metal r ${roughness} seen at ${deg}°: sampling and quadrature reflect the same, and not over 1`, () => {
      const alpha = roughness ** 2
      const angle = (deg * Math.PI) / 180
      const towards: Vec3 = [Math.sin(angle), 0, Math.cos(angle)]
      const normal: Vec3 = [0, 0, 1]
      const [polar, around] = [400, 400]
      let integral = 0
      for (let i = 0; i < polar; i++)
        for (let j = 0; j < around; j++) {
          const theta = ((i + 0.5) / polar) * (Math.PI / 2)
          const phi = ((j + 0.5) / around) * 2 * Math.PI
          const incident: Vec3 = [Math.sin(theta) * Math.cos(phi), Math.sin(theta) * Math.sin(phi), Math.cos(theta)]
          integral += ggx(normal, incident, towards, alpha) * Math.cos(theta) * Math.sin(theta)
        }
      integral *= (Math.PI / 2 / polar) * ((2 * Math.PI) / around)
      const draws = 20_000
      let sampled = 0
      for (let i = 0; i < draws; i++) {
        const drawn = sampleGgx(normal, towards, alpha, (i + 0.5) / draws, random(i, 3))
        if (drawn) {
          expect(dot(drawn.incident, normal)).toBeGreaterThan(0)
          sampled += drawn.weight / draws
        }
      }
      expect(sampled).toBeLessThanOrEqual(1)
      expect(Math.abs(sampled / integral - 1)).toBeLessThan(0.006)
    })

test('what sends light on last: boards in a black room, walls in an empty one; together they are all of it', () => {
  const total = ({ boards, room, rest }: Record<'boards' | 'room' | 'rest', readonly number[]>) =>
    [0, 1, 2].map((band) => boards[band] + room[band] + rest[band])
  const lamp = sourceAt('A', { shape: 'disc', radiusM: 0.2 }, [0, 0.9, 0.3], [0, 0, 0])
  const at = (walls: number, set: readonly Surface[]) =>
    bounceAt(sceneOf(rigOf([lamp], [...roomOf(SIZE, walls), ...set])), PROBE, 'disc', { paths: 512 })[0]
  const [onBoards, inRoom, both] = [at(0, boards(grey(0.8))), at(0.5, []), at(0.5, boards(grey(0.8)))]
  for (const { mean, sent } of [onBoards, inRoom, both])
    total(sent).forEach((value, band) => {
      expect(value).toBeCloseTo(mean[band], 12)
    })
  expect(onBoards.sent).toMatchObject({ room: [0, 0, 0], rest: [0, 0, 0] })
  expect(onBoards.sent.boards[1]).toBeGreaterThan(0)
  expect(inRoom.sent).toMatchObject({ boards: [0, 0, 0], rest: [0, 0, 0] })
  expect(both.sent.boards[1]).toBeGreaterThan(0)
  expect(both.sent.room[1]).toBeGreaterThan(0)
})
