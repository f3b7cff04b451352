import { afterAll, beforeAll, expect, test } from 'vitest'
import { edgeSpread } from '../../src/meter'
import { aboveEdgeM, type EdgeSourceName, edgeRig, WIDTH_M } from '../render/edge-rigs'
import { type OpenPage, openPage } from './harness'

/**
 * The edge of a shadow as it stands in the picture: a flag 25 mm before a card, source and lens square to both. From 10
 * to 90 % of the light with the flag over the light without it.
 */
/** Worst met: 3.5 %, white umbrella at 0.75 m; 2 % of it is that the reading looks from the edge and the picture from the card. */
const TOLERANCE = 0.05

let open: OpenPage
beforeAll(async () => {
  open = await openPage('shadow-edge.page.ts')
})
afterAll(() => open?.close())

interface Seen {
  readonly share: number
  readonly heightM: number
}

async function widthInPicture(name: EdgeSourceName, distanceM: number): Promise<number> {
  const rows = (await open.page.evaluate(`tested.profile(${JSON.stringify(name)}, ${distanceM})`)) as number[]
  // Higher up the lens sees the flag in place of the card.
  const seen = rows
    .map((share, row): Seen => ({ share, heightM: aboveEdgeM(row) }))
    .filter(({ heightM }) => Math.abs(heightM) < 0.0215)
  expect(seen[0].share, 'full shadow').toBeLessThan(0.03)
  expect(seen[seen.length - 1].share, 'full light').toBeGreaterThan(0.97)
  return placeOf(seen, 0.1) - placeOf(seen, 0.9)
}

/** Where the light passes a level. Noise may let it pass more than once: then midway between first and last. */
function placeOf(seen: readonly Seen[], level: number): number {
  const places = seen.slice(1).flatMap((below, i) => {
    const above = seen[i]
    if (above.share < level === below.share < level) return []
    const part = (level - above.share) / (below.share - above.share)
    return [above.heightM + (below.heightM - above.heightM) * part]
  })
  return (places[0] + places[places.length - 1]) / 2
}

const off = (width: number, expected: number): number => Math.abs(width / expected - 1)

/**
 * Share of w = W·b/a from 10 to 90 %: closed forms for a source that is small against its distance; at 0.75 m the cosines
 * of its rim take 2 % off. Millimetres: canopies 0.95 m wide and 0.209 m deep, computed by a program of its own, to 3 %.
 */
const CASES: readonly (readonly [EdgeSourceName, number, { readonly share?: number; readonly traced?: number }])[] = [
  ['uniform disc', 0.75, { share: 0.687 }],
  ['uniform disc', 1, { share: 0.687 }],
  ['uniform disc', 1.5, { share: 0.687 }],
  ['uniform square', 0.75, { share: 0.8 }],
  ['uniform square', 1, { share: 0.8 }],
  ['uniform square', 1.5, { share: 0.8 }],
  ['silver umbrella', 0.75, {}],
  ['silver umbrella', 1, { traced: 12.9 }],
  ['silver umbrella', 1.5, {}],
  ['white umbrella', 0.75, { traced: 19.0 }],
  ['white umbrella', 1, { traced: 13.6 }],
  ['white umbrella', 1.5, { traced: 8.8 }],
  ['shoot-through umbrella', 0.35, { traced: 23.0 }],
  ['shoot-through umbrella', 0.5, { traced: 17.9 }],
  ['shoot-through umbrella', 1, { traced: 10.2 }],
]

test.each(CASES)('%s at %f m', async (name, distanceM, { share, traced }) => {
  const { rig, gapM, edge } = edgeRig(name, distanceM, true)
  const width = await widthInPicture(name, distanceM)
  const spread = edgeSpread(rig.sources[0], edge, [0, 1, 0])
  if (!spread) throw new Error('no light over the edge')
  expect(off(width, spread.tenToNinety * gapM), 'the reading').toBeLessThan(TOLERANCE)
  if (traced) expect(off(width, traced / 1000), 'traced').toBeLessThan(TOLERANCE)
  const full = (WIDTH_M * gapM) / (distanceM - gapM)
  if (share) expect(off(width, share * full), 'closed form').toBeLessThan(TOLERANCE)
})

/** shared/check-values.json SHA-SUN-RATIO: the full edge is a 107.4th of the gap; of an even disc 0.687 of it is 10 to 90 %. */
test('the sun', async () => {
  const { rig, gapM, edge } = edgeRig('sun', 2, true)
  const spread = edgeSpread(rig.sources[0], edge, [0, 1, 0])
  expect(off(spread!.full, 1 / 107.417)).toBeLessThan(0.002)
  const width = await widthInPicture('sun', 2)
  expect(off(width, (0.687 * gapM) / 107.417)).toBeLessThan(TOLERANCE)
})
