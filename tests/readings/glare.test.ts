import { describe, expect, test } from 'vitest'
import { DEFAULT_GLASSES, type Glasses, type SpectacleLens } from '../../src/figure'
import { defaultModifier } from '../../src/gear'
import { type Face, glareShare, glares, mirroredPart, mirrorOn, missedBy } from '../../src/readings/lens-glare'
import { setGlasses } from '../../src/sitting'
import {
  add,
  degrees,
  distance,
  dot,
  frameTowards,
  hash32,
  normalize,
  radians,
  scale,
  subtract,
  type Vec3,
} from '../../src/space'
import { EYE_M, inputOf, lamp, setOf, take } from './set'

/** A lens at the origin, square to +z. */
const lensOf = (curvature: number): SpectacleLens => ({
  frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
  curvature,
  halfWidthM: 0.025,
  halfHeightM: 0.02,
})
/** A square lit face of the given half side that looks at the origin. */
const faceAt = (origin: Vec3, half = 1e-4): Face => ({
  frame: frameTowards(origin, [0, 0, 0]),
  outline: [
    [-half, -half],
    [half, -half],
    [half, half],
    [-half, half],
  ],
})
/** In the plane of sight and lens's height, degrees up from the axis. */
const up = (deg: number, d: number): Vec3 => [0, d * Math.sin(radians(deg)), d * Math.cos(radians(deg))]

/** Degrees at which a yes turns into a no. */
function border(low: number, high: number, yes: (deg: number) => boolean): number {
  expect([yes(low), yes(high)]).toEqual([true, false])
  let [a, b] = [low, high]
  while (Math.abs(b - a) > 1e-4) {
    const middle = (a + b) / 2
    if (yes(middle)) a = middle
    else b = middle
  }
  return (a + b) / 2
}

describe('against closed forms', () => {
  test('a flat lens: a lamp beside the camera shows half-way between the two (mirror law)', () => {
    const viewer: Vec3 = [0, 0, 1.5]
    const glaresAt = (h: number) => glares(lensOf(0), viewer, faceAt([0, h, 1.5]))
    expect(border(0, 0.1, glaresAt)).toBeCloseTo(2 * 0.02, 3)
    const [at, lampAt] = [mirrorOn(lensOf(0), viewer, [0.03, 0.02, 1.5])!, [0.015, 0.01, 0] as Vec3]
    expect(distance(at, lampAt)).toBeLessThan(1e-12)
  })

  test('a flat lens at random: glare where the way from the camera’s mirror image passes the lens', () => {
    let hits = 0
    for (let i = 0; i < 400; i++) {
      const [a, b, c, d] = [0, 1, 2, 3].map((k) => hash32(i, k) / 2 ** 32 - 0.5)
      const viewer: Vec3 = [0.4 * a, 0.4 * b, 1.8]
      const lampAt: Vec3 = [-0.4 * a + 0.2 * c, -0.4 * b + 0.2 * d, 1.2]
      const image: Vec3 = [viewer[0], viewer[1], -viewer[2]]
      const t = 1.8 / 3
      const [x, y] = [0, 1].map((k) => image[k] + t * (lampAt[k] - image[k]))
      const v = y / 0.02
      const level = Math.abs(x / (0.025 * (1 + 0.1 * v))) ** 2.6 + Math.abs(v) ** 2.6
      if (Math.abs(level - 1) < 0.05) continue
      const inside = level < 1
      if (inside) hits++
      expect(glares(lensOf(0), viewer, faceAt(lampAt))).toBe(inside)
    }
    expect(hits).toBeGreaterThan(40)
  })

  test('a convex lens, all far off: the normal at the edge, b·c = sin n, is half the angle to the lamp', () => {
    for (const curvature of [2, 7.55, 15]) {
      const viewer: Vec3 = [0, 0, 2000]
      const yes = (deg: number) => glares(lensOf(curvature), viewer, faceAt(up(deg, 2000), 0.05))
      const expected = degrees(2 * Math.asin(0.02 * curvature))
      expect(border(0, 80, yes)).toBeCloseTo(expected, 1)
      // A lamp beyond is missed by the rest.
      const missed = missedBy(lensOf(curvature), viewer, faceAt(up(expected + 12, 2000), 0.05))!
      expect(degrees(missed)).toBeCloseTo(12, 1)
    }
  })

  test('a convex lens near by: camera and lamp alike off its axis meet in its middle', () => {
    const at = mirrorOn(lensOf(7.55), up(-25, 1.2), up(25, 1.2))!
    expect(distance(at, [0, 0, 0])).toBeLessThan(1e-9)
  })

  test('a flat lens that looks into the whole of a face is filled by it; into half, half', () => {
    const viewer: Vec3 = [0, 0, 1]
    expect(glareShare(lensOf(0), viewer, faceAt([0, 0, 1.5], 0.5))).toBe(1)
    // The face's lower edge on the axis: all looks that go up meet it.
    expect(
      glareShare(lensOf(0), viewer, {
        ...faceAt([0, 0.5, 1.5], 0.5),
        frame: { ...faceAt([0, 0, 1.5]).frame, origin: [0, 0.5, 1.5] },
      }),
    ).toBeCloseTo(0.5, 1)
    expect(mirroredPart(lensOf(0), viewer, faceAt([0, 0, -1.5], 0.5))).toEqual([])
  })
})

