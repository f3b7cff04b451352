import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import {
  dressFigure,
  growStrands,
  growWisps,
  lidStrands,
  PLAIN_WEAR,
  type Pose,
  poseFigure,
  readWardrobe,
  restStrands,
  SHAPE_PRESET_NAMES,
  SHAPE_PRESETS,
  type StrandsAtRest,
  shapeFigure,
  strandsWith,
  type Wear,
} from '../../src/figure'
import { createRayCaster } from '../../src/rays'
import { add, addScaled, normalize, rotateAbout, scale, subtract, type Vec3 } from '../../src/space'
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
const wisps = growWisps(asset)
const posedAs = (shape: keyof typeof SHAPE_PRESETS, pose: Partial<Pose> = {}) =>
  poseFigure(shapeFigure(asset, SHAPE_PRESETS[shape]), { ...REST, ...pose })
const point = (values: Float32Array, i: number) => [0, 1, 2].map((k) => values[i * 3 + k] * 1000)
const gap = (a: readonly number[], b: readonly number[]) => Math.hypot(...a.map((v, k) => v - b[k]))

/** First and last point of each strand of a kind, mm. */
function ends(strands: StrandsAtRest, kind: string) {
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
  const strands = lidStrands(binding, posed)

  /** Anatomy texts, from memory: some 100 to 150 lashes above, 70 to 80 below; brows of 250 hairs and more. */
  test('as many lashes and hairs as people have', () => {
    const count = (kind: string) => strands.kinds.filter((one) => one === kind).length / 2
    expect(count('lash')).toBeGreaterThan(160)
    expect(count('lash')).toBeLessThan(235)
    expect(count('brow')).toBeGreaterThan(250)
    expect(count('tear')).toBe(1)
  })

  test('every root lies near the skin vertex whose light it takes: 2.5 mm on the face, 8 mm over the edge of the hair', () => {
    const skin = posed.parts[0].mesh.positions
    strands.kinds.forEach((kind, s) => {
      const first = strands.starts[s]
      const from = gap(point(strands.positions, first), point(skin, strands.roots[first]))
      expect(from).toBeLessThan(kind === 'hairline' ? 8 : 2.5)
    })
  })

  /** A few thousand; length and way of growth of short hairs at a hairline: common knowledge, no source. */
  test('short hairs all round the hairline: forward on the forehead, as hair grows from a whorl at the crown, and down at the nape', () => {
    const hairs = ends(strands, 'hairline')
    expect(hairs.length).toBeGreaterThan(2000)
    expect(hairs.length).toBeLessThan(5000)
    for (const { root, tip } of hairs) expect(gap(root, tip)).toBeLessThan(18)
    const share = (some: typeof hairs, is: (one: (typeof hairs)[number]) => boolean) =>
      some.filter(is).length / some.length
    const forehead = hairs.filter(({ root }) => root[1] > 55 && root[2] > -20)
    const nape = hairs.filter(({ root }) => root[1] < -40 && root[2] < -90)
    expect(Math.min(forehead.length, nape.length)).toBeGreaterThan(150)
    expect(share(forehead, ({ root, tip }) => tip[1] < root[1])).toBeGreaterThan(0.9)
    expect(share(nape, ({ root, tip }) => tip[1] < root[1])).toBeGreaterThan(0.9)
  })

  /** Loose on the hair, drawn to a point, no hair of a crop longer than 3 cm: common knowledge, no source. */
  test('wisps root in the mass of hair, stand off it by some millimetres at their tips, and run on over the hairline', () => {
    const mesh = posed.parts.find((part) => part.name === 'hair')!.mesh
    const onHair = restStrands(wisps, posed, 'hair')
    const hair = createRayCaster([{ kind: 'mesh', mesh: posed.parts.find((part) => part.name === 'hair')!.part.mesh }])
    const loose = ends(onHair, 'wisp')
    expect(loose.length).toBeGreaterThan(3000)
    const isIn = (p: readonly number[]) => {
      const at: Vec3 = [p[0] / 1000, p[1] / 1000, p[2] / 1000]
      const out = normalize(subtract(at, [0, 0.02, -0.08]))
      const hit = hair.nearest(addScaled(at, out, 0.012), scale(out, -1))
      return hit !== null && hit.distance < 0.0118
    }
    for (const { root, tip } of loose) expect(gap(root, tip)).toBeLessThan(30)
    const some = loose.filter((_, i) => i % 8 === 0)
    const share = (is: (one: (typeof loose)[number]) => boolean) => some.filter(is).length / some.length
    expect(share(({ root }) => isIn(root))).toBeGreaterThan(0.8)
    expect(share(({ tip }) => !isIn(tip))).toBeGreaterThan(0.6)
    // Some fly off: nothing of the mass within 3.5 mm of their tips.
    const fliesOff = ({ tip }: (typeof loose)[number]) => {
      const at: Vec3 = [tip[0] / 1000, tip[1] / 1000, tip[2] / 1000]
      const hit = hair.nearest(at, normalize(subtract([0, 0.02, -0.08], at)))
      return !isIn(tip) && hit !== null && hit.distance > 0.0035
    }
    expect(share(fliesOff)).toBeGreaterThan(0.04)
    expect(share(fliesOff)).toBeLessThan(0.4)
    expect(Math.max(...onHair.roots)).toBeLessThan(mesh.positions.length / 3)
    for (const weight of onHair.headWeights) expect(weight).toBeGreaterThan(0)
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
  const ahead = ends(lidStrands(binding, posedAs('average')), 'lash')
  const down = ends(lidStrands(binding, posedAs('average', { gaze: { acrossDeg: 0, upDeg: -20 } })), 'lash')
  const upper = ahead.flatMap(({ root }, i) => (root[1] > 2.5 && Math.abs(Math.abs(root[0]) - 31.5) < 6 ? [i] : []))
  expect(upper.length).toBeGreaterThan(40)
  for (const i of upper) {
    expect(down[i].root[1]).toBeLessThan(ahead[i].root[1] - 1.5)
    expect(down[i].tip[1]).toBeLessThan(ahead[i].tip[1] - 1.5)
    expect(gap(down[i].root, down[i].tip) / gap(ahead[i].root, ahead[i].tip)).toBeCloseTo(1, 2)
  }
})

test('no short hairs on a shaved or covered head; below a hat and before long hair only some', () => {
  const count = (wear: Wear) => growStrands(asset, wear).kinds.filter((kind) => kind === 'hairline').length
  expect(count({ hairCut: 'bald', headwear: 'none' })).toBe(0)
  expect(count({ hairCut: 'short', headwear: 'covering' })).toBe(0)
  const all = count(PLAIN_WEAR)
  for (const wear of [
    { hairCut: 'short', headwear: 'hat' },
    { hairCut: 'long', headwear: 'none' },
  ] as const) {
    expect(count(wear)).toBeGreaterThan(0)
    expect(count(wear)).toBeLessThan(0.7 * all)
  }
})

/** Every look of the camera draws them all twice: what a graphics card does by the way. Limits of our own. */
test('wisps on either cut, none on a shaved or covered head, few below a hat; all strands are at most 23,000 pieces', () => {
  const piecesOf = ({ starts, kinds }: { starts: Uint32Array; kinds: readonly unknown[] }) =>
    starts[starts.length - 1] - kinds.length
  const wardrobe = readWardrobe({
    longHair: new Uint8Array(readFileSync('assets/long-hair.glb')),
    hat: new Uint8Array(readFileSync('assets/hat.glb')),
    covering: new Uint8Array(readFileSync('assets/covering.glb')),
  })
  const grown = (wear: Wear) => growWisps(dressFigure(asset, wear, wardrobe), wear)
  const long = { hairCut: 'long', headwear: 'none' } as const
  for (const wear of [PLAIN_WEAR, long]) {
    const pieces = piecesOf(grown(wear))
    expect(pieces).toBeGreaterThan(6000)
    expect(pieces + piecesOf(growStrands(asset, wear))).toBeLessThan(23_000)
  }
  for (const wear of [
    { hairCut: 'bald', headwear: 'none' },
    { hairCut: 'long', headwear: 'covering' },
  ] as const)
    expect(grown(wear).kinds).toEqual([])
  const underHat = grown({ ...PLAIN_WEAR, headwear: 'hat' }).kinds.length
  expect(underHat).toBeGreaterThan(100)
  expect(underHat).toBeLessThan(0.7 * wisps.kinds.length)
})

/** How hair is cut and hangs: common knowledge, no source. */
test('long hair ends in tips at unlike heights, over the shoulders, and none hangs under the chin', () => {
  const wardrobe = readWardrobe({ longHair: new Uint8Array(readFileSync('assets/long-hair.glb')) })
  const wear = { hairCut: 'long', headwear: 'none' } as const
  const dressed = dressFigure(asset, wear, wardrobe)
  const posed = poseFigure(dressed, REST)
  const low = ends(restStrands(growWisps(dressed, wear), posed, 'hair'), 'wisp').filter(({ tip }) => tip[1] < -75)
  expect(low.length).toBeGreaterThan(800)
  const chin = asset.landmarks.chin.position.map((v) => v * 1000)
  const shoulder = -175
  const sectors = new Map<number, number[]>()
  for (const { tip } of low) {
    expect(tip[1]).toBeGreaterThan(shoulder)
    expect(tip[1] < chin[1] && tip[2] > -40).toBe(false)
    const sector = Math.floor(Math.atan2(tip[0], tip[2] + 95) * 6)
    sectors.set(sector, [...(sectors.get(sector) ?? []), tip[1]])
  }
  const deviation = (values: readonly number[]) => {
    const mean = values.reduce((sum, v) => sum + v, 0) / values.length
    return Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / values.length)
  }
  const spreads = [...sectors.values()].filter(({ length }) => length > 20).map(deviation)
  expect(spreads.length).toBeGreaterThan(12)
  for (const mm of spreads) expect(mm).toBeGreaterThan(3)
})

