import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import {
  DEFAULT_GLASSES,
  type FigureAsset,
  FRAME_KINDS,
  type Glasses,
  meetLens,
  onLens,
  outlineAt,
  outlineLevel,
  poseFigure,
  readFigureAsset,
  SHAPE_PRESET_NAMES,
  SHAPE_PRESETS,
  type SpectacleLens,
  shapeFigure,
  wearGlasses,
} from '../../src/figure'
import { createRayCaster } from '../../src/rays'
import { add, addScaled, cross, distance, dot, length, normalize, scale, subtract, type Vec3 } from '../../src/space'

const asset = readFigureAsset(new Uint8Array(readFileSync('assets/sitter.glb')))
const MM = 1000
const worn = (shape: FigureAsset, change: Partial<Glasses> = {}) =>
  wearGlasses(shape, { ...DEFAULT_GLASSES, ...change })
const frameOf = (figure: FigureAsset) => figure.parts.find(({ name }) => name === 'glasses')!
const vertices = ({ mesh: { positions: p } }: { readonly mesh: { readonly positions: Float32Array } }): Vec3[] =>
  Array.from({ length: p.length / 3 }, (_, i): Vec3 => [p[3 * i], p[3 * i + 1], p[3 * i + 2]])

/** Least distance from any vertex of the frame that passes to any of the sitter's skin or eyes, and the place of it. */
function nearest(figure: FigureAsset, parts: readonly string[], passes: (v: Vec3) => boolean): number {
  const frame = vertices(frameOf(figure)).filter(passes)
  expect(frame.length, 'nothing to measure').toBeGreaterThan(8)
  const body = figure.parts.filter(({ name }) => parts.includes(name)).flatMap(vertices)
  const [low, high] = [0, 1, 2].reduce<[number[], number[]]>(
    ([a, b], k) => [
      [...a, Math.min(...frame.map((v) => v[k])) - 0.01],
      [...b, Math.max(...frame.map((v) => v[k])) + 0.01],
    ],
    [[], []],
  )
  const near = body.filter((v) => v.every((c, k) => c > low[k] && c < high[k]))
  return Math.min(...frame.map((v) => Math.min(...near.map((w) => distance(v, w))))) * MM
}

describe.each(SHAPE_PRESET_NAMES)('on the head of the preset %s', (name) => {
  const shape = shapeFigure(asset, SHAPE_PRESETS[name])
  const figure = worn(shape)
  const { left, right } = figure.lenses!
  const skin = createRayCaster([{ kind: 'mesh', mesh: shape.parts[0].mesh }])
  const inside = (v: Vec3, way: Vec3) => skin.nearest(v, way)?.fromBehind === true

  test('the lens stands 13 mm before the cornea (12 to 15: see VERTEX_DISTANCE), eyes and lashes clear', () => {
    for (const [lens, eye] of [
      [left, 'Left'],
      [right, 'Right'],
    ] as const) {
      const centre = shape.landmarks[`eyeCentre${eye}`].position
      const pupil = shape.landmarks[`pupil${eye}`].position
      const met = meetLens(lens, pupil, addScaled(pupil, [0, 0, 1], 0.06))!
      const front = met.share * 60
      // 2 mm of lens; deep-set eyes under a jutting brow may ask for more.
      expect(front - 2).toBeGreaterThan(12.9)
      expect(front - 2).toBeLessThanOrEqual(15.1)
      expect(distance(centre, pupil) * MM).toBeGreaterThan(10)
    }
    // Upper lashes reach some 10 mm from the lid's rim (from memory), and less far forward as they curl up.
    expect(nearest(figure, ['eyeLeft', 'eyeRight'], () => true)).toBeGreaterThan(10)
  })

  test('rims and bridge clear the skin; the pads rest on the nose, the temples on the ears, within 1.5 mm', () => {
    const { origin } = left.frame
    const onNose = (v: Vec3) => Math.abs(v[0]) < origin[0] - left.halfWidthM + 0.002 && v[2] > 0
    expect(nearest(figure, ['skin'], onNose)).toBeLessThan(1.5)
    const atEar = (v: Vec3) => v[2] < shape.landmarks.earLeft.position[2] - 0.01
    expect(nearest(figure, ['skin'], atEar)).toBeLessThan(1.5)
    const frame = vertices(frameOf(figure))
    // No vertex of rims, bridge and the temples before the ear lies in the head; pads may sink in as on a real nose.
    const before = frame.filter((v) => v[2] > shape.landmarks.earLeft.position[2] && !(Math.abs(v[0]) < 0.016))
    expect(before.length).toBeGreaterThan(500)
    expect(before.filter((v) => inside(v, [0, 0, 1]) && inside(v, [0, 1, 0]))).toEqual([])
    const bridge = frame.filter((v) => Math.abs(v[0]) < 0.004)
    expect(bridge.length).toBeGreaterThan(8)
    expect(bridge.filter((v) => inside(v, [0, 0, 1]))).toEqual([])
  })

  test('both halves mirror each other', () => {
    const frame = vertices(frameOf(figure))
    for (const v of frame.filter((_, i) => i % 37 === 0))
      expect(Math.min(...frame.map((w) => distance(w, [-v[0], v[1], v[2]])))).toBeLessThan(1e-6)
    expect(distance(right.frame.origin, [-left.frame.origin[0], left.frame.origin[1], left.frame.origin[2]])).toBe(0)
  })
})