/** A camera at 2.2 m on the eye line, as practice has it. */
const LENS: Vec3 = [0, EYE_M, 2.2]
const sitting = (az: number, el: number, glasses: Partial<Glasses> | null = {}, rest: object = {}, lens = LENS) => {
  const base = setOf([lamp('A', { az, el, d: 1.5, modifier: defaultModifier('dish'), ...rest })])
  const set = { ...base, camera: { ...base.camera, positionM: lens, aimM: [0, EYE_M, 0] as const } }
  return glasses ? setGlasses(set, 'sitter', glasses) : set
}
/** Before a box whose lower edge hangs below the eyes, or it would hide the sitter. */
const NEAR: Vec3 = [0, EYE_M, 1.2]
const BOX = { modifier: { ...defaultModifier('softbox'), widthM: 1.2, heightM: 1.2 } }
const lensesOf = (glasses: Partial<Glasses>) => {
  const { left, right } = inputOf(sitting(0, 0, glasses)).rig.figures[0].posed.lenses!
  return [left, right]
}
const anyGlare = (glasses: Partial<Glasses>, az: number, el: number) => {
  const [a, e] = [radians(az), radians(el)]
  const at = add([0, EYE_M, 0], scale([Math.cos(e) * Math.sin(a), Math.sin(e), Math.cos(e) * Math.cos(a)], 1.5))
  const face: Face = { ...faceAt(at), frame: frameTowards(at, [0, EYE_M, 0]) }
  return lensesOf(glasses).some((lens) => glares(lens, LENS, face))
}

describe('against practice', () => {
  /** "Square-on, normal frames: zone about −32 to 0° vertically, ±23° sideways; 4 D, 8°; ±10 to 15°." Common practice, no source. */
  test('the zone of a normal pair, square on', () => {
    const usual = DEFAULT_GLASSES
    expect(Math.abs(border(-15, 40, (el) => anyGlare(usual, 0, el)))).toBeLessThan(10)
    expect(Math.abs(border(-15, -70, (el) => anyGlare(usual, 0, el)) + 32)).toBeLessThan(10)
    for (const sign of [1, -1])
      expect(Math.abs(border(0, sign * 80, (az) => anyGlare(usual, az, -15)) - sign * 23)).toBeLessThan(15)
  })

  test('every degree of frame tilt moves the zone by two (mirror law)', () => {
    const top = (tiltDeg: number) => border(-2 * tiltDeg, 60, (el) => anyGlare({ tiltDeg }, 0, el))
    for (const [a, b] of [
      [2, 8],
      [8, 12],
    ])
      expect((top(a) - top(b)) / (b - a)).toBeCloseTo(2, 0)
  })

  test('a stronger curve looks into a wider zone', () => {
    const height = (frontCurveD: number) =>
      border(-16, 60, (el) => anyGlare({ frontCurveD }, 10, el)) -
      border(-16, -90, (el) => anyGlare({ frontCurveD }, 10, el))
    expect(height(8)).toBeGreaterThan(height(4) + 10)
    expect(height(4)).toBeGreaterThan(height(1) + 10)
  })
})

