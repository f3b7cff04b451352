/** The cut across a shadow's edge that the loupe looks at, and the picture's rise held against it. */
import { expect, test } from 'vitest'
import { visibleShare } from '../../src/photometry'
import { edgeCut, fitted, shareAt } from '../../src/readings'
import { distance } from '../../src/space'
import { EDGE_M, edgeRig, WIDTH_M } from '../render/edge-rigs'

const AWAY_M = 1
const { rig, gapM } = edgeRig('uniform disc', AWAY_M, true)
const cut = edgeCut(rig)!
/** Similar triangles. */
const FULL_M = (WIDTH_M * gapM) / (AWAY_M - gapM)

test('a straight edge before an even disc: as wide as similar triangles have it, and rising as the circle’s segment grows', () => {
  expect(cut.of).toBe('flag')
  expect(cut.fullM / FULL_M).toBeCloseTo(1, 2)
  expect(cut.tenToNinetyM / cut.fullM).toBeCloseTo(0.687, 1)
  // Segment of a circle (visibleShare), exact for a disc that is small against its distance: at 1 m its rim's cosines take 1 % off.
  for (const { atM, share } of cut.rise)
    expect(Math.abs(visibleShare('disc', (2 * atM) / FULL_M) - share)).toBeLessThan(0.02)
})

test('it lies on the card, level with the flag’s edge, and its light side is under the flag, which hangs over the card’s upper half', () => {
  const [, middle] = cut.place(0)
  expect(middle).toBeCloseTo(EDGE_M, 6)
  expect(cut.place(0.01)[1]).toBeCloseTo(EDGE_M - 0.01, 4)
  expect(distance(cut.place(0), cut.place(0, 0.003))).toBeCloseTo(0.003, 6)
  expect([shareAt(cut.rise, -1), shareAt(cut.rise, 1)]).toEqual([0, 1])
  expect(shareAt(cut.rise, 0)).toBeCloseTo(0.5, 2)
})

test('a picture of that edge, over whatever light and however bright, is found to be it; a narrower one is told by its width', () => {
  const seen = (widthM: number) =>
    Array.from({ length: 121 }, (_, i) => {
      const atM = 0.75 * FULL_M * (i / 60 - 1)
      return { atM, luminance: 3 + 40 * visibleShare('disc', (2 * atM) / widthM) }
    })
  const same = fitted(seen(FULL_M), cut.rise)!
  expect(same.rms).toBeLessThan(0.01)
  expect(same.tenToNinetyM! / FULL_M).toBeCloseTo(0.687, 2)
  const narrow = fitted(seen(FULL_M / 2), cut.rise)!
  expect(narrow.rms).toBeGreaterThan(0.05)
  expect(narrow.tenToNinetyM! / same.tenToNinetyM!).toBeLessThan(0.7)
  expect(fitted([], cut.rise)).toBeNull()
  expect(
    fitted(
      seen(FULL_M).map(({ atM }) => ({ atM, luminance: 5 })),
      cut.rise,
    ),
  ).toBeNull()
})