test.each(FRAME_KINDS)('a frame of %s is closed, wound outwards, its proxy too', (frame) => {
  const part = frameOf(worn(asset, { frame }))
  for (const indices of [part.mesh.indices, part.proxyIndices]) {
    const edges = new Map<string, number>()
    let volume = 0
    const p = (i: number): Vec3 => [0, 1, 2].map((k) => part.mesh.positions[3 * i + k]) as unknown as Vec3
    for (let i = 0; i < indices.length; i += 3) {
      const [a, b, c] = [indices[i], indices[i + 1], indices[i + 2]]
      for (const [from, to] of [
        [a, b],
        [b, c],
        [c, a],
      ])
        edges.set(`${from} ${to}`, (edges.get(`${from} ${to}`) ?? 0) + 1)
      volume += dot(p(a), cross(p(b), p(c))) / 6
    }
    for (const [edge, count] of edges) {
      const [from, to] = edge.split(' ')
      expect(count + 10 * (edges.get(`${to} ${from}`) ?? 0), edge).toBe(11)
    }
    // A pair of plastic frames without lenses weighs 8 to 25 g at 1.3 g/cm³; wire has less volume (from memory).
    expect(volume * 1e6).toBeGreaterThan(frame === 'metal' ? 0.5 : 5)
    expect(volume * 1e6).toBeLessThan(25)
  }
})

test('the most tilted, flattest and most curved ones stand clear of the face too', () => {
  const skin = createRayCaster([{ kind: 'mesh', mesh: asset.parts[0].mesh }])
  for (const tiltDeg of [-5, 25])
    for (const frontCurveD of [0, 9]) {
      const frame = vertices(frameOf(worn(asset, { tiltDeg, frontCurveD })))
      expect(frame.every((v) => v.every(Number.isFinite))).toBe(true)
      // All but the pads, which rest on the nose.
      const before = frame.filter((v) => v[2] > 0 && Math.abs(v[0]) > 0.016)
      expect(before.filter((v) => skin.nearest(v, [0, 0, 1])?.fromBehind)).toEqual([])
    }
})

test('lenses and frame are rigid with the head', () => {
  const pose = {
    positionM: [0, 0, 0] as Vec3,
    eyeHeightM: 1.2,
    bodyTurnDeg: 10,
    headTurnDeg: 25,
    headTiltDeg: 5,
    chinDeg: 4,
  }
  const posed = poseFigure(worn(asset), pose)
  const { left } = posed.lenses!
  // Rim vertices of the left lens keep their place in its frame.
  const rest = worn(asset)
  const at = (figure: { mesh: { positions: Float32Array } }, lens: SpectacleLens, i: number) => {
    const v = subtract(vertices(figure)[i], lens.frame.origin)
    return [dot(v, lens.frame.x), dot(v, lens.frame.y), dot(v, lens.frame.z)]
  }
  const turned = posed.parts.find(({ name }) => name === 'glasses')!
  for (const i of [0, 100, 300, 500])
    at(turned, left, i).forEach((c, k) => {
      expect(c).toBeCloseTo(at(frameOf(rest), rest.lenses!.left, i)[k], 6)
    })
})

describe('the lens as a surface', () => {
  const { left } = worn(asset).lenses!
  const flat: SpectacleLens = { ...left, curvature: 0 }

  test('front curve: 4 D at the tool index 1.53 is a radius of 132.5 mm', () => {
    expect(MM / left.curvature).toBeCloseTo(132.5, 6)
    const { point } = onLens(left, 0.02, 0.01)
    expect(distance(point, addScaled(left.frame.origin, left.frame.z, -1 / left.curvature)) * MM).toBeCloseTo(132.5, 6)
  })

  test('frame tilt: the lens leans by it from the upright', () => {
    for (const tiltDeg of [0, 8, 15]) {
      const { frame } = worn(asset, { tiltDeg }).lenses!.left
      // Square to the lens's own x the tilt stands as named; the face form turns x alone.
      expect(Math.asin(-frame.z[1]) * (180 / Math.PI)).toBeCloseTo(
        (Math.asin(Math.sin((tiltDeg * Math.PI) / 180) * Math.cos((5 * Math.PI) / 180)) * 180) / Math.PI,
        6,
      )
    }
  })

  test('a way through it is met on the surface within the outline, and nowhere else', () => {
    for (const lens of [left, flat])
      for (const [x, y, hits] of [
        [0, 0, true],
        [0.022, 0.004, true],
        [-0.01, -0.015, true],
        [0.03, 0, false],
        [0, 0.025, false],
        [0.024, 0.018, false],
      ] as const) {
        const { point, normal } = onLens(lens, x, y)
        expect(length(normal)).toBeCloseTo(1, 9)
        expect(outlineLevel(lens, x, y) < 1).toBe(hits)
        for (const way of [normal, normalize(add(normal, scale(lens.frame.x, 0.5))), lens.frame.z]) {
          const [from, to] = [addScaled(point, way, 0.7), addScaled(point, way, -0.05)]
          const met = meetLens(lens, from, to)
          expect(met !== null).toBe(hits)
          if (!met) continue
          expect(met.share).toBeCloseTo(0.7 / 0.75, 6)
          expect(distance(met.normal, normal)).toBeLessThan(1e-9)
          // From behind it is the same place.
          expect(meetLens(lens, to, from)!.share).toBeCloseTo(0.05 / 0.75, 6)
          expect(meetLens(lens, from, addScaled(point, way, 0.001))).toBeNull()
        }
      }
  })

  test('its outline is as wide and high as it says, a little narrower below', () => {
    const points = Array.from({ length: 720 }, (_, i) => outlineAt(left, (i * Math.PI) / 360))
    for (const [x, y] of points) expect(outlineLevel(left, x, y)).toBeCloseTo(1, 9)
    expect(Math.max(...points.map(([, y]) => y))).toBeCloseTo(left.halfHeightM, 9)
    const half = Math.max(...points.map(([x]) => x))
    expect(half / left.halfWidthM).toBeGreaterThan(1)
    expect(half / left.halfWidthM).toBeLessThan(1.05)
  })
})
