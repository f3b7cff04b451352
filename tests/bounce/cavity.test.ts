import { describe, expect, test } from 'vitest'
import { bounceScene, finish, SETTLED, SETTLED_LISTS, TURNING } from '../../src/bounce'
import { directIrradiance, litPools } from '../../src/bounce/direct'
import { pointOfElement } from '../../src/bounce/elements'
import { layOut } from '../../src/bounce/layout'
import { castLists, elementStart, shotsFrom } from '../../src/bounce/lists'
import { coatsOf } from '../../src/bounce/materials'
import { mirrorSides } from '../../src/bounce/mirror'
import { solveRadiosity } from '../../src/bounce/solve'
import { createRayCaster } from '../../src/rays'
import { mirrorOf, type Rig } from '../../src/rig'
import { areaMean, ballFigure, board, bounceOf, discLamp, matt, rigOf, room } from './fixtures'

const SIZE = [3.5, 2.4, 3] as const

function system(rig: Rig, patchRays: number) {
  const scene = bounceScene(rig)
  const caster = createRayCaster(scene.bodies)
  const layout = layOut(scene, caster)
  const lists = finish(
    castLists(layout.elements.length, patchRays, shotsFrom(elementStart(layout), caster), layout, caster),
  )
  return { scene, caster, layout, lists, coats: coatsOf(scene, layout) }
}

describe.each([0.5, 0.9])(
  'furnace: everything sends 1 − ρ and reflects ρ %d, so the radiosity is 1 everywhere',
  (rho) => {
    const rig = rigOf(
      [],
      [...room(SIZE, () => matt(rho)), board('panel', [-0.7, 1.2, 0.3], [0, 1.2, 0], 0.8, 1.2, matt(rho))],
      [ballFigure([0, 1.2, 0], 0.2, rho)],
    )
    const { lists, coats, layout } = system(rig, 64)
    const { radiosity } = solveRadiosity(
      lists,
      coats.reflectance,
      coats.reflectance.map((r) => 1 - r),
    )

    test('B = 1 ± 0.001', () => {
      for (let k = 0; k < 3 * layout.elements.length; k++) expect(Math.abs(radiosity[k] - 1)).toBeLessThan(0.001)
    })

    test('and not only because the mean is taken over valid rays: of all rays at least 0.97 are', () => {
      const valid = lists.valid.reduce((sum, n) => sum + n, 0) / (lists.rays * lists.valid.length)
      expect(valid).toBeGreaterThan(0.97)
    })
  },
)

test('an open side is black: with one wall gone the furnace cools', () => {
  const rig = rigOf([], room(SIZE, () => matt(0.9)).slice(0, 5))
  const { lists, coats } = system(rig, 64)
  const { radiosity } = solveRadiosity(
    lists,
    coats.reflectance,
    coats.reflectance.map((r) => 1 - r),
  )
  expect(radiosity[0]).toBeLessThan(0.9)
})

// Flux balance of a closed cavity of one reflectance: (1 − ρ)·Ē·A = Φ, so the indirect mean is Φ/A · ρ/(1 − ρ), whatever
// its shape (sphere multiplier, e.g. CIE 84:1989).
test.each([0.3, 0.6, 0.9])('closed cavity, ρ %d: area mean of the bounced light = Φ/A · ρ/(1 − ρ)', (rho) => {
  const lamp = discLamp([0.8, 1.9, 0.6], [0, 1.2, 0])
  const rig = rigOf(
    [lamp],
    room(SIZE, () => matt(rho)),
  )
  const bounce = bounceOf(rig, { patchRays: 128, vertexRays: 32, linkEdge: 1 })
  const { patches } = bounce.solve(lamp, SETTLED)
  const [w, h, d] = SIZE
  const area = 2 * (w * h + w * d + h * d)
  const truth = (lamp.emitters[0].emission.flux / area) * (rho / (1 - rho))
  expect(areaMean(bounce, rig, patches) / truth).toBeGreaterThan(0.99)
  expect(areaMean(bounce, rig, patches) / truth).toBeLessThan(1.01)
})

