import { describe, expect, test } from 'vitest'
import { bounceAt, directAt, edgeSpread } from '../../src/meter'
import { gridOf, piecesOf } from '../../src/meter/pieces'
import { luminanceFromSrgb } from '../../src/photometry'
import type { Emitter, Material } from '../../src/rig'
import { addScaled, normalize, scale, subtract, type Vec3 } from '../../src/space'
import { board, matt } from '../bounce/fixtures'
import { BOX_CHECKS } from '../photometry/profiles/boxes'
import { CANOPY_CHECKS } from '../photometry/profiles/canopies'
import { RECORDS } from '../photometry/profiles/check'
import { FLAT_CHECKS } from '../photometry/profiles/flat'
import { measuresBy } from '../photometry/profiles/measure'
import {
  CHEEK,
  KEY,
  OTHER_CHEEK,
  panelCentre,
  panelTurned,
  round,
  silverPanel,
  whitePanel,
} from '../photometry/profiles/panels'
import { sourceOf, UNMETERED } from '../rig/alone'
import { rigOf, sceneOf, sourceAt } from './fixtures'

/**
 * shared/emission-values.json through the meter itself: its own pieces, its own refinement, its own edges. Each record's own
 * tolerance, as in tests/photometry/profiles, whose comparisons these are; where the figures come from: shared/emission-values.md.
 */
const CHECKS = [...CANOPY_CHECKS, ...BOX_CHECKS, ...FLAT_CHECKS]

const ACROSS: Vec3 = [1, 0, 0]

const BY_METER = measuresBy({
  irradiance: (emission, point, normal) =>
    directAt(sceneOf(rigOf([sourceOf(emission)])), { point, normal }, 'disc')[0]!.perCandela,
  arrivals: (emission, at, n = 64) =>
    piecesOf(emission, at, gridOf(emission, n)).flatMap((piece) =>
      piece ? [{ point: piece.point, towards: scale(piece.direction, -1), facing: piece.strength / n ** 2 }] : [],
    ),
  edge(emission, at) {
    const { full, tenToNinety } = edgeSpread(sourceOf(emission), at, ACROSS)!
    return { fullPerGap: full, tenToNinetyPerGap: tenToNinety }
  },
})

const metered = RECORDS.filter(({ id }) => !UNMETERED.test(id) && !id.startsWith('EMIT-PANEL'))

test('all but what no meter reads is asked for', () => expect(metered.length).toBe(54))

describe('by the meter', () => {
  test.each(metered)('$id', (record) => {
    const check = CHECKS.find(([pattern]) => pattern.test(record.id))?.[1]
    const comparisons = check?.(record, BY_METER) ?? []
    expect(comparisons.length, 'a check that compares nothing').toBeGreaterThan(0)
    const off = comparisons.filter(({ got, expected, tolerance }) => !(Math.abs(got - expected) <= tolerance))
    expect(off).toEqual([])
  })
})

/** A key that throws alike to all sides, small, and the panel alone with it: the meter traces what comes back. */
function panelByMeter(distanceM: number, yaw: number, front: Material): number {
  const key = sourceAt('A', { shape: 'disc', radiusM: 0.005 }, KEY, [0, 0, 0])
  const [{ frame, emission }] = key.emitters as [Emitter]
  const even = { ...emission, luminance: (_: unknown, way: Vec3) => 1 / Math.max(0.05, way[2]) }
  const source = { ...key, emitters: [{ id: 'A.front', frame, emission: even, part: 'front' as const }] }
  const centre = panelCentre(distanceM)
  const scene = sceneOf(rigOf([source], [board('panel', centre, addScaled(centre, round(yaw), 1), 1, 1, front)]))
  const lit = { point: OTHER_CHEEK, normal: normalize(subtract(KEY, OTHER_CHEEK)) }
  const [bounced] = bounceAt(scene, { point: CHEEK, normal: round(-60) }, 'disc', { paths: 8192 })
  return Math.log2(luminanceFromSrgb(bounced!.mean) / directAt(scene, lit, 'disc')[0]!.perCandela)
}
const WHITE = { finish: whitePanel, front: matt(0.85) }
const silver = (roughness: number) => ({
  finish: silverPanel(roughness),
  front: { kind: 'metal', f0: [0.88, 0.88, 0.88], roughness } as const,
})
const recorded = (id: string) => RECORDS.find((record) => record.id === id)!.expected

test.each([
  ...[WHITE, silver(0.3), silver(0.5)].map((panel, i) => [0.6, panel, recorded('EMIT-PANEL')[i]] as const),
  ...[WHITE, silver(0.3)].flatMap((panel, i) =>
    [0.4, 0.8, 1, 1.2].map((d, j) => [d, panel, recorded('EMIT-PANEL-DIST')[i][j === 0 ? 0 : j + 1]] as const),
  ),
])('EMIT-PANEL at %f m, %o: %f', (distanceM, { finish, front }, stops) => {
  const { yaw } = panelTurned(distanceM, finish)
  expect(Math.abs(panelByMeter(distanceM, yaw, front) - stops)).toBeLessThanOrEqual(0.05)
})
