import { expect, test } from 'vitest'
import {
  CIRCLE_OF_CONFUSION_35_MM,
  circleOfConfusionMm,
  codeFromLinear,
  darkShare,
  depthOfField,
  distanceForFraming,
  FRAMINGS,
  type FramingName,
  formatFNumber,
  framingDistance,
  nearestThird,
  perspectiveRatio,
  projectToFrame,
} from '../../src/camera'
import {
  angularDiameter,
  exposureValue,
  highlightRatioFromKeyOverFill,
  illuminanceFromDisc,
  illuminanceFromEv100,
  keyRatioFromKeyOverFill,
  penumbraWidth,
} from '../../src/photometry'
import { framingOf, setFraming } from '../../src/sitting'
import { degrees, frameTowards } from '../../src/space'
import { lamp, setOf, take } from './set'

/** Tables of the trade report, row by row. Its marks: [C] computed there, [P] trade habit, no source. */

const round = (value: number, digits: number): number => Number(value.toFixed(digits))

/** §2.4 [C]. */
test.each([
  [0, 1, 2, 1.0],
  [0.5, 1.4, 2.4, 0.77],
  [1, 2, 3, 0.58],
  [1.5, 2.8, 3.8, 0.44],
  // Its row 1.6 is that of 3 : 1, which is 1.585 stops.
  [Math.log2(3), 3, 4, 0.42],
  [2, 4, 5, 0.32],
  [3, 8, 9, 0.17],
  [4, 16, 17, 0.09],
])('§2.4 fill %f below key: %f, %f, gain %f', (stops, key, highlight, gain) => {
  expect(round(keyRatioFromKeyOverFill(stops), 1)).toBe(key)
  expect(round(highlightRatioFromKeyOverFill(stops), 1)).toBe(highlight)
  expect(round(Math.log2(highlightRatioFromKeyOverFill(stops) / keyRatioFromKeyOverFill(stops)), 2)).toBe(gain)
})

/** §2.5 [C], a matt disc on its axis. */
test.each([
  [0.5, 1.0, 1.32],
  [0.75, 0.53, 1.62],
  [1, 0.32, 1.77],
  [1.5, 0.15, 1.89],
  [2, 0.09, 1.93],
  [3, 0.04, 1.97],
])('§2.5 a matt disc at d/D %f: %f stop under the law, doubling loses %f', (d, under, doubled) => {
  const at = (distance: number) => illuminanceFromDisc(1, 0.5, distance)
  // Far away E = L·A/d².
  expect(round(Math.log2(Math.PI / 4 / d ** 2 / at(d)), 2)).toBe(under)
  expect(round(Math.log2(at(d) / at(2 * d)), 2)).toBe(doubled)
})

test('§2.5 at five times its width the law holds within 0.01 and doubling loses 2.0', () => {
  const at = (distance: number) => illuminanceFromDisc(1, 0.5, distance)
  expect(round(Math.log2(Math.PI / 4 / 25 / at(5)), 2)).toBe(0.01)
  expect(round(Math.log2(at(5) / at(10)), 1)).toBe(2)
})

/** §2.5 [C], degrees at 0.75, 1, 1.5, 2, 3 and 4 m. */
test.each([
  [0.18, [14, 10, 7, 5, 3, 3]],
  [0.42, [31, 24, 16, 12, 8, 6]],
  [0.6, [44, 33, 23, 17, 11, 9]],
  [0.9, [62, 48, 33, 25, 17, 13]],
  [1.2, [77, 62, 44, 33, 23, 17]],
  [1.5, [90, 74, 53, 41, 28, 21]],
])('§2.5 how wide %f m looks', (width, row) => {
  const wide = [0.75, 1, 1.5, 2, 3, 4].map((d) => Math.round(degrees(angularDiameter(width, d))))
  // 0.9 m at 1.5 m is 33.4°; nothing in the table is off by more than its rounding.
  expect(wide).toEqual(row)
})

