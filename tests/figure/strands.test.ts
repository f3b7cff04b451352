import { describe, expect, test } from 'vitest'
import {
  growStrands,
  type Pose,
  poseFigure,
  poseStrands,
  SHAPE_PRESET_NAMES,
  SHAPE_PRESETS,
  type Strands,
  shapeFigure,
} from '../../src/figure'
import { asset } from './sculpture'

const REST: Pose = {
  positionM: [0, 0, 0],
  eyeHeightM: 0,
  bodyTurnDeg: 0,
  headTurnDeg: 0,
  headTiltDeg: 0,
  chinDeg: 0,
}
const binding = growStrands(asset)
const posedAs = (shape: keyof typeof SHAPE_PRESETS, pose: Partial<Pose> = {}) =>
  poseFigure(shapeFigure(asset, SHAPE_PRESETS[shape]), { ...REST, ...pose })
const point = (values: Float32Array, i: number) => [0, 1, 2].map((k) => values[i * 3 + k] * 1000)
const gap = (a: readonly number[], b: readonly number[]) => Math.hypot(...a.map((v, k) => v - b[k]))

/** First and last point of each strand of a kind, mm. */
function ends(strands: Strands, kind: string) {
  return strands.kinds.flatMap((one, s) =>
    one === kind
      ? [
          {
            root: point(strands.positions, strands.starts[s]),
            tip: point(strands.positions, strands.starts[s + 1] - 1),
          },
        ]
      : [],
  )
}

describe.each(SHAPE_PRESET_NAMES)('on the shape %s', (name) => {
  const posed = posedAs(name)
  const strands = poseStrands(binding, posed)

  /** Anatomy texts, from memory: some 100 to 150 lashes above, 70 to 80 below; brows of 250 hairs and more. */
  test('as many lashes and hairs as people have', () => {
    const count = (kind: string) => strands.kinds.filter((one) => one === kind).length / 2
    expect(count('lash')).toBeGreaterThan(160)
    expect(count('lash')).toBeLessThan(235)
    expect(count('brow')).toBeGreaterThan(250)
    expect(count('tear')).toBe(1)
  })

  test('every root lies within 2.5 mm of the skin vertex whose light it takes', () => {
    const skin = posed.parts[0].mesh.positions
    strands.kinds.forEach((_, s) => {
      const first = strands.starts[s]
      expect(gap(point(strands.positions, first), point(skin, strands.roots[first]))).toBeLessThan(2.5)
    })
  })

  test('lashes stand out of the lids in front of the ball, and are no longer than 12 mm', () => {
    const centres = [posed.landmarks.eyeCentreLeft, posed.landmarks.eyeCentreRight].map(({ position }) =>
      position.map((v) => v * 1000),
    )
    for (const { root, tip } of ends(strands, 'lash')) {
      const from = (p: readonly number[]) => Math.min(...centres.map((c) => gap(c, p)))
      expect(from(root)).toBeGreaterThan(11.5)
      expect(from(tip)).toBeGreaterThan(from(root) + 1)
      expect(gap(root, tip)).toBeLessThan(12)
    }
  })

  test('hairs of the brow lie along the skin: all within 1.5 mm of it', () => {
    const { corners, weights, starts } = binding
    const skin = posed.parts[0].mesh.positions
    strands.kinds.forEach((kind, s) => {
      if (kind !== 'brow') return
      for (let i = starts[s]; i < starts[s + 1]; i++) {
        const foot = [0, 1, 2].map(
          (k) => 1000 * [0, 1, 2].reduce((sum, c) => sum + weights[i * 3 + c] * skin[corners[i * 3 + c] * 3 + k], 0),
        )
        expect(gap(foot, point(strands.positions, i))).toBeLessThan(1.5)
      }
    })
  })
})

test('upper lashes go down with the lid when the eyes look down, and hardly stretch', () => {
  const ahead = ends(poseStrands(binding, posedAs('average')), 'lash')
  const down = ends(poseStrands(binding, posedAs('average', { gaze: { acrossDeg: 0, upDeg: -20 } })), 'lash')
  const upper = ahead.flatMap(({ root }, i) => (root[1] > 2.5 && Math.abs(Math.abs(root[0]) - 31.5) < 6 ? [i] : []))
  expect(upper.length).toBeGreaterThan(40)
  for (const i of upper) {
    expect(down[i].root[1]).toBeLessThan(ahead[i].root[1] - 1.5)
    expect(down[i].tip[1]).toBeLessThan(ahead[i].tip[1] - 1.5)
    expect(gap(down[i].root, down[i].tip) / gap(ahead[i].root, ahead[i].tip)).toBeCloseTo(1, 2)
  }
})

test('a turned head takes them along rigidly', () => {
  const turned = posedAs('average', { headTurnDeg: 40, chinDeg: -10, headTiltDeg: 8 })
  const [a, b] = [poseStrands(binding, posedAs('average')), poseStrands(binding, turned)]
  const n = a.halfWidthsM.length
  for (let i = 0; i < n; i += 37) {
    const j = (i * 7 + 11) % n
    const before = gap(point(a.positions, i), point(a.positions, j))
    expect(gap(point(b.positions, i), point(b.positions, j))).toBeCloseTo(before, 2)
  }
})
