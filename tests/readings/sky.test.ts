import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { directAt } from '../../src/meter'
import type { Source } from '../../src/sitting'
import { readSitting, writeSitting } from '../../src/sitting'
import type { Vec3 } from '../../src/space'
import { inputOf, lamp, setOf, take } from './set'

const expectedOf = (id: string) =>
  JSON.parse(readFileSync('shared/check-values.json', 'utf8')).find((one: { id: string }) => one.id === id).expected
const LEVEL: number = expectedOf('SKY-OVERCAST-EH')
const { E_v: UPRIGHT, ratio: RATIO } = expectedOf('SKY-OVERCAST-EV')

const sky = (change: Partial<Source> = {}, illuminanceLx = 10_000): Source => {
  const source = lamp('A', { modifier: { kind: 'overcast-sky', illuminanceLx }, ...change })
  return { ...source, head: { ...source.head, powerStops: 0 } }
}
const { room: dark } = setOf([])
const outdoors = { room: { ...dark, outdoors: true }, reExpose: 'nothing' as const }

/** Direct light of the sky alone, per zenith of 1 cd/m². */
function received(sitting: ReturnType<typeof setOf>, point: Vec3, normal: Vec3): number {
  const { rig, bodies, caster } = inputOf(sitting)
  const [light] = directAt({ rig, bodies: bodies!, caster }, { point, normal }, 'disc')
  return light!.perCandela
}

describe('overcast sky, CIE', () => {
  const open = setOf([sky()], outdoors)
  // Well away from the sitter.
  const places: readonly Vec3[] = [
    [8, 0.01, 8],
    [8, 2, -5],
  ]

  test('SKY-OVERCAST-EH: level ground gets 7π/9 of its zenith, wherever it lies', () => {
    for (const place of places) expect(Math.abs(received(open, place, [0, 1, 0]) / LEVEL - 1)).toBeLessThan(0.004)
  })

  test('SKY-OVERCAST-EV: upright 0.3962 of that, to every side', () => {
    for (const normal of [
      [1, 0, 0],
      [0, 0, 1],
      [-0.6, 0, -0.8],
    ] as const) {
      const got = received(open, places[1]!, normal)
      expect(Math.abs(got / UPRIGHT - 1)).toBeLessThan(0.004)
      expect(Math.abs(got / received(open, places[1]!, [0, 1, 0]) / RATIO - 1)).toBeLessThan(0.006)
    }
    expect(received(open, places[1]!, [0, -1, 0])).toBe(0)
  })

  test('its field is the light on level ground', () => {
    const camera = { ...open.camera, iso: 100, shutterS: 1 / 100 }
    const free = {
      ...{ id: 'p', name: 'free', at: { pointM: [8, 1, 8] as [number, number, number] } },
      ...{ receptor: 'disc' as const, facing: 'light' as const },
    }
    // 25,600 lx for 1/100 s at ISO 100 is f/10.12 by C = 250: N² = 256·100/250.
    const { value } = take(setOf([sky({}, 25_600)], { ...outdoors, camera, meterPlaces: [free] }))
    expect(Math.abs(value('place.p') / Math.sqrt(102.4) - 1)).toBeLessThan(0.003)
  })

  /** Half the sky by symmetry: a tall wide board close by leaves an upright place that faces along it one half of E_v. */
  test('a board hides its part of the sky', () => {
    const board = {
      ...{ id: 'board', kind: 'black' as const, widthM: 4, heightM: 4 },
      ...{ centreM: [8, 2, 8] as [number, number, number], turnDeg: 0, tiltDeg: 0 },
    }
    const hidden = setOf([sky()], { ...outdoors, panels: [board] })
    const before: Vec3 = [8, 2, 8.005]
    const got = received(hidden, before, [1, 0, 0])
    // The meter's rays stand 16 by 16 over the sky, nine for one where it is half hidden.
    expect(Math.abs(got / (UPRIGHT / 2) - 1)).toBeLessThan(0.02)
    // Turned to the open side it gets all that an upright place gets.
    expect(Math.abs(received(hidden, before, [0, 0, 1]) / UPRIGHT - 1)).toBeLessThan(0.02)
  })

  test('half of a level frame beside the sitter is sky, as bright as a white under it: L = Lz/3 to 0.5 against E_v/π', () => {
    const camera = { ...open.camera, positionM: [8, 1.5, 4] as Vec3, aimM: [8, 1.5, 0] as Vec3, focalLengthMm: 85 }
    const { value, of } = take({ ...open, camera })
    expect(Math.abs(value('source.A.flare') - 50)).toBeLessThan(1)
    // Mean over the frame's 12° upwards: (1 + 2 sin 6°)/3 · π / (0.3962 · 7π/9) is +0.4 stop; the cheek is turned from that lens and by the head.
    expect(of('source.A.flare').sentence).toMatch(/over a white/)
  })

  test('a cornea mirrors the sky in its upper half, less what lids and brow hide', () => {
    const { value } = take(open)
    for (const eye of ['left', 'right']) {
      expect(value(`source.A.catchlight.${eye}.share`)).toBeGreaterThan(15)
      // The horizon is mirrored across the middle: no more than half can be sky.
      expect(value(`source.A.catchlight.${eye}.share`)).toBeLessThanOrEqual(52)
    }
  })

  test('walls and ceiling keep it out, and that is told', () => {
    const { of, cautions } = take(setOf([sky()], { room: dark }))
    expect(of('exposure.nearCheek.disc.light').value).toBeNull()
    expect(cautions.map(({ id }) => id)).toEqual(['caution.A.indoors'])
    expect(take(setOf([sky()], { ...outdoors, reExpose: 'f-number' })).cautions).toEqual([])
  })

  test('it has no place, no edge and makes no pattern; a lamp beside it gives the near side', () => {
    const { readings, of } = take(open)
    for (const { id } of readings) expect(id).not.toMatch(/^edge\.A|source\.A\.(tape|azimuth|apparent|glare|redEye)/)
    expect(of('face.pattern').sentence).toMatch(/all round/)
    const both = take(setOf([sky(), lamp('B', { az: 45, el: 30, d: 1.5, role: 'fill' })], outdoors))
    expect(both.of('face.pattern').sourceId).toBe('source-B')
  })

  test('it is the same sitting after a file', () => {
    const read = readSitting(writeSitting(open))
    expect('sitting' in read && read.sitting.sources[0]!.modifier).toEqual({
      kind: 'overcast-sky',
      illuminanceLx: 10_000,
    })
  })
})
