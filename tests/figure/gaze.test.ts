import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { type LandmarkName, type Pose, type PosedFigure, poseFigure } from '../../src/figure'
import { lidOpening } from '../../src/figure/sculpt/eye'
import { createRayCaster } from '../../src/rays'
import { degrees, distance, dot, length, normalize, radians, subtract, type Vec3 } from '../../src/space'
import { expectSamePosed } from './same-posed'
import { asset, skin } from './sculpture'

const REST: Pose = { positionM: [0, 0, 0], eyeHeightM: 1.2, bodyTurnDeg: 0, headTurnDeg: 0, headTiltDeg: 0, chinDeg: 0 }
const posed = (change: Partial<Pose>): PosedFigure => poseFigure(asset, { ...REST, ...change })
const at = (figure: PosedFigure, name: LandmarkName): Vec3 => figure.landmarks[name].position
const SIDES = ['Left', 'Right'] as const
const sight = (figure: PosedFigure, side: (typeof SIDES)[number]): Vec3 =>
  normalize(subtract(at(figure, `pupil${side}`), at(figure, `eyeCentre${side}`)))
const eyeMesh = (figure: PosedFigure, side: (typeof SIDES)[number]) =>
  figure.parts.find(({ name }) => name === `eye${side}`)!.mesh
const vertex = (p: Float32Array, v: number): Vec3 => [p[v * 3], p[v * 3 + 1], p[v * 3 + 2]]

/** Head and body turned every way: what looks right only with the head straight does not pass here. */
const HELD: Partial<Pose> = {
  bodyTurnDeg: 25,
  headTurnDeg: 12,
  headTiltDeg: -9,
  chinDeg: 7,
  lean: { forwardM: 0.1, asideM: -0.05 },
}

test('left out, the eyes look straight ahead with the head', () => {
  const [held, ahead] = [posed(HELD), posed({ ...HELD, gaze: { acrossDeg: 0, upDeg: 0 } })]
  expectSamePosed(held, ahead)
  for (const side of SIDES) expect(distance(sight(held, side), held.noseDirection)).toBeLessThan(1e-6)
  expect(held.gaze).toEqual({ acrossDeg: 0, upDeg: 0, reached: true })
})

test('a free direction goes by the head: across to camera right, up, and both eyes alike', () => {
  const figure = posed({ gaze: { acrossDeg: 30, upDeg: 20 } })
  const [a, u] = [radians(30), radians(20)]
  for (const side of SIDES) {
    const to = sight(figure, side)
    expect(to[0]).toBeCloseTo(Math.sin(a) * Math.cos(u), 6)
    expect(to[1]).toBeCloseTo(Math.sin(u), 6)
    expect(to[2]).toBeCloseTo(Math.cos(a) * Math.cos(u), 6)
  }
  const turned = posed({ headTurnDeg: 40, gaze: { acrossDeg: -40 + 15, upDeg: 0 } })
  expect(degrees(Math.atan2(sight(turned, 'Left')[0], sight(turned, 'Left')[2]))).toBeCloseTo(15, 6)
})

test('both lines of sight meet in the lens, however the head is held', () => {
  const lens: Vec3 = [0.2, 1.15, 1.4]
  const figure = posed({ ...HELD, gaze: { atM: lens } })
  expect(figure.gaze.reached).toBe(true)
  for (const side of SIDES) {
    const centre = at(figure, `eyeCentre${side}`)
    expect(distance(sight(figure, side), normalize(subtract(lens, centre)))).toBeLessThan(1e-6)
    // The mesh's own foremost point lies on that line too: 13.15 mm from the centre (7.8 + 5.35).
    const apex = vertex(eyeMesh(figure, side).positions, 0)
    expect(distance(normalize(subtract(apex, centre)), sight(figure, side))).toBeLessThan(1e-4)
    expect(distance(apex, centre)).toBeCloseTo(0.01315, 5)
  }
})

test('EYE-CONVERGE: total convergence on a target straight ahead (check-values, a right triangle)', () => {
  const all = JSON.parse(readFileSync('shared/check-values.json', 'utf8')) as {
    readonly id: string
    readonly inputs: { readonly d_m: readonly number[] }
    readonly expected: readonly number[]
  }[]
  const record = all.find(({ id }) => id === 'EYE-CONVERGE')!
  expect(record.inputs.d_m.length).toBeGreaterThan(3)
  record.inputs.d_m.forEach((d, i) => {
    const figure = posed({ gaze: { atM: [0, 1.2, d] } })
    const angle = degrees(Math.acos(dot(sight(figure, 'Left'), sight(figure, 'Right'))))
    expect(angle).toBeCloseTo(record.expected[i], 4)
  })
})

