import { describe, expect, test } from 'vitest'
import { CORNEA_RADIUS_MM } from '../../src/figure'
import { defaultModifier } from '../../src/gear'
import { createRayCaster } from '../../src/rays'
import { setGaze, setSitter } from '../../src/sitting'
import { add, distance, dot, normalize, radians, scale, subtract, type Vec3 } from '../../src/space'
import { EYE_M, inputOf, lamp, setOf, take } from './set'

/** A small source on a lens-high eye line, seen from 2.2 m, as the table of practice has it. */
const LENS: Vec3 = [0, EYE_M, 2.2]
const sitting = (az: number, el: number, change = {}) => {
  const base = setOf([lamp('A', { az, el, d: 1.5, modifier: defaultModifier('dish') })], change)
  return { ...base, camera: { ...base.camera, positionM: LENS, aimM: [0, EYE_M, 0] as const } }
}
const EYES = ['left', 'right'] as const
const minutes = (clock: string) => {
  const [h, m] = clock.split(':').map(Number)
  return (h % 12) * 60 + m
}

/**
 * Azimuth and elevation from the lens; the clock, and the height in mm for a lamp straight before. "The upper lid usually hides
 * reflections more than 3.5 to 4 mm above the middle of the iris." Common practice, no source.
 */
interface Row {
  readonly az: number
  readonly el: number
  readonly clock: string
  readonly mm?: number
}
const table = (az: number, ...clocks: readonly string[]): readonly Row[] =>
  clocks.map((clock, i) => ({ az, el: 20 + 10 * i, clock }))
const TABLE: readonly Row[] = [
  { az: 0, el: 20, clock: '12:00', mm: 1.4 },
  { az: 0, el: 30, clock: '12:00', mm: 2.0 },
  { az: 0, el: 40, clock: '12:00', mm: 2.7 },
  { az: 0, el: 50, clock: '12:00', mm: 3.3 },
  { az: 0, el: 60, clock: '12:00', mm: 3.9 },
  ...table(30, '1:50', '1:25', '1:00', '12:45', '12:30'),
  ...table(45, '2:05', '1:40', '1:20', '1:00', '12:40'),
  ...table(60, '2:10', '1:55', '1:30', '1:10', '12:55'),
]

describe('the table of practice, both eyes, within 0.3 mm', () => {
  test.each(TABLE)('$az° round, $el° up: $clock', ({ az, el, clock, mm }) => {
    const taken = take(sitting(az, el))
    const { landmarks } = inputOf(sitting(az, el)).rig.figures[0].posed
    // The table's place: its clock, at R·sin(t/2) from the middle, t the angle between lens and lamp.
    const t = Math.acos(Math.cos(radians(az)) * Math.cos(radians(el)))
    const [r, angle] = [CORNEA_RADIUS_MM * Math.sin(t / 2), radians(minutes(clock) / 2)]
    let seen = 0
    for (const eye of EYES) {
      const { value, place } = taken.of(`source.A.catchlight.${eye}.clock`)
      if (value === null) continue
      seen++
      const pupil = landmarks[eye === 'left' ? 'pupilLeft' : 'pupilRight'].position
      const [x, y] = subtract(place.at!, pupil).map((m) => m * 1000)
      expect(Math.hypot(x - r * Math.sin(angle), y - r * Math.cos(angle))).toBeLessThan(0.3)
      if (mm !== undefined) expect(Math.abs(taken.value(`source.A.catchlight.${eye}.height`) - mm)).toBeLessThan(0.3)
    }
    if (el === 60) expect(seen).toBe(0)
    else if (r * Math.cos(angle) < 3.5) expect(seen).toBeGreaterThan(0)
  })
})

