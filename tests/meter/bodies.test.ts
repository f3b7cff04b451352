import { expect, test } from 'vitest'
import { bodiesOf, materialAt } from '../../src/meter'
import type { Rig } from '../../src/rig'
import { type Body, cross, length, type Mesh, subtract, type Vec3 } from '../../src/space'
import { plainCaster, rigOf, roomOf, sourceAt } from './fixtures'

const corner = ({ positions, indices }: Mesh, i: number): Vec3 => {
  const at = 3 * indices[i]
  return [positions[at], positions[at + 1], positions[at + 2]]
}
function areaOf(body: Body): number {
  if (body.kind !== 'mesh') throw new Error('a mesh was expected')
  let sum = 0
  for (let i = 0; i < body.mesh.indices.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => corner(body.mesh, i + k))
    sum += length(cross(subtract(b, a), subtract(c, a))) / 2
  }
  return sum
}
const GREY = [0.2, 0.2, 0.2] as const
const lamp = {
  ...sourceAt('A', { shape: 'disc', radiusM: 0.1 }, [0, 1, 2], [0, 1, 0]),
  gear: [
    { kind: 'cylinder', from: [0, 1, 2], to: [0, 1, 2.3], radiusM: 0.06, albedo: GREY },
    { kind: 'disc', centre: [0, 1, 2.3], normal: [0, 0, 1], radiusM: 0.2, albedo: GREY },
    { kind: 'cap', rimCentre: [0, 1, 2], axis: [0, 0, 1], diameterM: 1, depthM: 0.25, albedo: GREY },
    { kind: 'rectangle', rect: { centre: [1, 1, 2], halfU: [0.2, 0, 0], halfV: [0, 0.2, 0] }, albedo: GREY },
  ],
} as const
const rig: Rig = {
  ...rigOf([lamp], roomOf([4, 3, 5], 0.5)),
  balls: [{ id: 'ball', centre: [1, 1, 0], radiusM: 0.1, material: { kind: 'matt', albedo: GREY } }],
}

test('gear and balls as meshes have the areas of the solids they stand for', () => {
  const { bodies, meanings, gearOf } = bodiesOf(rig)
  expect(bodies.length).toBe(6 + 1 + 4)
  expect([...gearOf.get('A')!]).toEqual([7, 8, 9, 10])
  expect(meanings[6].kind).toBe('ball')
  // Sphere 4πr²; disc πr²; spherical cap 2πRh = π(a² + h²); cylinder 2πrl + 2πr².
  expect(areaOf(bodies[6]) / (4 * Math.PI * 0.01)).toBeCloseTo(1, 2)
  expect(areaOf(bodies[7]) / (2 * Math.PI * 0.06 * 0.3 + 2 * Math.PI * 0.06 ** 2)).toBeCloseTo(1, 2)
  expect(areaOf(bodies[8]) / (Math.PI * 0.04)).toBeCloseTo(1, 6)
  expect(areaOf(bodies[9]) / (Math.PI * (0.25 + 0.0625))).toBeCloseTo(1, 2)
  expect(bodies[10].kind).toBe('rectangle')
})

test('a ball and a cylinder are closed and face outwards: rays from outside meet their fronts', () => {
  const { bodies, meanings } = bodiesOf(rig)
  const caster = plainCaster(bodies)
  const ball = caster.nearest([1, 1, 1], [0, 0, -1])!
  expect(meanings[ball.bodyIndex].kind).toBe('ball')
  expect(ball.fromBehind).toBe(false)
  expect(ball.distance).toBeCloseTo(0.9, 3)
  const inside = caster.nearest([1, 1, 0], [0, 0, -1])!
  expect(inside.fromBehind).toBe(true)
  expect(materialAt(meanings[inside.bodyIndex], inside, [0, 0, -1]), 'the inside of a ball is dark').toBeNull()
})

test('a thin part has two sides: a ray finds the back’s finish from behind, on a cap and on a board', () => {
  const back = { kind: 'metal', f0: [0.9, 0.9, 0.9], roughness: 0.4 } as const
  const gear = lamp.gear.map((solid) => (solid.kind === 'cylinder' ? solid : { ...solid, back }))
  const { bodies, meanings } = bodiesOf({ ...rig, surfaces: [], balls: [], sources: [{ ...lamp, gear }] })
  const caster = plainCaster(bodies)
  const met = (from: Vec3, direction: Vec3) => {
    const hit = caster.nearest(from, direction)!
    return materialAt(meanings[hit.bodyIndex], hit, direction)
  }
  const front = { kind: 'matt', albedo: GREY }
  // The board's front looks along +z, the cap's outside too: its axis.
  expect(met([1.1, 1.1, 4], [0, 0, -1])).toEqual(front)
  expect(met([1.1, 1.1, 0], [0, 0, 1])).toEqual(back)
  expect(met([0.3, 1.1, 4], [0, 0, -1])).toEqual(front)
  expect(met([0.3, 1.1, 1], [0, 0, 1])).toEqual(back)
})
