import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { bodiesOf, bounceAt } from '../../src/meter'
import { createRayCaster } from '../../src/rays'
import { createRigBuilder, type Surface } from '../../src/rig'
import { addVFlat, firstSitting, type Panel, setPanel } from '../../src/sitting'
import { add, cross, dot, length, normalize, scale, subtract, type Vec3 } from '../../src/space'

const figure = readFigureAsset(new Uint8Array(readFileSync(new URL('../../assets/sitter.glb', import.meta.url))))
const build = createRigBuilder({ figure })
const { sitting, id } = addVFlat({ ...firstSitting(), panels: [] })
const changed = (change: Partial<Panel>) => build(setPanel(sitting, id, change))
const leavesOf = (surfaces: readonly Surface[]) => surfaces.filter((surface) => (surface.of ?? surface.id) === id)
const normalOf = ({ rect }: Surface): Vec3 => normalize(cross(rect.halfU, rect.halfV))

test('two leaves of half the width meet at the hinge, turned towards each other by the fold', () => {
  const [left, right] = leavesOf(changed({ turnDeg: 30, tiltDeg: 10, foldDeg: 70, widthM: 2.4 }).surfaces)
  const { centreM } = sitting.panels[0]
  const inner = [add(left.rect.centre, left.rect.halfU), subtract(right.rect.centre, right.rect.halfU)]
  for (const edge of inner) expect(length(subtract(edge, centreM as Vec3))).toBeLessThan(1e-9)
  for (const { rect } of [left, right]) expect(2 * length(rect.halfU)).toBeCloseTo(1.2)
  expect((Math.acos(dot(normalOf(left), normalOf(right))) * 180) / Math.PI).toBeCloseTo(70)
  // Towards the front: what stands before the hinge sees both fronts.
  const before = add(centreM as Vec3, scale(normalize(add(normalOf(left), normalOf(right))), 0.5))
  for (const leaf of [left, right]) expect(dot(normalOf(leaf), subtract(before, leaf.rect.centre))).toBeGreaterThan(0)
})

test('unfolded it is one board, and its back is as its front unless it has its own', () => {
  const flat = leavesOf(changed({ foldDeg: 0, back: undefined }).surfaces)
  expect(flat).toHaveLength(1)
  expect(flat[0].back).toEqual(flat[0].front)
  const [leaf] = leavesOf(build(sitting).surfaces)
  expect(leaf.front).toMatchObject({ albedo: [0.85, 0.85, 0.85] })
  expect(leaf.back).toMatchObject({ albedo: [0.04, 0.04, 0.04] })
})

test('in its fold a leaf sees of the other F = 1 − sin ½θ (long wedge, Howell catalogue C-16), θ the opening', () => {
  // A glowing leaf stands for light: what a place on the other gets, summed over it, is π L F. Long leaves, so 3 % of ends.
  const foldDeg = 90
  const tall = { widthM: 0.4, heightM: 4, foldDeg, centreM: [-1, 5, 0] as const }
  const rig = changed(tall)
  const [left, right] = leavesOf(rig.surfaces)
  const places = 4000
  let seen = 0
  const caster = createRayCaster(bodiesOf({ ...rig, sources: [], figures: [], balls: [], surfaces: [right] }).bodies)
  const random = (i: number, k: number) =>
    (((i * [0.7548776662, 0.5698402909, 0.8191725134, 0.671043606][k]) % 1) + 1) % 1
  for (let i = 1; i <= places; i++) {
    const { centre, halfU, halfV } = left.rect
    const n = normalOf(left)
    const at = add(centre, add(scale(halfU, 2 * random(i, 0) - 1), scale(halfV, 2 * random(i, 1) - 1)))
    const [sine, phi] = [Math.sqrt(random(i, 2)), 2 * Math.PI * random(i, 3)]
    const [u, v] = [normalize(halfU), normalize(halfV)]
    const way = add(
      scale(n, Math.sqrt(1 - sine * sine)),
      add(scale(u, sine * Math.cos(phi)), scale(v, sine * Math.sin(phi))),
    )
    if (caster.nearest(add(at, scale(n, 1e-6)), way)) seen++
  }
  const opening = Math.PI - (foldDeg * Math.PI) / 180
  expect(Math.abs(seen / places / (1 - Math.sin(opening / 2)) - 1)).toBeLessThan(0.08)
})

test('its white hollow sends light on, its black outside does not', () => {
  const at = (turnDeg: number) => {
    const rig = changed({ turnDeg, centreM: [-0.9, 1.2, 0.1] })
    const bodies = bodiesOf(rig)
    const scene = { rig, bodies, caster: createRayCaster(bodies.bodies) }
    const probe = { point: [-0.12, 1.15, 0.08] as Vec3, normal: [-1, 0, 0] as Vec3 }
    const [{ sent }] = bounceAt(scene, probe, 'disc', { paths: 1024 })
    return sent.boards[1]
  }
  expect(at(90)).toBeGreaterThan(8 * at(-90))
})
