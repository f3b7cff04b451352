import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { noseGapM } from '../../src/readings'
import { firstSitting, readSitting, type Source, setRoom, setSourcePlace, writeSitting } from '../../src/sitting'
import { inputOf, lamp, setOf, take } from './set'

const record = (id: string) =>
  JSON.parse(readFileSync('shared/check-values.json', 'utf8')).find((one: { id: string }) => one.id === id)
const { one_over: GAPS_AN_EDGE } = record('SHA-SUN-RATIO').expected

const sunAt = (az: number, el: number, change: Partial<Source> = {}, illuminanceLx = 64_000): Source => {
  const source = lamp('A', { az, el, d: 2, modifier: { kind: 'sun', illuminanceLx }, ...change })
  return { ...source, head: { ...source.head, powerStops: 0 } }
}
const { room: dark } = setOf([])
const outdoors = { room: { ...dark, outdoors: true }, reExpose: 'nothing' as const }
const camera = { ...firstSitting().camera, iso: 100, shutterS: 1 / 100 }

describe('the sun', () => {
  /** EXP-SUNNY16: at ISO 100 and 1/100 s, 64,000 lx read f/16 by C = 250. */
  test('sunny 16', () => {
    const { E_lx_C250 } = record('EXP-SUNNY16').expected
    const { value } = take(setOf([sunAt(40, 45, {}, E_lx_C250)], { ...outdoors, camera }))
    expect(Math.abs(value('exposure.nearCheek.disc.light') / 16 - 1)).toBeLessThan(0.003)
  })

  /** SHA-SUN-RATIO: the edge of its shadow is a 107.4th of the gap. */
  test.each([
    [40, 45],
    [60, 20],
  ])('%i° round and %i° up: the nose’s edge', (az, el) => {
    const sitting = setOf([sunAt(az, el)], outdoors)
    const { rig } = inputOf(sitting)
    const { value, of } = take(sitting)
    const gapMm = 1000 * noseGapM(rig.figures[0].posed, rig.sources[0])!
    expect(
      Math.abs((value('edge.A.nose.full') * GAPS_AN_EDGE) / gapMm - 1),
      of('edge.A.nose.full').why.filled,
    ).toBeLessThan(0.01)
    // An even disc: 0.687 of the width lies between 10 and 90 % (SHA-1090).
    expect(value('edge.A.nose.tenToNinety') / value('edge.A.nose.full')).toBeCloseTo(0.687, 1)
  })

  test('it is 0.53° wide from everywhere, and as bright 2 m nearer to it within a hundredth of a stop', () => {
    const places = [-1, 1].map((z) => ({
      ...{ id: `p${z}`, name: 'free', at: { pointM: [1.5, 1.2, z] as [number, number, number] } },
      ...{ receptor: 'disc' as const, facing: 'light' as const },
    }))
    const { value } = take(setOf([sunAt(0, 10)], { ...outdoors, camera, meterPlaces: places }))
    expect(value('source.A.apparentWidth')).toBeCloseTo(record('SHA-SUN-ANGLE').expected, 2)
    expect(Math.abs(2 * Math.log2(value('place.p1') / value('place.p-1')))).toBeLessThan(0.01)
    expect(Math.abs(value('source.A.falloff'))).toBeLessThan(0.01)
  })

  test('azimuth and elevation are those that were set, seen from its aim; its mark keeps its distance', () => {
    const sitting = setOf([sunAt(10, 10)], outdoors)
    const { rig } = inputOf(sitting)
    const marks = { eyePoint: [0, 9, 0], cheekLeft: [0, 1, 0], cheekRight: [0, 1, 0], crown: [0, 1, 0] } as const
    const moved = setSourcePlace(sitting, 'source-A', { azimuthFromLensDeg: -55, elevationDeg: 30 }, marks)
    const [before, after] = [sitting, moved].map(({ sources: [{ centreM, aimM }] }) =>
      Math.hypot(...centreM.map((c, i) => c - aimM[i])),
    )
    expect(after).toBeCloseTo(before, 9)
    const { value } = take(moved)
    expect(value('source.A.azimuthFromLens')).toBeCloseTo(-55, 0)
    expect(value('source.A.elevation')).toBeCloseTo(30, 0)
    expect(rig.sources[0].remote?.kind).toBe('far')
  })

  test('walls and ceiling keep it out, and so does the ground; both are told', () => {
    const indoors = take(setOf([sunAt(40, 45)], { room: dark }))
    expect(indoors.of('exposure.nearCheek.disc.light').value).toBeNull()
    expect(indoors.cautions.map(({ id }) => id)).toContain('caution.A.indoors')
    const set = take(setOf([sunAt(40, -20)], outdoors))
    expect(set.of('exposure.nearCheek.disc.light').value).toBeNull()
    expect(set.cautions.map(({ id }) => id)).toContain('caution.A.set')
    const right = take(setOf([sunAt(40, 45)], { ...outdoors, camera: { ...camera, fNumber: 16 } }))
    expect(right.cautions.filter(({ id }) => /walls|stand|ceiling|overhead|indoors|set$/.test(id))).toEqual([])
  })

  test('it has no dial: an exposure that asks for less of it is told', () => {
    const { cautions } = take(
      setOf([sunAt(40, 45)], { ...outdoors, reExpose: 'powers', camera: { ...camera, fNumber: 8 } }),
    )
    expect(cautions.find(({ id }) => id === 'caution.A.power')?.sentence).toMatch(/2.0 stops too strong .* no dial/)
  })

  test('more light than there is outside of the air is refused', () => {
    const bright = setOf([sunAt(0, 45, {}, 200_000)])
    const read = readSitting(JSON.parse(JSON.stringify(bright)))
    expect('problems' in read && read.problems[0]).toMatchObject({
      path: 'sources[0].modifier.illuminanceLx',
      expected: '10 to 133000 lx',
    })
  })
})

describe('outdoors', () => {
  test('the ground alone is left of the room, and the file says so', () => {
    const open = setRoom(firstSitting(), { outdoors: true })
    const kinds = inputOf(open).rig.surfaces.map(({ kind }) => kind)
    expect(kinds.filter((kind) => ['wall', 'ceiling', 'floor'].includes(kind))).toEqual(['floor'])
    const read = readSitting(writeSitting(open))
    expect('sitting' in read && read.sitting.room.outdoors).toBe(true)
    expect('sitting' in readSitting(writeSitting(firstSitting()))).toBe(true)
  })
})