test('against the mirror of each eye’s own mesh, within 0.2 mm', () => {
  for (const [az, el, turn] of [
    [0, 30, 0],
    [35, 35, 0],
    [50, 25, 20],
    [-40, 30, -15],
  ] as const) {
    const set = setGaze(setSitter(sitting(az, el), 'sitter', { headTurnDeg: turn }), 'sitter', 'camera')
    const taken = take(set)
    const { posed } = inputOf(set).rig.figures[0]
    const lampAt = set.sources[0].centreM
    for (const eye of EYES) {
      const at = taken.of(`source.A.catchlight.${eye}.clock`).place.at!
      const mesh = posed.parts.find(({ name }) => name === (eye === 'left' ? 'eyeLeft' : 'eyeRight'))!.mesh
      const hit = createRayCaster([{ kind: 'mesh', mesh }]).nearest(LENS, normalize(subtract(at, LENS)))!
      const met = add(LENS, scale(normalize(subtract(at, LENS)), hit.distance))
      expect(distance(met, at)).toBeLessThan(0.0001)
      const n = normalize(
        [0, 1, 2].map((k) =>
          [0, 1, 2].reduce(
            (sum, c) => sum + hit.barycentric[c] * mesh.normals[3 * mesh.indices[3 * hit.triangle + c] + k],
            0,
          ),
        ) as unknown as Vec3,
      )
      // Where the mesh's normal would have to stand, and how far along the ball it is from there.
      const half = normalize(add(normalize(subtract(LENS, met)), normalize(subtract(lampAt, met))))
      const offMm = CORNEA_RADIUS_MM * Math.acos(Math.min(1, dot(n, half)))
      expect(offMm).toBeLessThan(0.2)
    }
  }
})

test('the lid cuts it off between 50° and 60° for the average head (common practice, no source)', () => {
  const shows = (el: number) => EYES.every((eye) => take(sitting(0, el)).of(`source.A.catchlight.${eye}.clock`).value)
  expect(shows(50)).toBe(true)
  expect(shows(60)).toBe(false)
  const hidden = take(sitting(0, 65)).of('source.A.catchlight.left.clock')
  expect(hidden.value).toBeNull()
  expect(hidden.sentence).toMatch(/^the (lid|face) hides A from the eye at camera right\.$/)
})

test('a tall source is cut, not hidden, and the sentence says by how much', () => {
  const modifier = { ...defaultModifier('softbox'), widthM: 0.5, heightM: 1.4 }
  const base = setOf([lamp('A', { az: 0, el: 45, d: 1.2, modifier })])
  const { sentence } = take({ ...base, camera: { ...base.camera, positionM: LENS } }).of(
    'source.A.catchlight.left.clock',
  )
  expect(sentence).toMatch(/^o’clock is A's catchlight in the eye at camera right: the lid cuts off \d+ %\.$/)
})

test('eyes turned half the way to the light have its catchlight in the middle of the iris', () => {
  const offMm = (set: Parameters<typeof take>[0]) => {
    const { pupilLeft } = inputOf(set).rig.figures[0].posed.landmarks
    return 1000 * distance(take(set).of('source.A.catchlight.left.clock').place.at!, pupilLeft.position)
  }
  expect(offMm(sitting(40, 10, { sitter: { gaze: { acrossDeg: 20, upDeg: 5 } } }))).toBeLessThan(0.4)
  expect(offMm(sitting(40, 10))).toBeGreaterThan(2.4)
})

test('none from behind, from a source that is turned away, or from one that is off', () => {
  const behind = take(sitting(170, 10)).of('source.A.catchlight.left.clock')
  expect(behind.value).toBeNull()
  const set = sitting(0, 30)
  const [source] = set.sources
  const away = { ...set, sources: [{ ...source, aimM: add(source.centreM, [0, 0, 1]) }] }
  expect(take(away).of('source.A.catchlight.left.clock').sentence).toBe('A has its back to the eye.')
  const off = { ...set, sources: [{ ...source, on: false }] }
  expect(take(off).readings.some(({ id }) => id.includes('catchlight'))).toBe(false)
})