/** §2.5 [C], full width on skin that faces the source, distance from the edge to it, at 1, 1.5, 2 and 3 m. */
test.each([
  [0.18, [4, 3, 2, 2], [14, 10, 7, 5]],
  [0.6, [15, 10, 8, 5], [48, 32, 24, 16]],
  [0.9, [22, 15, 11, 8], [72, 48, 36, 24]],
  [1.2, [30, 20, 15, 10], [96, 64, 48, 32]],
  [1.5, [38, 25, 19, 12], [120, 80, 60, 40]],
])('§2.5 edge of %f m on skin, gaps of 25 and 80 mm', (width, nose, chin) => {
  for (const [i, d] of [1, 1.5, 2, 3].entries()) {
    // Halves are rounded either way in the table.
    expect(Math.abs(1000 * penumbraWidth(width, d, 0.025) - nose[i]!)).toBeLessThan(0.501)
    expect(Math.abs(1000 * penumbraWidth(width, d, 0.08) - chin[i]!)).toBeLessThan(0.501)
  }
})

/** §2.9 [C], sRGB without a curve, at +0.5, 0, −0.5, −1, −1.5, −2, −3, −4, −5 and −6 stops against the face. */
test.each([
  ['white paper', 0.88, [255, 241, 207, 177, 151, 129, 93, 66, 46, 31]],
  ['mid-grey', 0.18, [138, 118, 100, 85, 71, 60, 41, 27, 17, 9]],
  ['charcoal', 0.06, [82, 69, 58, 48, 40, 33, 21, 12, 6, 3]],
  ['black paper', 0.04, [67, 56, 47, 39, 32, 25, 16, 8, 4, 2]],
])('§2.9 tone of %s', (_, reflectance, row) => {
  const codes = [0.5, 0, -0.5, -1, -1.5, -2, -3, -4, -5, -6].map((stops) =>
    Math.round(codeFromLinear(reflectance * 2 ** stops, 'plain')),
  )
  for (const [i, code] of codes.entries()) expect(Math.abs(code - row[i]!), `${i}: ${code}`).toBeLessThanOrEqual(1)
})

const FRAMING_ROWS: readonly (readonly [FramingName, number, readonly number[]])[] = [
  ['tight head', 0.45, [0.7, 1.15, 1.4, 1.8]],
  ['head and shoulders', 0.7, [1.0, 1.75, 2.15, 2.75]],
  ['half length', 1.0, [1.45, 2.45, 3.0, 3.9]],
  ['three-quarter', 1.4, [2.0, 3.4, 4.2, 5.4]],
  ['full length', 2.1, [3.0, 5.05, 6.2, 8.0]],
]
/** §2.10 [C], lens to sitter for an upright 36 × 24 mm frame with 50, 85, 105 and 135 mm, to the next 5 cm. */
test.each(FRAMING_ROWS)('§2.10 %s, %f m high', (name, field, row) => {
  expect(FRAMINGS[name]).toBe(field)
  for (const [i, focal] of [50, 85, 105, 135].entries())
    expect(Math.abs(framingDistance(focal, 1000 * field, 36) / 1000 - row[i]!), `${focal} mm`).toBeLessThan(0.06)
  // 'For a 24 × 16 mm sensor multiply by about 1.5.'
  expect(distanceForFraming(name, 85, 24) / distanceForFraming(name, 85, 36)).toBeCloseTo(1.5, 1)
})

test.each(FRAMING_ROWS)('a framing by name puts the camera there, and is named so: %s', (name, field) => {
  const set = setFraming(setOf([lamp('A')]), name)
  expect(framingOf(set)).toBe(name)
  const read = take({ ...set, room: { ...set.room, depthM: 20, widthM: 20 } })
  // A lens held lower looks up: the plane of the eyes lies a little nearer along its axis.
  expect(Math.abs(read.value('camera.field') / field - 1)).toBeLessThan(0.05)
  expect(read.of('camera.field').sentence).toContain(name)
})

test.each(FRAMING_ROWS)(
  '%s is what the picture shows: two marks %f m apart are its upper and lower edge',
  (name, field) => {
    const { camera } = setOf([lamp('A')])
    const away = distanceForFraming(name, camera.focalLengthMm, camera.sensorHeightMm)
    const level = frameTowards([0, 1.2, away], [0, 1.2, 0])
    expect(projectToFrame([0, 1.2 + field / 2, 0], level, camera)!.y).toBeCloseTo(1, 9)
    expect(projectToFrame([0, 1.2 - field / 2, 0], level, camera)!.y).toBeCloseTo(-1, 9)
    // The reading measures the same picture, here from half as far, where a lens moved out to focus would differ most.
    const near = { ...camera, positionM: [0, 1.2, away / 2] as const, aimM: [0, 1.2, 0] as const }
    const set = setOf([lamp('A')])
    const read = take({ ...set, camera: near, room: { ...set.room, depthM: 20 } })
    const seen = projectToFrame(
      [0, 1.2 + read.value('camera.field') / 2, 0],
      frameTowards(near.positionM, near.aimM),
      camera,
    )
    expect(seen!.y).toBeCloseTo(1, 1)
  },
)