describe('the readings', () => {
  test('none without glasses, and none of a source that is off', () => {
    const bare = take(sitting(0, 10, null))
    expect(bare.readings.some(({ id }) => id.includes('glare'))).toBe(false)
    const off = take(sitting(0, 10, {}, { on: false }))
    expect(off.readings.some(({ id }) => id.includes('glare'))).toBe(false)
  })

  test('a key at 45/40 is clear of both lenses by many degrees; one at 0/15 with a low edge glares (common practice)', () => {
    const clear = take(sitting(45, 40))
    for (const which of ['left', 'right']) {
      expect(clear.value(`source.A.glare.${which}`)).toBeGreaterThan(10)
      expect(clear.of(`source.A.glare.${which}`).sentence).toMatch(/passes the lens at camera (left|right)\.$/)
    }
    expect(clear.readings.some(({ id }) => id === 'source.A.glare.wayOut')).toBe(false)
    const bad = take(sitting(0, 15, {}, BOX, NEAR))
    for (const which of ['left', 'right']) expect(bad.of(`source.A.glare.${which}`).value).toBe('glare')
    expect(bad.of('source.A.glare.wayOut').sentence).toMatch(/raise A by \d+°.* tip the glasses \d+° more\.$/)
  })

  test('raised by the way out it is clear, by half a degree less it is not', () => {
    const raise = take(sitting(0, 15, {}, BOX, NEAR)).value('source.A.glare.wayOut')
    const glaring = (el: number) =>
      ['left', 'right'].some(
        (which) => take(sitting(0, el, {}, BOX, NEAR)).of(`source.A.glare.${which}`).value === 'glare',
      )
    expect(glaring(15 + raise - 0.5)).toBe(true)
    expect(glaring(15 + raise + 0.2)).toBe(false)
  })

  test('tipped by the way out the glasses are clear, by a degree less they are not; half of what the source must rise', () => {
    const { sentence } = take(sitting(0, 15, {}, BOX, NEAR)).of('source.A.glare.wayOut')
    const [raise, tip] = [/raise A by (\d+)/, /glasses (\d+)/].map((word) => Number(sentence.match(word)![1]))
    const glaring = (tiltDeg: number) => lensesOf({ tiltDeg }).some((lens) => glares(lens, NEAR, boxFace(15)))
    expect(glaring(DEFAULT_GLASSES.tiltDeg + tip - 1)).toBe(true)
    expect(glaring(DEFAULT_GLASSES.tiltDeg + tip + 1)).toBe(false)
    expect(Math.abs(tip / raise - 0.5)).toBeLessThan(0.15)
  })

  test('the glare lies where the mirror’s law has it: equal angles at the lens', () => {
    const taken = take(sitting(0, 15, {}, BOX, NEAR))
    const at = taken.of('source.A.glare.left').place.at!
    const lens = lensesOf({})[0]
    const normal = subtract(at, add(lens.frame.origin, scale(lens.frame.z, -1 / lens.curvature)))
    const n = scale(normal, 1 / distance(normal, [0, 0, 0]))
    const sight = normalize(subtract(NEAR, at))
    const out = subtract(scale(n, 2 * dot(sight, n)), sight)
    const { frame } = boxFace(15)
    const t = dot(subtract(frame.origin, at), frame.z) / dot(out, frame.z)
    const met = subtract(add(at, scale(out, t)), frame.origin)
    expect(t).toBeGreaterThan(0)
    expect(Math.max(Math.abs(dot(met, frame.x)), Math.abs(dot(met, frame.y)))).toBeLessThan(0.6)
    expect(distance(at, lens.frame.origin)).toBeLessThan(0.035)
  })

  test('something before the lens hides it, and glasses seen from behind have none', () => {
    const set = sitting(0, 15, {}, BOX, NEAR)
    const behind = { ...set, camera: { ...set.camera, positionM: [0, EYE_M, -2.2] as const } }
    expect(take(behind).of('source.A.glare.left').sentence).toBe('the lens at camera left shows the camera its back.')
    const flag = {
      ...{ id: 'flag', kind: 'card' as const, centreM: [0, EYE_M, 0.4] as const, widthM: 0.3, heightM: 0.3 },
      ...{ turnDeg: 0, tiltDeg: 0, reflectance: 0 },
    } as const
    const hidden = take({ ...set, objects: [flag] }).of('source.A.glare.left')
    expect(hidden.value).toBeNull()
    expect(hidden.sentence).toMatch(/^something stands between A's reflection/)
  })
})

function boxFace(el: number): Face {
  const at = add([0, EYE_M, 0], up(el, 1.5))
  return { ...faceAt(at, 0.6), frame: frameTowards(at, [0, EYE_M, 0]) }
}
