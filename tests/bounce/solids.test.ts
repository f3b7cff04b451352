import { describe, expect, test } from 'vitest'
import { SETTLED } from '../../src/bounce'
import { bodiesOf, bounceAt } from '../../src/meter'
import { luminanceFromSrgb } from '../../src/photometry'
import { createRayCaster } from '../../src/rays'
import {
  gearGridId,
  type Material,
  placeOnSolid,
  type Rig,
  type Solid,
  type SolidSide,
  sidesOf,
  solidGrid,
} from '../../src/rig'
import { addScaled, type Vec3 } from '../../src/space'
import { board, bounceOf, discLamp, matt, rigOf, room } from './fixtures'

/** Light on balls and gear against the meter's traced paths, which share no integrator with the lists and links. */
const LISTS = { patchRays: 256, vertexRays: 256, linkEdge: 1 }
const PATHS = 16384
const SILVER: Material = { kind: 'metal', f0: [0.88, 0.88, 0.88], roughness: 0.5 }
const lamp = discLamp([0.9, 1.6, 0.6], [0, 1.2, 0])
const ball = { id: 'ball', centre: [0, 1.2, 0] as Vec3, radiusM: 0.1, material: matt(0.5) }

const withPanel = (front: Material): Rig => ({
  ...rigOf(
    [lamp],
    [...room([3.5, 2.4, 3], () => matt(0.4)), board('panel', [-0.5, 1.2, 0], [0, 1.2, 0], 0.8, 1.2, front)],
  ),
  balls: [ball],
})

interface Place {
  readonly name: string
  readonly column: number
  readonly row: number
}

/** Stops of bounce over meter at places of one solid. */
function compared(rig: Rig, gridId: string, side: SolidSide, solid: Solid, places: readonly Place[]) {
  const [source] = rig.sources
  const bounce = bounceOf(rig, LISTS)
  const light = bounce.solve(source, SETTLED)
  const grid = bounce.receivers.grids.find((entry) => entry.surfaceId === gridId && entry.side === side)!
  const bodies = bodiesOf(rig)
  const scene = { rig, bodies, caster: createRayCaster(bodies.bodies) }
  return places.map(({ name, column, row }) => {
    const { point, normal } = placeOnSolid(solid, side, column, row)
    const probe = { point: addScaled(point, normal, 0.005), normal }
    const [{ mean }] = bounceAt(scene, probe, 'disc', { paths: PATHS, sources: [source] })
    const k = 3 * (grid.first + row * grid.columns + column)
    const kept = luminanceFromSrgb([light.patches[k], light.patches[k + 1], light.patches[k + 2]])
    return { name, stops: Math.log2(kept / luminanceFromSrgb(mean)), kept }
  })
}

describe('a ball', () => {
  // halfU is +x, columns go round +y from there, to −z first; so column 12 looks at the panel, column 18 at the camera.
  const places = [
    { name: 'panel side', column: 12, row: 6 },
    { name: 'key side', column: 0, row: 6 },
    { name: 'front', column: 18, row: 6 },
    { name: 'back', column: 6, row: 6 },
    { name: 'top', column: 3, row: 12 },
    { name: 'underside', column: 12, row: 2 },
  ]
  test.each([
    ['white', matt(0.85), 0.05],
    ['silver', SILVER, 0.08],
  ] as const)('beside a %s panel, 256 rays a place', (_, front, bar) => {
    const rows = compared(withPanel(front), 'ball', 'front', { kind: 'ball', ...ball }, places)
    for (const { name, stops } of rows) expect(Math.abs(stops), `${name} ${stops}`).toBeLessThan(bar)
    const at = (name: string) => rows.find((row) => row.name === name)!.kept
    expect(at('panel side')).toBeGreaterThan(1.5 * at('key side'))
  })
})

describe('gear of another source', () => {
  const grey = [0.3, 0.3, 0.3] as const
  const cloth: Solid = {
    kind: 'cap',
    rimCentre: [-0.6, 1.3, 0.4],
    axis: [0.8, 0, 0.6],
    diameterM: 0.95,
    depthM: 0.2,
    albedo: grey,
  }
  const body: Solid = { kind: 'cylinder', from: [0.2, 0.9, -0.6], to: [0.2, 1.2, -0.6], radiusM: 0.07, albedo: grey }
  const board: Solid = {
    kind: 'rectangle',
    rect: { centre: [0.4, 0.6, 0.5], halfU: [0.2, 0, 0], halfV: [0, 0, 0.2] },
    albedo: grey,
  }
  const geared = { ...discLamp([-0.6, 1.3, 0.4], [0, 1.2, 0], { id: 'B' }), gear: [cloth, body, board] }
  const rig = rigOf(
    [lamp, geared],
    room([3.5, 2.4, 3], (name) => matt(name === 'left' ? 0.8 : 0.4)),
  )

  // 256 rays a place scatter by some 3 %, and places stand 7 mm off an umbrella's cloth: its facets.
  test.each([
    ['cloth', 0, cloth],
    ['body', 1, body],
    ['board', 2, board],
  ] as const)('%s: within 0.08 stop on each side', (_, number, solid) => {
    const { columns, rows } = solidGrid(solid)
    const middle = { name: 'middle', column: Math.floor(columns / 2), row: Math.floor(rows / 2) }
    const corner = { name: 'corner', column: 0, row: rows - 1 }
    for (const side of sidesOf(solid))
      for (const { name, stops } of compared(rig, gearGridId('B', number), side, solid, [middle, corner]))
        expect(Math.abs(stops), `${side} ${name} ${stops}`).toBeLessThan(0.08)
  })
})

test('the two sides of a cloth send back what falls on each: a white inside lights the room, a black outside does not', () => {
  const cap = { kind: 'cap', rimCentre: [-0.6, 1.3, 0.1], axis: [-1, 0, 0], diameterM: 0.95, depthM: 0.2 } as const
  const black = [0.04, 0.04, 0.04] as const
  const whiteInside = { ...cap, albedo: black, back: { kind: 'matt', albedo: [0.8, 0.8, 0.8] } } as const
  const onFloor = (gear: typeof whiteInside | (typeof cap & { albedo: typeof black })) => {
    const other = { ...discLamp([-0.6, 1.3, 0.1], [0, 1.2, 0], { id: 'B' }), gear: [gear] }
    const bounce = bounceOf(
      rigOf(
        [lamp, other],
        room([3.5, 2.4, 3], () => matt(0)),
      ),
      LISTS,
    )
    const [floor] = bounce.receivers.grids
    return bounce
      .solve(lamp)
      .patches.slice(0, 3 * floor.columns * floor.rows)
      .reduce((sum, e) => sum + e, 0)
  }
  // In a black room all bounced light comes off the cloth, and to the second order with its exchange with itself.
  const ratio = onFloor(whiteInside) / onFloor({ ...cap, albedo: black })
  expect(ratio).toBeGreaterThan(0.8 / 0.04)
  expect(ratio).toBeLessThan((1.3 * 0.8) / 0.04)
})
