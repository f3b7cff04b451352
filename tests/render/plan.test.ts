import { expect, test } from 'vitest'
import { buildModifier, defaultModifier, MODIFIER_KINDS } from '../../src/gear'
import { changesBetween, isDisturbed } from '../../src/render/changes'
import { nextLayers } from '../../src/render/layers'
import { LightLayer } from '../../src/render/light-layer'
import { seenCloud } from '../../src/render/reach'
import { drawBatch, shares } from '../../src/render/samples'
import { boundingSphere, fitShadowView, type ShadowView } from '../../src/render/shadow-frustum'
import type { Rig } from '../../src/rig'
import { add, addScaled, dot, hash32, normalize, scale, type Vec3 } from '../../src/space'
import { lamp, rigs, SURFACES } from './rigs'

const random = (i: number, stream: number) => hash32(i, stream) / 2 ** 32
const direction = (i: number): Vec3 => normalize([0, 1, 2].map((k) => random(i, k) - 0.5) as unknown as Vec3)
const NOWHERE = { points: [], balls: [] }
const clip = ({ rows }: ShadowView, p: Vec3) => rows.map(([axis, offset]) => dot(axis, p) + offset)

test.each([0.5, 0.9, 2, 10])('a shadow map from %d m holds the casters’ whole sphere', (distance) => {
  const sphere = { centre: [0.1, 1.2, -0.2] as Vec3, radiusM: 0.4 }
  for (let i = 0; i < 200; i++) {
    const from = addScaled(sphere.centre, direction(i), distance)
    const view = fitShadowView(from, direction(i + 999), sphere)
    const [x, y, z, w] = clip(view, addScaled(sphere.centre, direction(i + 5000), sphere.radiusM * 0.9999))
    for (const value of [x, y, z]) expect(Math.abs(value) / w).toBeLessThanOrEqual(1)
  }
})

test('from within the sphere the map looks along the normal', () => {
  const normal = direction(3)
  const view = fitShadowView([0, 0, 0], normal, { centre: [0, 0, 0.1], radiusM: 1 })
  const [x, y, , w] = clip(view, normal)
  expect(Math.hypot(x, y)).toBeLessThan(1e-9)
  expect(w).toBeCloseTo(1, 12)
})

test('the sphere about points holds them all; about none there is none', () => {
  const points = Float32Array.from({ length: 300 }, (_, i) => random(i, 9))
  const sphere = boundingSphere(points)!
  for (let i = 0; i < 300; i += 3)
    expect(Math.hypot(...[0, 1, 2].map((k) => points[i + k] - sphere.centre[k]))).toBeLessThanOrEqual(sphere.radiusM)
  expect(boundingSphere([])).toBeNull()
})

test('sixteen points a batch, whatever the emitters; the weights add up to the lit area', () => {
  const source = rigs.disc().sources[0]
  const [front] = source.emitters
  const back = { ...front, part: 'back' as const }
  for (const emitters of [[front], [front, back], [front, back, back], [front, front], [back], Array(6).fill(front)])
    expect(shares(emitters).reduce((sum, share) => sum + share, 0)).toBe(16)
  const batch = drawBatch({ source, batches: 3, seen: NOWHERE, sitters: null }, 1)
  const [mapped, even] = [batch.mapped, batch.even()]
  for (const points of [mapped, even])
    expect(points.reduce((sum, { weightM2 }) => sum + weightM2, 0) / 16).toBeCloseTo(Math.PI * 0.25, 12)
  expect([mapped.length, even.length]).toEqual([16, 64])
})

test('a thin first batch has a point for each face, weighs as much, and is evened out by as many', () => {
  const source = rigs.disc().sources[0]
  const [front] = source.emitters
  const back = { ...front, part: 'back' as const }
  for (const total of [4, 8])
    for (const emitters of [
      [front],
      [front, back],
      [front, back, back],
      [front, front],
      [back],
      Array(4).fill(front),
    ]) {
      const counts = shares(emitters, total)
      expect(counts.reduce((sum, share) => sum + share, 0)).toBe(total)
      expect(Math.min(...counts)).toBeGreaterThan(0)
    }
  const batch = drawBatch({ source, batches: 0, firstPoints: 4, seen: NOWHERE, sitters: null }, 1)
  const [mapped, even] = [batch.mapped, batch.even()]
  for (const points of [mapped, even])
    expect(points.reduce((sum, { weightM2 }) => sum + weightM2, 0) / 16).toBeCloseTo(Math.PI * 0.25, 12)
  expect([mapped.length, even.length]).toEqual([4, 64])
})

