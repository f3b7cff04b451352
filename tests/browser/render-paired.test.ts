import { afterAll, beforeAll, expect, test } from 'vitest'
import { bodiesOf } from '../../src/meter'
import { luminanceOf } from '../../src/photometry'
import { createRayCaster } from '../../src/rays'
import { drawBatch } from '../../src/render/samples'
import type { Rig } from '../../src/rig'
import { directionToLocal, dot, normalize, subtract } from '../../src/space'
import { seenAt } from '../render/cpu-reference'
import { rigs } from '../render/rigs'
import { floatsFromBase64, type OpenPage, openPage } from './harness'

/**
 * What shadow maps alone get wrong: the very points that the picture draws, with a ray to each. Of samples that are neither
 * softened by patches nor evened out: the 641st to the 704th. render.md, "paired map error". AGREEMENT=all.
 */
const SIZE = { width: 159, height: 120 }
const STEP = 3
const [FIRST, LAST] = [640, 704]
const BATCH = 16
/** The contact of nose, brow, ear and chin with the skin that they shade. */
const CONTACT_M = 0.06

let open: OpenPage
beforeAll(async () => {
  open = await openPage('render.page.ts')
})
afterAll(() => open?.close())

interface Place {
  readonly pixel: number
  readonly light: number
  readonly isContact: boolean
}

/** Light of the same points at every third pixel's middle, but beside an outline. */
function byRays(rig: Rig): readonly Place[] {
  const { bodies, meanings } = bodiesOf(rig)
  const caster = createRayCaster(bodies)
  const [source] = rig.sources
  const lit = Array.from({ length: (LAST - FIRST) / BATCH }, (_, i) =>
    drawBatch({ source, batches: FIRST / BATCH + i, seen: { points: [], balls: [] }, sitters: null }, 1, false),
  ).flatMap(({ mapped }) => mapped)
  const at = (column: number, row: number) =>
    seenAt(
      rig.view,
      caster,
      meanings,
      (column + 0.5) / SIZE.width,
      1 - (row + 0.5) / SIZE.height,
      SIZE.height / SIZE.width,
    )
  const places: Place[] = []
  for (let row = 1; row < SIZE.height - 1; row += STEP)
    for (let column = 1; column < SIZE.width - 1; column += STEP) {
      const seen = at(column, row)
      const round = [-1, 0, 1].flatMap((x) => [-1, 0, 1].map((y) => at(column + x, row + y)))
      if (!seen || round.some((other) => other?.hit.bodyIndex !== seen.hit.bodyIndex)) continue
      let [light, isContact] = [0, false]
      for (const sample of lit) {
        const way = subtract(sample.point, seen.point)
        const towards = normalize(way)
        const cosines = Math.max(0, dot(seen.normal, towards)) * Math.max(0, -dot(sample.normal, towards))
        if (cosines === 0) continue
        const hit = caster.nearest(seen.lifted, towards)
        const isHidden = hit !== null && hit.distance < Math.hypot(...way) - 1e-4
        isContact ||= isHidden && hit.distance < CONTACT_M && meanings[seen.hit.bodyIndex]!.kind === 'figure'
        if (isHidden) continue
        const away = directionToLocal(sample.emitter.frame, [-towards[0], -towards[1], -towards[2]])
        light += (luminanceOf(sample.lit, away) * cosines * sample.weightM2) / dot(way, way) / lit.length
      }
      places.push({ pixel: row * SIZE.width + column, light: (light * seen.albedo[0]) / Math.PI, isContact })
    }
  return places
}

async function byMaps(rig: 'hard' | 'disc', tileSize: number): Promise<Float32Array> {
  const order = JSON.stringify({ ...SIZE, rig, samples: [FIRST, LAST], antialias: false, tileSize })
  const [first, last] = ((await open.page.evaluate(`tested.stages(${order})`)) as string[]).map(floatsFromBase64)
  return last!.map((value, i) => (LAST * value - FIRST * first![i]!) / (LAST - FIRST))
}

test.runIf(process.env.AGREEMENT === 'all').each([
  { rig: 'disc', tileSize: 512, all: 0.2, contact: 1.5 },
  { rig: 'hard', tileSize: 1024, all: 0.2, contact: 2.5 },
] as const)(
  '$rig at $tileSize²: maps against rays to the same points',
  async ({ rig, tileSize, all, contact }) => {
    const layer = await byMaps(rig, tileSize)
    const places = byRays(rigs[rig]())
    const mean = places.reduce((sum, { light }) => sum + light, 0) / places.length
    const rmse = (list: readonly Place[]) =>
      (100 / mean) *
      Math.sqrt(list.reduce((sum, { pixel, light }) => sum + (layer[4 * pixel]! - light) ** 2, 0) / list.length)
    const near = places.filter(({ isContact }) => isContact)
    console.log(
      `${rig}: ${rmse(places).toFixed(2)} % of ${places.length}, contact ${rmse(near).toFixed(2)} % of ${near.length}`,
    )
    expect(near.length).toBeGreaterThanOrEqual(10)
    expect(rmse(places)).toBeLessThan(all)
    expect(rmse(near)).toBeLessThan(contact)
  },
  300_000,
)