test('before the lowest eyes that a sitting takes, 0.5 m, every framing holds the lens over the floor', () => {
  for (const [name] of FRAMING_ROWS) {
    const { positionM, aimM } = setFraming(setOf([lamp('A')], { sitter: { eyeHeightM: 0.5 } }), name).camera
    expect(positionM[1], name).toBeGreaterThanOrEqual(0.2)
    expect(aimM[1], name).toBeGreaterThanOrEqual(0)
  }
})

/** §2.10 [C], nose against ear at 1, 1.5, 2 and 3 m: from the ears, 12 cm behind the nose. */
test.each([
  [1, 14],
  [1.5, 9],
  [2, 6],
  [3, 4],
])('§2.10 nose bigger than ear at %f m by %i %%', (distance, percent) => {
  expect(Math.round(100 * (perspectiveRatio(0.12, distance - 0.12) - 1))).toBe(percent)
  const set = setOf([lamp('A')])
  const camera = { ...set.camera, positionM: [0, 1.2, distance] as const, aimM: [0, 1.2, 0] as const }
  const read = take({ ...set, camera }).value('camera.perspective')
  // On our head, from the eyes: within a tenth of the table and 1 %.
  expect(Math.abs(read - percent)).toBeLessThan(1 + 0.1 * percent)
})

/** §1.2 question 50 [C], 85 mm at 1.75 m, whole depth in cm. */
test.each([
  [2.8, 7],
  [5.6, 14],
  [8, 19],
  [11, 27],
])('85 mm at 1.75 m and f/%f: %i cm in focus', (fNumber, centimetres) => {
  // With the 0.030 mm of 36 × 24; by the diagonal's 1500th, as the reading takes it, 4 % less.
  const { total } = depthOfField(85, fNumber, CIRCLE_OF_CONFUSION_35_MM, 1750)
  expect(Math.round(total / 10)).toBe(centimetres)
})

test('depth in focus as the reading tells it: the closed form at the eyes, and what is out', () => {
  const set = setOf([lamp('A')])
  const { camera } = set
  const at = (fNumber: number) =>
    take({
      ...set,
      reExpose: 'nothing',
      camera: { ...camera, positionM: [0, 1.2, 1.75], aimM: [0, 1.2, 0], focalLengthMm: 85, fNumber },
    })
  const wide = at(2.8)
  const { total } = depthOfField(85, 2.8, circleOfConfusionMm(camera.sensorWidthMm, camera.sensorHeightMm), 1750)
  expect(Math.abs(wide.value('camera.depth') * 1000 - total)).toBeLessThan(3)
  expect(wide.of('camera.depth').sentence).toMatch(/an ear/)
  expect(at(16).of('camera.depth').sentence).toMatch(/nose, ears and shoulders are in/)
})

test('where the f-number gives way, depth goes by what the camera is set to, not by the document', () => {
  const set = setOf([lamp('A')])
  const camera = { ...set.camera, positionM: [0, 1.2, 1.75] as const, aimM: [0, 1.2, 0] as const, focalLengthMm: 85 }
  const read = take({ ...set, reExpose: 'f-number', camera: { ...camera, fNumber: 2.8 } })
  const shown = read.value('exposure.nearCheek.disc.light')
  expect(Math.abs(Math.log2(shown / 2.8))).toBeGreaterThan(0.5)
  // Thin lens, as above.
  const { total } = depthOfField(85, shown, circleOfConfusionMm(camera.sensorWidthMm, camera.sensorHeightMm), 1750)
  expect(Math.abs((read.value('camera.depth') * 1000) / total - 1)).toBeLessThan(0.01)
})