/** The head's frame and its carriage against the posed skin: the same to a fifth of a millimetre, where the neck bends too. */
test('strands at rest are carried to where the posed skin takes them', () => {
  const turned = { headTurnDeg: 35, chinDeg: 8, headTiltDeg: -6, bodyTurnDeg: 12, positionM: [0.2, 0, -0.3] as const }
  const pose = { ...turned, eyeHeightM: 1.1, lean: { forwardM: 0.08, asideM: 0.02 } }
  const [posed, looking] = [posedAs('child', pose), posedAs('child', { ...pose, gaze: { acrossDeg: 0, upDeg: -12 } })]
  const [head, lids] = [strandsWith(binding, 'with head'), strandsWith(binding, 'with lids')]
  expect(head.kinds.length + lids.kinds.length).toBe(binding.kinds.length)
  const { pivot, at, head: turn, body } = posed.carriage
  const groups = [
    { group: head, strands: restStrands(head, posed), skin: posed.parts[0], most: 0.2 },
    // Those of the lids stand off the skin by up to their own length.
    { group: lids, strands: lidStrands(lids, looking), skin: looking.parts[0], most: 12 },
  ]
  for (const { group, strands, skin, most } of groups)
    strands.headWeights.forEach((weight, i) => {
      const own = [0, 1, 2].map((k) => strands.positions[i * 3 + k]) as unknown as Vec3
      const onBody = add(pivot, turnedBy(scale(turn, weight), subtract(own, pivot)))
      const carried = add(at, turnedBy(body, onBody)).map((v) => v * 1000)
      const foot = [0, 1, 2].map((k) =>
        [0, 1, 2].reduce((sum, corner) => {
          const j = i * 3 + corner
          const vertex = group.corners[j] * 3 + k
          const lifted = skin.mesh.positions[vertex] + group.liftsM[i] * skin.mesh.normals[vertex]
          return sum + 1000 * group.weights[j] * lifted
        }, 0),
      )
      expect(gap(carried, foot)).toBeLessThan(most)
    })
})

function turnedBy(by: Vec3, v: Vec3): Vec3 {
  const angle = Math.hypot(...by)
  return angle === 0 ? v : rotateAbout(v, scale(by, 1 / angle), angle)
}