test.each(MODIFIER_KINDS.map(({ id }) => id))('%s: the first points lie all over each lit face', (id) => {
  const source = rigs.disc().sources[0]
  const [{ frame }] = source.emitters
  const { emitters } = buildModifier(defaultModifier(id))
  for (const { emission, part } of emitters.filter(({ part }) => part === 'front')) {
    const lone = { ...source, emitters: [{ id: 'A', part, frame, emission, cloth: null }] } as unknown as typeof source
    const { mapped } = drawBatch({ source: lone, batches: 0, seen: NOWHERE, sitters: null }, 1)
    const { x, y } = frame
    const spread = (axis: Vec3) => {
      const places = mapped.map(({ point }) => dot(point, axis))
      const mean = places.reduce((sum, place) => sum + place, 0) / places.length
      return Math.sqrt(places.reduce((sum, place) => sum + (place - mean) ** 2, 0) / places.length)
    }
    const [width, height] = [spread(x), spread(y)]
    const wanted = emission.surface.shape === 'rectangle' ? emission.surface.widthM / emission.surface.heightM : 1
    expect(width / height / wanted).toBeGreaterThan(0.6)
    expect(width / height / wanted).toBeLessThan(1.7)
  }
})

test('light that cannot reach the sitters takes no map from light that can', () => {
  const source = rigs.disc().sources[0]
  const [front] = source.emitters
  const away = { ...front, part: 'spill', frame: { ...front.frame, z: scale(front.frame.z, -1) } } as const
  const sitters = { centre: add(front.frame.origin, scale(front.frame.z, 1)), radiusM: 0.4 }
  const both = { ...source, emitters: [front, away] }
  const counts = (place: Vec3, radiusM: number) => {
    const batch = drawBatch(
      {
        source: both,
        batches: 0,
        seen: { points: [], balls: [{ centre: place, radiusM: 0.2 }] },
        sitters: { ...sitters, radiusM },
      },
      1,
    )
    return [batch.mapped.length, batch.open().length]
  }
  const behind = add(front.frame.origin, scale(front.frame.z, -1))
  expect(counts(behind, 0.4)).toEqual([16, 4])
  expect(counts(sitters.centre, 0.4), 'nothing is seen where the other light goes').toEqual([16, 0])
  expect(counts(behind, 1.1), 'sitters on both sides').toEqual([16, 0])
})

const moved = (rig: Rig): Rig => ({ ...rig, sources: [rig.sources[0], lamp('B', SURFACES.rect, [-0.8, 1.3, 0.9])] })

test('what restarts: nothing for power and colour, one source for its own move, all for the view', () => {
  const rig = rigs.two()
  const same: Rig = { ...rig, sources: rig.sources.map((source) => ({ ...source, axialIntensity: 7, on: false })) }
  const view: Rig = { ...rig, view: { ...rig.view, focalLengthMm: 50 } }
  const exposure: Rig = { ...rig, view: { ...rig.view, fNumber: 2 } }
  expect([...changesBetween(rig, same).restart]).toEqual([])
  expect([...changesBetween(rig, exposure).restart]).toEqual([])
  expect([...changesBetween(rig, moved(rig)).restart]).toEqual(['B'])
  expect([...changesBetween(rig, view).restart]).toEqual(['A', 'B'])
  expect(changesBetween(rig, moved(rig)).figures).toBe(false)
})

/** Two lamps in a tight picture; the second may have a stand in the first one's light, or aside. */
const TIGHT: Rig = (() => {
  const rig = rigs.two()
  return { ...rig, view: { ...rig.view, focalLengthMm: 200 } }
})()
const rigWith = (gear: Rig['sources'][number]['gear'], rig = TIGHT): Rig => ({
  ...rig,
  sources: [rig.sources[0], { ...rig.sources[1], gear }],
})
const STAND = {
  kind: 'cylinder',
  from: [0.35, 0, 0.37],
  to: [0.35, 2, 0.37],
  radiusM: 0.02,
  albedo: [0, 0, 0],
} as const
const ASIDE = { ...STAND, from: [-1.4, 0, 2.4], to: [-1.4, 2, 2.4] } as const