test('a crease of the backdrop spreads as wide as the cone from a pupil f/N across: similar triangles', () => {
  const set = setOf([lamp('A')])
  const eyeZ = take(set).of('camera.field').place.at![2]
  // Sharp at 1 m, paper at 2 m: there the cone is as wide as the pupil again, 200 mm / 4 = 5 cm.
  const camera = { ...set.camera, positionM: [0, 1.2, 1 + eyeZ] as const, aimM: [0, 1.2, 0] as const }
  const backdrop = { widthM: 3, heightM: 3, distanceM: 1 - eyeZ, reflectance: [0.5, 0.5, 0.5] as const }
  const read = take({ ...set, backdrop, reExpose: 'nothing', camera: { ...camera, focalLengthMm: 200, fNumber: 4 } })
  expect(read.of('camera.depth').sentence).toContain('a crease of the backdrop spreads over 5 cm')
})

/** §2.10 [C], tenths of a stop from f/8, and the mark on the camera. */
test.each([8.0, 8.3, 8.6, 8.9, 9.2, 9.5, 9.8, 10.2, 10.6, 10.9, 11.3].map((n, tenths) => [tenths, n] as const))(
  '§2.10 f/8 and %i tenths is %f',
  (tenths, fNumber) => {
    expect(formatFNumber(fNumber)).toBe(tenths === 0 ? 'f/8' : tenths === 10 ? 'f/11' : `f/8 + 0.${tenths}`)
  },
)

test('§2.10 "8·3 → set f/9": the camera works in thirds', () => {
  expect(nearestThird(8 * 2 ** (3 / 20))).toBe(9)
  expect(nearestThird(8 * 2 ** (7 / 20))).toBe(10)
})

/** §2.11 [C]. */
test.each([
  [1, 0.58],
  [2, 0.32],
  [3, 0.17],
  [4, 0.09],
  [5, 0.04],
  [6, 0.02],
])('§2.11 ambient %i stops below flash adds %f', (below, adds) => {
  // An ordinary room is EV 6.5 (§2.11: 6 to 7); the setting lies so many stops over it: 2^EV = N²/t.
  const set = setOf([lamp('A')])
  const camera = { ...set.camera, fNumber: 8, shutterS: 64 / 2 ** (6.5 + below), iso: 100 }
  expect(take({ ...set, reExpose: 'nothing', camera }).of('camera.roomLight').sentence).toContain(
    `they add ${adds} stop`,
  )
})

test('§2.11 f/8 at 1/160 is EV 13.3; a room of EV 6 to 7 has 160 to 320 lx and lies 6 to 7 stops under', () => {
  expect(round(exposureValue(8, 1 / 160), 1)).toBe(13.3)
  expect(illuminanceFromEv100(6)).toBe(160)
  expect(illuminanceFromEv100(7)).toBe(320)
  const set = setOf([lamp('A')])
  const read = take({ ...set, camera: { ...set.camera, fNumber: 8, shutterS: 1 / 160, iso: 100 } })
  // 13.3 − 6.5.
  expect(round(read.value('camera.roomLight'), 1)).toBe(-6.8)
  // §1.2 question 54: f/2.8 at ISO 400 has it only two stops down. With EV 6.5 it is 1.8.
  const open = take({ ...set, camera: { ...set.camera, fNumber: 2.8, shutterS: 1 / 160, iso: 400 } })
  expect(Math.round(open.value('camera.roomLight'))).toBe(-2)
  // What is filled in comes to the reading: two stops of ISO.
  expect(open.of('camera.roomLight').why.filled).toContain('log₂(400/100)')
  const outside = take({ ...set, room: { ...set.room, outdoors: true } })
  expect(outside.readings.some(({ id }) => id === 'camera.roomLight')).toBe(false)
})

/** §1.2 question 53 [C], a camera of 1/250. */
test.each([
  [250, 0],
  [320, 22],
  [500, 50],
])('1/%i on a shutter that syncs to 1/250: %i %% of the frame dark at worst', (denominator, percent) => {
  expect(Math.round(100 * darkShare(1 / denominator, 1 / 250))).toBe(percent)
  const set = setOf([lamp('A')])
  const { cautions } = take({ ...set, camera: { ...set.camera, shutterS: 1 / denominator, syncS: 1 / 250 } })
  const sync = cautions.find(({ id }) => id === 'caution.camera.sync')
  if (percent === 0) expect(sync).toBeUndefined()
  else expect(sync?.sentence).toContain(`up to ${percent} % of the frame stays dark`)
})