test('what is absorbed is what was sent: 1 ± 0.003, in a room of mixed paint with a panel and a sitter', () => {
  const lamp = discLamp([0.8, 1.9, 0.6], [0, 1.2, 0])
  const paint: Record<string, number> = { floor: 0.25, ceiling: 0.8, left: 0.6, right: 0.4, back: 0.6, front: 0.5 }
  const rig = rigOf(
    [lamp],
    [...room(SIZE, (name) => matt(paint[name])), board('panel', [-0.7, 1.2, 0.3], [0, 1.2, 0], 0.8, 1.2, matt(0.85))],
    [ballFigure([0, 1.2, 0], 0.2, 0.5)],
  )
  const { lists, coats, layout, caster } = system(rig, 256)
  const pools = litPools(lamp)
  const direct = layout.elements.map((element, i) =>
    directIrradiance(pools, i, 64, (u, v) => pointOfElement(element, u, v), caster, undefined),
  )
  const { arrived } = solveRadiosity(
    lists,
    coats.reflectance,
    coats.reflectance.map((rho, k) => rho * direct[Math.floor(k / 3)]),
  )
  const absorbed = layout.elements.reduce(
    (sum, { areaM2 }, i) => sum + areaM2 * (1 - coats.reflectance[3 * i]) * (direct[i] + arrived[3 * i]),
    0,
  )
  expect(Math.abs(absorbed / lamp.emitters[0].emission.flux - 1)).toBeLessThan(0.003)
})

test('and with a mirror of 0.88 in the room, which throws the lamp and shows the rest: 1 ± 0.003', () => {
  const lamp = discLamp([0.8, 1.9, 0.6], [0, 1.2, 0])
  const paint: Record<string, number> = { floor: 0.25, ceiling: 0.8, left: 0.6, right: 0.4, back: 0.6, front: 0.5 }
  const smooth = { kind: 'metal', f0: [0.88, 0.88, 0.88], roughness: 0 } as const
  const rig = rigOf(
    [lamp],
    [...room(SIZE, (name) => matt(paint[name])), board('mirror', [-0.7, 1.2, 0.3], [0.4, 1.4, 0.2], 0.8, 1.2, smooth)],
    [ballFigure([0, 1.2, 0], 0.2, 0.5)],
  )
  const { lists, coats, layout, caster } = system(rig, 256)
  const pools = litPools(lamp)
  const mirror = mirrorOf(rig)!
  const shone = layout.elements.map((element, i) => {
    const from = (by: typeof mirror | null) =>
      directIrradiance(pools, i, 64, (u, v) => pointOfElement(element, u, v), caster, undefined, by)
    return { direct: from(null), thrown: layout.mirrors.has(i) ? 0 : 0.88 * from(mirror) }
  })
  const { arrived } = solveRadiosity(
    lists,
    coats.reflectance,
    coats.reflectance.map((rho, k) => rho * (shone[Math.floor(k / 3)].direct + shone[Math.floor(k / 3)].thrown)),
    { mirrors: mirrorSides(rig) },
  )
  const fluxOf = (value: (i: number) => number) =>
    layout.elements.reduce((sum, { areaM2 }, i) => sum + areaM2 * value(i), 0)
  const { flux } = lamp.emitters[0].emission
  const absorbed = fluxOf((i) => (1 - coats.reflectance[3 * i]) * (shone[i].direct + shone[i].thrown + arrived[3 * i]))
  expect(Math.abs(absorbed / flux - 1)).toBeLessThan(0.003)
  expect(fluxOf((i) => shone[i].thrown) / flux, 'a good part goes over the mirror').toBeGreaterThan(0.05)
})

test('two parallel unit squares 1 m apart see 0.19982 of each other (Howell catalogue C-11)', () => {
  const facing = (z: number, id: string) => board(id, [0, 1.2, z], [0, 1.2, 0], 1, 1, matt(0))
  const { layout, lists } = system(rigOf([], [facing(0.5, 'a'), facing(-0.5, 'b')]), 1024)
  const grid = (id: string) => layout.grids.find(({ surfaceId, side }) => surfaceId === id && side === 'front')!
  const [a, b] = [grid('a'), grid('b')]
  const size = a.columns * a.rows
  const rows = lists.hits.subarray(a.first * lists.rays, (a.first + size) * lists.rays)
  const share = rows.filter((hit) => hit >= b.first && hit < b.first + size).length / rows.length
  // 65,536 rays of chance 0.2: one standard deviation is 0.8 % of it, and even points do better.
  expect(Math.abs(share / 0.19982 - 1)).toBeLessThan(0.008)
})

test('more rays move the answer little: coarse lists for turning stay within 3 % on the mean', () => {
  const lamp = discLamp([0.8, 1.9, 0.6], [0, 1.2, 0])
  const rig = rigOf(
    [lamp],
    room(SIZE, () => matt(0.6)),
    [ballFigure([0, 1.2, 0], 0.2, 0.5)],
  )
  const mean = (bounce: ReturnType<typeof bounceOf>) =>
    bounce.solve(lamp).vertices.reduce((sum, e) => sum + e, 0) / bounce.receivers.vertexCount
  expect(Math.abs(mean(bounceOf(rig, TURNING)) / mean(bounceOf(rig, SETTLED_LISTS)) - 1)).toBeLessThan(0.03)
})