test('gear that comes to stand between a source and the sitter disturbs that source; in the picture it restarts all', () => {
  const before = rigWith([])
  const changed = (gear: Rig['sources'][number]['gear'], seen = before) => changesBetween(seen, rigWith(gear, seen))
  const disturbed = (gear: Rig['sources'][number]['gear']) => {
    const after = rigWith(gear)
    const { sources } = after
    return sources.filter((source) => isDisturbed(source, before, after, seenCloud(after))).map(({ id }) => id)
  }
  for (const gear of [[STAND], [ASIDE]]) {
    const { restart, movedGear } = changed(gear)
    expect([[...restart], movedGear]).toEqual([[], ['B']])
  }
  // B's own gear is in its emission.
  expect([disturbed([STAND]), disturbed([ASIDE])]).toEqual([['A'], []])
  const wide = { ...before, view: { ...before.view, focalLengthMm: 20 } }
  expect([...changed([STAND], wide).restart]).toEqual(['A', 'B'])
})

test('a source in whose light gear was moved goes on while the hand moves, and starts again at rest if that disturbs it', () => {
  const before = rigWith([])
  const after = rigWith([STAND])
  const make = (rig: Rig) => (source: Rig['sources'][number], seen: () => ReturnType<typeof seenCloud>) =>
    new LightLayer(4, 4, source, rig, seen, null)
  const [a, b] = nextLayers([], before, changesBetween(null, before), false, null, make(before)).layers
  a.batches = b.batches = 3
  const changes = changesBetween(before, after)
  const moving = nextLayers([a, b], after, changes, true, null, make(after)).layers
  expect(moving.map(({ batches, isStale }) => [batches, isStale])).toEqual([
    [3, true],
    [3, false],
  ])
  // The hand goes on; then it rests.
  nextLayers(moving, after, changesBetween(after, after), true, null, make(after))
  const rested = nextLayers(moving, after, changesBetween(after, after), false, null, make(after)).layers
  rested[0].ready()
  expect(rested[0].standing.direct.count).toBeGreaterThan(0)
  expect(rested.map(({ batches, isStale }) => [batches, isStale])).toEqual([
    [0, false],
    [3, false],
  ])
  // Out of the way and back again: all goes on.
  const aside = rigWith([ASIDE])
  a.batches = 3
  nextLayers(rested, aside, changesBetween(after, aside), true, null, make(aside))
  nextLayers(rested, after, changesBetween(aside, after), true, null, make(after))
  expect(rested.map(({ isStale }) => isStale)).toEqual([true, false])
  nextLayers(rested, after, changesBetween(after, after), false, null, make(after))
  expect(rested.map(({ batches, isStale }) => [batches, isStale])).toEqual(Array(2).fill([3, false]))
})

test('sources that start together under a moving hand share sixteen points, at least four each, and start anew at rest', () => {
  const rig = rigs.two()
  const make = (source: Rig['sources'][number], seen: () => ReturnType<typeof seenCloud>) =>
    new LightLayer(4, 4, source, rig, seen, null)
  const startedBy = (sources: Rig['sources'], isMoving: boolean) => {
    const set = { ...rig, sources }
    const { layers } = nextLayers([], set, changesBetween(null, set), isMoving, null, make)
    return layers.map(({ firstPoints, isStale }) => [firstPoints, isStale])
  }
  const many = (count: number) => Array.from({ length: count }, (_, i) => ({ ...rig.sources[0], id: `${i}` }))
  expect(startedBy(many(1), true)).toEqual([[16, false]])
  expect(startedBy(many(2), true)).toEqual(Array(2).fill([8, true]))
  expect(startedBy(many(6), true)).toEqual(Array(6).fill([4, true]))
  expect(startedBy(many(6), false)).toEqual(Array(6).fill([16, false]))
  const [lit, off] = [many(1)[0], { ...rig.sources[0], id: 'off', on: false }]
  expect(startedBy([lit, off], true)).toEqual([
    [16, false],
    [16, false],
  ])
  const set = { ...rig, sources: many(6) }
  const { layers } = nextLayers([], set, changesBetween(null, set), true, null, make)
  for (const layer of layers) layer.batches = 1
  // One of six that are lit moves: it gets half of what one of two would.
  layers[0].batches = 0
  nextLayers(layers, set, changesBetween(set, set), true, null, make)
  expect(layers.map(({ firstPoints }) => firstPoints).slice(0, 1)).toEqual([8])
  layers[0].batches = 1
  nextLayers(layers, set, changesBetween(set, set), false, null, make)
  expect(layers.map(({ batches, firstPoints, isStale }) => [batches, firstPoints, isStale])).toEqual(
    Array(6).fill([0, 16, false]),
  )
})
