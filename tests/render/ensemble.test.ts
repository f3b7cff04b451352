import { expect, test } from 'vitest'
import type { IndirectLight } from '../../src/bounce'
import { allot, bounceOfAll, ensembleOf, gainOver, mayGoOn, pointsInTurns } from '../../src/render/ensemble'
import { seenCloud } from '../../src/render/reach'
import { recombinationOf } from '../../src/render/recombination'
import { drawBatch } from '../../src/render/samples'
import { Standing } from '../../src/render/standing'
import type { Rig, RigSource } from '../../src/rig'
import { hash32, type Vec3 } from '../../src/space'
import { lamp, rigs, SURFACES } from './rigs'

const PLACES: readonly Vec3[] = [
  [0.7, 1.75, 0.75],
  [-0.9, 1.3, 0.9],
  [0.2, 2, -0.5],
]
const sources = (count: number): RigSource[] =>
  PLACES.slice(0, count).map((place, i) => ({
    ...lamp('ABC'[i]!, SURFACES.disc, place, [0, 1.25, 0], i === 1 ? [1.3, 0.92, 0.9] : [1, 1, 1]),
    axialIntensity: 2 ** i,
    gear: [{ kind: 'ball', centre: place, radiusM: 0.02 } as never],
  }))
const rigOf = (count = 3): Rig => ({ ...rigs.solids(), figures: rigs.disc().figures, sources: sources(count) })
const plain = ({ figures, ...rig }: Rig): Rig => ({
  ...rig,
  figures,
  sources: rig.sources.map((one) => ({ ...one, gear: [] })),
})

test('three and more that show are one; two, a dark band or a switched-off third are not', () => {
  const rig = plain(rigOf())
  const how = recombinationOf(rig, null)
  expect(ensembleOf(rig, how)?.members.map(({ index, factor }) => [index, factor])).toEqual([
    [0, 1],
    [1, 2],
    [2, 4],
  ])
  expect(ensembleOf({ ...rig, sources: rig.sources.slice(0, 2) }, how)).toBeNull()
  expect(ensembleOf(rig, { ...how, dark: [0, 0, 1] })).toBeNull()
  expect(ensembleOf(rig, recombinationOf(rig, null, { solo: 'A' }))).toBeNull()
})

test('it goes on under a common gain, not under another balance, colour or place', () => {
  const rig = plain(rigOf())
  const how = recombinationOf(rig, null)
  const all = ensembleOf(rig, how)!
  const times = (gain: number, first = 1) => ({
    ...how,
    weights: how.weights.map((weight, i) => ({ ...weight, factor: weight.factor * gain * (i === 0 ? first : 1) })),
  })
  expect(gainOver(all, times(3))).toBeCloseTo(3, 9)
  expect(gainOver(all, times(1, 1.01))).toBeNull()
  const gelled = { ...how, weights: how.weights.map((weight) => ({ ...weight, rgb: [1.1, 0.97, 1] as const })) }
  expect(gainOver(all, gelled)).toBeNull()
  expect(mayGoOn(all, rig, times(3))).toBe(true)
  const moved = { ...rig, sources: [sources(1)[0]!, ...rig.sources.slice(1)] }
  expect(mayGoOn(all, moved, how)).toBe(false)
})

test('points go by brightness, by powers of two, at least one each, and no more than there are', () => {
  for (let i = 0; i < 200; i++) {
    const brightness = Array.from({ length: 1 + (i % 12) }, (_, k) => hash32(i, k) / 2 ** 32)
    const counts = allot(brightness)
    const total = counts.reduce((sum, count) => sum + count, 0)
    expect(total).toBeLessThanOrEqual(16)
    for (const [k, count] of counts.entries()) {
      expect(Math.log2(count) % 1).toBe(0)
      for (const [l, other] of counts.entries())
        if (brightness[k]! > 4 * brightness[l]!) expect(count).toBeGreaterThanOrEqual(other)
    }
  }
  expect(allot([8, 1, 1])).toEqual([8, 4, 4])
  expect(allot([])).toEqual([])
  expect(allot(Array(9).fill(1), 4)).toEqual(Array(9).fill(1))
})

