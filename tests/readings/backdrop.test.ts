import { describe, expect, test } from 'vitest'
import { codeFromLinear } from '../../src/camera'
import { defaultModifier } from '../../src/gear'
import { wrapFactor } from '../../src/readings/backdrop-wrap'
import { firstSitting, type Sitting } from '../../src/sitting'
import type { Vec3 } from '../../src/space'
import { EYE_M, inputOf, lamp, setOf, take } from './set'

const paper: NonNullable<Sitting['backdrop']> = {
  ...firstSitting().backdrop!,
  reflectance: [0.6, 0.6, 0.6],
  widthM: 3.5,
}
const room = { ...setOf([]).room, widthM: 20, depthM: 20, heightM: 6 }
const key = (az: number, distanceM: number, rest: Partial<Sitting> = {}): Sitting =>
  setOf([lamp('A', { az, d: 6, modifier: defaultModifier('dish') })], {
    backdrop: { ...paper, distanceM },
    room,
    reExpose: 'powers',
    ...rest,
  })

describe('nine places of the backdrop', () => {
  const sitting = key(50, 2)
  const { readings, value } = take(sitting)
  const nine = readings.filter(({ id }) => id.startsWith('backdrop.at.'))
  test('each seen place has its stops under the face, and together the spread', () => {
    expect(nine.length).toBeGreaterThan(3)
    const stops = nine.map((reading) => reading.value as number)
    expect(Math.max(...stops) - Math.min(...stops)).toBeCloseTo(value('backdrop.spread'), 9)
    // The lamp stands far off at camera right, so the right side is the lighter one: closed form below, place by place.
    const centre = sitting.sources[0]!.centreM
    const light = ([x, y, z]: Vec3): number => {
      const [dx, dy, dz] = [centre[0] - x, centre[1] - y, centre[2] - z]
      const d = Math.hypot(dx, dy, dz)
      const out = [0, EYE_M, 0].map((c, i) => c - centre[i]!)
      const cosLamp = -(dx * out[0]! + dy * out[1]! + dz * out[2]!) / d / Math.hypot(...out)
      return (cosLamp * dz) / d ** 3
    }
    const [first, ...others] = nine
    for (const other of others) {
      const off = Math.log2(light(other.place.at!) / light(first!.place.at!))
      // A dish falls off a little otherwise than a cosine near its axis: 65° beam, common practice.
      expect(Math.abs((other.value as number) - (first!.value as number) - off)).toBeLessThan(0.1)
    }
  })
  test('white and the own paper record as sRGB of their reflectance that many stops under the meter (IEC 61966-2-1)', () => {
    for (const { value: stops, sentence } of nine) {
      const codes = [0.6, 0.88].map((r) => Math.round(codeFromLinear(r * 2 ** (stops as number), 'plain')))
      expect(sentence).toContain(`records as ${codes[0]} there, white as ${codes[1]}`)
    }
  })
  test('charcoal has its tone, and a coloured paper its three codes', () => {
    const red = take(key(50, 2, { backdrop: { ...paper, distanceM: 2, reflectance: [0.5, 0.1, 0.05] } }))
    const stops = red.value('backdrop.stops')
    expect(red.value('backdrop.tone.charcoal')).toBeCloseTo(codeFromLinear(0.06 * 2 ** stops, 'plain'), 6)
    const [r, g, b] = /in colour sRGB (\d+) (\d+) (\d+)/
      .exec(red.of('backdrop.tone.paper').sentence)!
      .slice(1)
      .map(Number)
    // The lamp is balanced for: its colour is 1, 1, 1 to a few per cent.
    ;[0.5, 0.1, 0.05].forEach((reflectance, band) => {
      expect(Math.abs([r, g, b][band]! - codeFromLinear(reflectance * 2 ** stops, 'plain'))).toBeLessThan(5)
    })
    expect(take(key(50, 2)).of('backdrop.tone.paper').sentence).not.toMatch(/in colour/)
  })
})

describe("the sitter's shadow on the backdrop", () => {
  /** Every corner of the sitter thrown on the paper from the lamp's middle, without a ray: does one land in the frame? */
  function inFrame(sitting: Sitting, behindM: number): boolean {
    const { rig } = inputOf(sitting)
    const [lampAt, lens] = [rig.sources[0]!.frame.origin, rig.view.frame.origin]
    const half = [rig.view.sensorWidthMm, rig.view.sensorHeightMm].map(
      (mm) => (mm / 2 / rig.view.focalLengthMm) * (lens[2] + behindM),
    )
    return rig.figures[0]!.posed.parts.some(({ mesh: { positions } }) => {
      for (let i = 0; i < positions.length; i += 3) {
        const [x, y, z] = [positions[i]!, positions[i + 1]!, positions[i + 2]!]
        const k = (lampAt[2] + behindM) / (lampAt[2] - z)
        const [at, up] = [lampAt[0] + k * (x - lampAt[0]), lampAt[1] + k * (y - lampAt[1])]
        if (Math.abs(at - lens[0]) < half[0]! && Math.abs(up - lens[1]) < half[1]!) return true
      }
      return false
    })
  }
  test.each([45, 60])('a small key %i° round: the way forward is where the last corner leaves the frame', (az) => {
    const level = {
      ...firstSitting().camera,
      positionM: [0, EYE_M, 2] as const,
      aimM: [0, EYE_M, 0] as const,
      focalLengthMm: 85,
    }
    const sitting = key(az, 0.4, { camera: level })
    const reading = take(sitting).of('backdrop.shadow.A')
    expect(reading.value).toBeLessThan(-1)
    const forward = Number(/lost from ([\d.]+) m/.exec(reading.why.filled)![1])
    let expected = 0.4
    while (inFrame(sitting, expected)) expected += 0.01
    // Thirteen places across a frame of some 0.7 m: 5 cm, over the tangent.
    expect(Math.abs(forward + 0.4 - expected)).toBeLessThan(0.1)
    expect(reading.sentence).toMatch(/at camera left: come .* forward, camera and lights with you/)
    const after = take(key(az, forward + 0.45, { camera: level }))
    expect(after.of('backdrop.shadow.A').value).toBe('none')
  })
})

/**
 * trade.md §1.2 (34), a matt white sheet one stop over the face, seen by a disc square to it: computed there; 2·ρ·F. Its figures are
 * rounded to a tenth.
 */
test.each([
  [2.7, 2.4, 1.5, -0.3],
  [2.7, 2.4, 2, -0.8],
  [2.7, 2.4, 3, -1.6],
  [1.35, 2, 2, -1.7],
])('wrap of white paper, %f × %f m at %f m: %f stops', (wide, high, away, stops) => {
  const rect = { centre: [0, 0, -away] as Vec3, halfU: [wide / 2, 0, 0] as Vec3, halfV: [0, high / 2, 0] as Vec3 }
  expect(Math.abs(Math.log2(2 * 0.88 * wrapFactor(rect, [0, 0, 0])) - stops)).toBeLessThan(0.06)
})

test('wrap goes with the paper: a stop less reflectance is a stop less rim', () => {
  const of = (reflectance: number) => {
    const backdrop = { ...paper, distanceM: 1.5, reflectance: [reflectance, reflectance, reflectance] as const }
    return take(key(20, 1.5, { backdrop })).value('backdrop.wrap')
  }
  expect(of(0.8) - of(0.4)).toBeCloseTo(1, 9)
})
