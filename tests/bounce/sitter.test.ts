import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { bounceScene, createBounce, finish, SETTLED, SETTLED_LISTS } from '../../src/bounce'
import { layOut } from '../../src/bounce/layout'
import { castLists, elementStart, shotsFrom } from '../../src/bounce/lists'
import { vertexShots } from '../../src/bounce/shots'
import { solveRadiosity } from '../../src/bounce/solve'
import { spreadPlan, vertexReceivers } from '../../src/bounce/vertices'
import { type LandmarkName, readFigureAsset } from '../../src/figure'
import { arrivalsAt, bodiesOf, bounceAt, type MeterScene, received } from '../../src/meter'
import { createRayCaster } from '../../src/rays'
import { assembleRig } from '../../src/rig'
import { firstSitting } from '../../src/sitting'
import { distance, dot, type Vec3 } from '../../src/space'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const rig = assembleRig(firstSitting(), { figure })
const scene = bounceScene(rig)
const caster = createRayCaster(scene.bodies)
const bounce = createBounce(scene, caster, SETTLED_LISTS)

test('the sculpted sitter: 0.94 of the rays from places that are not hidden end outside of it', () => {
  const { patches, clusters, vertices } = bounce.validShares
  expect(patches).toBeGreaterThan(0.99)
  // Two looks that agree tell what is hidden, and leave slivers along the collar and under the hair.
  expect(clusters).toBeGreaterThan(0.94)
  expect(vertices).toBeGreaterThan(0.96)
})

test('light spreads from lock to lock of hair on one side of it, and over nothing else', () => {
  const receivers = vertexReceivers(scene, layOut(scene, caster), vertexShots(scene, caster))
  const hair = receivers.figures.flatMap(({ parts }) => parts).find(({ name }) => name === 'hair')!
  const plan = spreadPlan(receivers)
  expect(plan.length).toBeGreaterThan(0.7 * hair.vertexOf.length)
  for (const { row, from } of plan) {
    for (const one of [row, ...from]) expect(one >= hair.first && one < hair.first + hair.vertexOf.length).toBe(true)
    for (const other of from)
      expect(dot(receivers.startOf(row)!.normal, receivers.startOf(other)!.normal)).toBeGreaterThan(0.49)
  }
})

test('furnace with the sitter in it, ρ 0.9: B = 1 ± 0.001', () => {
  const layout = layOut(scene, caster)
  const lists = finish(castLists(layout.elements.length, 32, shotsFrom(elementStart(layout), caster), layout, caster))
  const rho = new Float32Array(3 * layout.elements.length).fill(0.9)
  const { radiosity } = solveRadiosity(
    lists,
    rho,
    rho.map((r) => 1 - r),
  )
  for (let k = 0; k < rho.length; k++)
    if (lists.valid[Math.floor(k / 3)] > 0) expect(Math.abs(radiosity[k] - 1)).toBeLessThan(0.001)
})

/** Smooth places of the skin, where a dense mesh and its proxy have one normal. A pixel's light lies between three vertices: so does a place's. */
const PLACES: readonly LandmarkName[] = ['foreheadCentre', 'cheekLeft', 'cheekRight', 'chin', 'neckFront']

describe('a white panel at 0.6 m on the shadow side: against paths traced by the meter on the full mesh, which knows no patches', () => {
  const bodies = bodiesOf(rig)
  const meter: MeterScene = { rig, bodies, caster: createRayCaster(bodies.bodies) }
  const source = rig.sources[0]
  const light = bounce.solve(source, SETTLED)
  const skin = rig.figures[0].posed.parts.find(({ name }) => name === 'skin')!
  const receivers = bounce.receivers.figures[0].parts.find(({ name }) => name === 'skin')!
  const at = (values: Float32Array, i: number): Vec3 => [values[3 * i], values[3 * i + 1], values[3 * i + 2]]

  test('the panel stands near and needs no points', () => {
    expect(rig.surfaces.filter(({ kind }) => kind === 'panel').length).toBe(1)
    expect(light.points).toEqual([])
  })

  test('stops of the total light at smooth places: mean within 0.015, none beyond 0.06, or 0.1 where most of it is bounced', () => {
    const off = PLACES.map((name) => {
      const { position } = rig.figures[0].posed.landmarks[name]
      const away = (i: number) => distance(at(skin.mesh.positions, receivers.vertexOf[i]), position)
      const nearest = [...receivers.vertexOf.keys()].sort((a, b) => away(a) - away(b)).slice(0, 3)
      const lit = nearest.map((i) => {
        const vertex = receivers.vertexOf[i]
        const normal = at(skin.mesh.normals, vertex)
        const p = at(skin.mesh.positions, vertex)
        const probe = {
          point: [p[0] + 5e-4 * normal[0], p[1] + 5e-4 * normal[1], p[2] + 5e-4 * normal[2]] as Vec3,
          normal,
        }
        const direct = received(arrivalsAt(meter, source, probe.point), normal, 'disc')
        const [traced] = bounceAt(meter, probe, 'disc', { paths: 4096, sources: [source] })
        return { direct, traced: traced.mean[1], listed: light.vertices[3 * (receivers.first + i) + 1] }
      })
      const sum = (of: keyof (typeof lit)[number]) => lit.reduce((total, one) => total + one[of], 0)
      const stops = Math.log2((sum('direct') + sum('listed')) / (sum('direct') + sum('traced')))
      expect(Math.abs(stops), name).toBeLessThan(sum('traced') > sum('direct') ? 0.1 : 0.06)
      return stops
    })
    expect(off.reduce((sum, stops) => sum + Math.abs(stops), 0) / off.length).toBeLessThan(0.015)
  })
})