test('weights of a batch add up to each lit area times its power', () => {
  const rig = plain(rigOf())
  const source = ensembleOf(rig, recombinationOf(rig, null))!
  for (const firstPoints of [12, 16]) {
    const batch = drawBatch({ source, batches: 0, firstPoints, seen: { points: [], balls: [] }, sitters: null }, 1)
    for (const points of [batch.mapped, batch.even()])
      for (const { index, factor } of source.members) {
        const own = points.filter(({ member }) => member.index === index)
        const areaM2 = own.reduce((sum, { weightM2 }) => sum + weightM2, 0) / 16
        expect(areaM2 / factor).toBeCloseTo(Math.PI * 0.25, 9)
      }
    expect(batch.mapped.length).toBeLessThanOrEqual(firstPoints)
  }
})

test('in the light of each stands what stands there when it is alone, its own gear left out', () => {
  const rig = rigOf()
  const seen = seenCloud(rig)
  const order = { rig, seen, points: [], places: null }
  const all = new Standing({ ...order, source: ensembleOf(rig, recombinationOf(rig, null))! })
  expect(all.rows.reduce((sum, { count }) => sum + count, 0)).toBe(all.direct.count)
  for (const { index, first, count } of all.rows) {
    const alone = new Standing({ ...order, source: rig.sources[index]! }).direct
    expect(count).toBe(alone.count)
    const { columns } = alone.records
    const of = all.direct.records.data.slice(first * columns * 4, (first + count) * columns * 4)
    expect([...of]).toEqual([...alone.records.data.slice(0, count * columns * 4)])
  }
})

const random = (i: number, k: number) => hash32(i, k) / 2 ** 32
const light = (sourceId: string, seed: number, points: number): IndirectLight => ({
  sourceId,
  patches: Float32Array.from({ length: 12 }, (_, i) => random(seed, i)),
  vertices: Float32Array.from({ length: 12 }, (_, i) => random(seed, 50 + i)),
  leans: Float32Array.from({ length: 12 }, (_, i) => random(seed, 90 + i) - 0.5),
  eyes: Float32Array.from({ length: 6 }, (_, i) => random(seed, 130 + i)),
  points: Array.from({ length: points }, (_, i) => ({
    surfaceId: 'silver',
    point: [i, seed, 0] as Vec3,
    normal: [0, 0, 1] as Vec3,
    areaM2: 0.01,
    diffuse: [0.1, 0.1, 0.1] as const,
    glossy: [{ incident: [0, 0, 1] as Vec3, strength: [seed, seed, seed] as const }],
    alpha: 0.2,
  })),
})

test('bounced light of all is the weighed sum of theirs, for leaning normals too', () => {
  const rig = plain(rigOf())
  const all = ensembleOf(rig, recombinationOf(rig, null))!
  // White sources: the bounce of each is in its own colour and weighed by its power.
  const lights = [light('A', 1, 4), light('C', 2, 4)]
  const sum = bounceOfAll(all, lights)!
  const powers = [1, 4]
  for (let i = 0; i < 12; i++) {
    expect(sum.patches[i]).toBeCloseTo(lights[0]!.patches[i]! + 4 * lights[1]!.patches[i]!, 5)
    expect(sum.vertices[i]).toBeCloseTo(lights[0]!.vertices[i]! + 4 * lights[1]!.vertices[i]!, 5)
  }
  const luminance = ({ vertices: v }: Pick<IndirectLight, 'vertices'>, k: number) =>
    0.2126 * v[k]! + 0.7152 * v[k + 1]! + 0.0722 * v[k + 2]!
  for (let i = 0; i < 6; i++) expect(sum.eyes[i]).toBeCloseTo(lights[0]!.eyes[i]! + 4 * lights[1]!.eyes[i]!, 5)
  for (let k = 0; k < 12; k += 3)
    for (let axis = 0; axis < 3; axis++) {
      const grown = lights.reduce((total, one, i) => total + powers[i]! * luminance(one, k) * one.leans[k + axis]!, 0)
      expect(luminance(sum, k) * sum.leans[k + axis]!).toBeCloseTo(grown, 4)
    }
  expect(bounceOfAll(all, [])).toBeNull()
})

test("of the panels' points all of each source are drawn in sixteen batches, and weigh as much", () => {
  const groups = [light('A', 8, 16).points, light('B', 2, 16).points, light('C', 1, 16).points]
  const drawn = Array.from({ length: 16 }, (_, batch) => pointsInTurns(groups, batch, 16))
  for (const batch of drawn) expect(batch.length).toBeLessThanOrEqual(16)
  for (const points of groups)
    for (const point of points) {
      const own = drawn.flat().filter((one) => one.point === point)
      expect(own.reduce((sum, { weight }) => sum + weight, 0) / 16).toBeCloseTo(1, 9)
    }
})