test('the ball turns about its own centre and does not roll: Listing’s law', () => {
  const [ahead, figure] = [posed({}), posed({ gaze: { acrossDeg: 22, upDeg: -14 } })]
  for (const side of SIDES) {
    const centre = at(ahead, `eyeCentre${side}`)
    expect(at(figure, `eyeCentre${side}`)).toEqual(centre)
    const [p, q] = [eyeMesh(ahead, side), eyeMesh(figure, side)]
    // The axis of the shortest way is square to straight ahead and to the line of sight; along it nothing moves.
    const to = sight(figure, side)
    const axis = normalize([-to[1], to[0], 0])
    let moved = 0
    for (let v = 0; v < p.positions.length / 3; v++) {
      const [a, b] = [subtract(vertex(p.positions, v), centre), subtract(vertex(q.positions, v), centre)]
      expect(Math.abs(length(a) - length(b))).toBeLessThan(2e-7)
      expect(Math.abs(dot(a, axis) - dot(b, axis))).toBeLessThan(4e-7)
      expect(Math.abs(dot(vertex(p.normals, v), a) - dot(vertex(q.normals, v), b))).toBeLessThan(4e-7)
      moved = Math.max(moved, distance(a, b))
    }
    expect(moved).toBeGreaterThan(0.004)
  }
})

describe('out of reach', () => {
  test.each([
    ['beside', [3, 1.2, 0.5], 35, 0],
    ['above', [0, 4, 1], 0, 25],
    ['behind', [-0.4, 1.2, -2], -35, 0],
  ] as const)('%s: the eyes stop at the end of their range and say so', (_, lens, across, up) => {
    const figure = posed({ gaze: { atM: lens as Vec3 } })
    expect(figure.gaze).toEqual({ acrossDeg: across, upDeg: expect.closeTo(up, 9), reached: false })
    for (const side of SIDES) {
      const [x, y, z] = sight(figure, side)
      // Both eyes meet at the lens's distance, so each differs from the middle by half the convergence at most.
      const half = degrees(Math.atan(0.0315 / Math.hypot(lens[0], lens[1] - 1.2, lens[2])))
      expect(Math.abs(degrees(Math.atan2(x, z)) - across)).toBeLessThan(half + 0.2)
      expect(Math.abs(degrees(Math.asin(y)) - up)).toBeLessThan(half)
    }
  })
})

describe('the lids', () => {
  const ahead = posed({})
  const centres = SIDES.map((side) => at(ahead, `eyeCentre${side}`))
  const skinOf = (figure: PosedFigure) => figure.parts[0].mesh.positions

  test.each([25, 10, -10, -25])('%d° up: they slide over the ball, and brow, nose and cheek stay', (upDeg) => {
    const [p, q] = [skinOf(ahead), skinOf(posed({ gaze: { acrossDeg: 0, upDeg } }))]
    let [upper, lower] = [0, 0]
    for (let v = 0; v < p.length / 3; v++) {
      const [a, b] = [vertex(p, v), vertex(q, v)]
      const centre = centres.reduce((near, c) => (distance(a, c) < distance(a, near) ? c : near))
      const far = distance(a, centre)
      expect(Math.abs(distance(b, centre) - far)).toBeLessThan(3e-7)
      if (far > 0.027) expect(b).toEqual(a)
      const [x, y, z] = subtract(a, centre)
      if (Math.abs(x) > 0.002 || far > 0.0145 || z < 0) continue
      const rise = (b[1] - a[1]) * Math.sign(upDeg)
      if (y > 0.004) upper = Math.max(upper, rise)
      if (y < -0.004 && y > -0.008) lower = Math.max(lower, rise)
    }
    // A third of the way at least, on a ball of 12 mm: the upper lid; a quarter the lower one.
    expect(upper).toBeGreaterThan((0.012 * radians(Math.abs(upDeg))) / 3)
    expect(lower).toBeGreaterThan((0.012 * radians(Math.abs(upDeg))) / 4)
  })

  test('looking aside moves none of the skin', () => {
    expect(skinOf(posed({ gaze: { acrossDeg: 30, upDeg: 0 } }))).toEqual(skinOf(ahead))
  })

  test('pupils show from the front all the way down', () => {
    const figure = posed({ gaze: { acrossDeg: 0, upDeg: -25 } })
    const caster = createRayCaster([{ kind: 'mesh', mesh: figure.parts[0].mesh }])
    for (const side of SIDES) expect(caster.visible(at(figure, `pupil${side}`), [0, 1.2, 2])).toBe(true)
  })
})

test('at the ends of the range the bulge of the cornea stays under the lids', () => {
  let under = 0
  for (const acrossDeg of [-35, 0, 35])
    for (const upDeg of [-25, 0, 25]) {
      const p = eyeMesh(posed({ eyeHeightM: 0, gaze: { acrossDeg, upDeg } }), 'Left').positions
      for (let v = 0; v < p.length / 3; v++) {
        const [x, y, z] = vertex(p, v).map((m) => m * 1000)
        if (z < 3 || lidOpening(x - 31.5, y) < 0.6) continue
        under++
        if (skin(x, y, z) > 0)
          throw new Error(`${acrossDeg}° ${upDeg}°: vertex ${v} at ${x}, ${y}, ${z} mm is out of the lid`)
      }
    }
  expect(under).toBeGreaterThan(500)
})
