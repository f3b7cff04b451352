import { expect, test } from 'vitest'
import { bounceAt, directAt, luminanceOf } from '../../src/meter'
import { ggxFactor, sampleGgx } from '../../src/meter/ggx'
import type { RigSource, Surface } from '../../src/rig'
import { add, cross, dot, hash32, length, normalize, scale, type Vec3 } from '../../src/space'
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

test('white furnace: in a room that glows all over, bounce is ρ/(1−ρ) of the direct light for disc and dome', () => {
  for (const reflectance of [0.3, 0.7]) {
    const walls = roomOf(SIZE, reflectance)
    const scene = sceneOf(rigOf(glowing(walls), walls))
    for (const [receptor, solidAngle] of [
      ['disc', Math.PI],
      ['dome', 2 * Math.PI],
    ] as const) {
      const probe = { point: [0.4, 0.1, -0.3] as Vec3, normal: normalize([0.2, 0.5, 0.8]) }
      const direct = directAt(scene, probe, receptor).reduce((sum, { perCandela }) => sum + perCandela, 0)
      const bounced = bounceAt(scene, probe, receptor, { paths: 4096 })
      const total = bounced.reduce((sum, { mean }) => sum + luminanceOf(mean), 0)
      const error = Math.hypot(...bounced.map(({ standardError }) => standardError))
      expect(Math.abs(direct / solidAngle - 1)).toBeLessThan(2e-3)
      expect(error / total).toBeLessThan(0.015)
      const expected = (solidAngle * reflectance) / (1 - reflectance)
      expect(Math.abs(total - expected)).toBeLessThan(4 * error)
    }
  }
})

test('closed room: the area mean of the bounce on the walls is Φρ/(A(1−ρ)) (RAD-CAVITY, Sumpner)', () => {
  const reflectance = 0.6
  const walls = roomOf(SIZE, reflectance)
  const lamp = sourceAt('A', { shape: 'disc', radiusM: 0.2 }, [0.3, 0.2, 0.5], [1, 0.5, -2])
  const scene = sceneOf(rigOf([lamp], walls))
  const area = 2 * (SIZE[0] * SIZE[1] + SIZE[1] * SIZE[2] + SIZE[2] * SIZE[0])
  const places = 400
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
      sum += (luminanceOf(mean) * share) / places
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
  const values = runs.map(({ mean }) => luminanceOf(mean))
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
      const [polar, around] = [800, 800]
      let integral = 0
      for (let i = 0; i < polar; i++)
        for (let j = 0; j < around; j++) {
          const theta = ((i + 0.5) / polar) * (Math.PI / 2)
          const phi = ((j + 0.5) / around) * 2 * Math.PI
          const incident: Vec3 = [Math.sin(theta) * Math.cos(phi), Math.sin(theta) * Math.sin(phi), Math.cos(theta)]
          integral += ggxFactor(normal, towards, incident, alpha) * Math.cos(theta) * Math.sin(theta)
        }
      integral *= (Math.PI / 2 / polar) * ((2 * Math.PI) / around)
      const draws = 40_000
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
