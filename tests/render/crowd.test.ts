import { expect, test } from 'vitest'
import { Crowd } from '../../src/render/crowd'
import { LightLayer } from '../../src/render/light-layer'
import { seenCloud } from '../../src/render/reach'
import { recombinationOf } from '../../src/render/recombination'
import type { Rig } from '../../src/rig'
import { lamp, rigs, SURFACES } from './rigs'

const sources = ['A', 'B', 'C'].map((id, i) => lamp(id, SURFACES.disc, [i - 1, 1.6, 1]))
const rig: Rig = { ...rigs.disc(), sources }
const set = { rig, width: 4, height: 4, casters: null, lights: [], receivers: null }
const how = recombinationOf(rig, null)
const ALL = new Set(['A', 'B', 'C'])
const NONE = new Set<string>()
const [RESTING, MOVING] = [false, true]
const weighed = (first: number, all: number) => ({
  ...how,
  weights: how.weights.map((weight, i) => ({ ...weight, factor: weight.factor * all * (i === 0 ? first : 1) })),
})

function started(isMoving: boolean): Crowd {
  const crowd = new Crowd()
  crowd.take(set, how, { restarted: ALL, isMoving })
  return crowd
}

test('three that start are drawn as one, from its first batch under a hand, from its fourth at rest', () => {
  for (const [isMoving, first] of [
    [MOVING, 1],
    [RESTING, 4],
  ] as const) {
    const crowd = started(isMoving)
    expect([crowd.samples, crowd.isWaiting, crowd.isStale]).toEqual([0, true, isMoving])
    crowd.due!.batches = first
    // Sixteen points a batch, for three sources.
    expect([crowd.samples, crowd.isWaiting]).toEqual([Math.floor((16 * first) / 3), false])
    expect(crowd.shown([], how)[1].weights).toEqual([{ sourceId: 'all', on: true, factor: 1, rgb: [1, 1, 1] }])
  }
})

test('a lamp that moves alone, another balance and a view that nobody tells of are not', () => {
  for (const change of [
    (crowd: Crowd) => crowd.take(set, how, { restarted: new Set(['B']), isMoving: MOVING }),
    (crowd: Crowd) => crowd.take(set, weighed(2, 1), { restarted: NONE, isMoving: RESTING }),
    (crowd: Crowd) => crowd.take(set, null, { restarted: ALL, isMoving: RESTING }),
  ]) {
    const crowd = started(RESTING)
    change(crowd)
    expect([crowd.samples, crowd.due]).toEqual([null, null])
  }
})

test('a common gain goes on; a hand that comes to rest starts it with all its points', () => {
  const crowd = started(MOVING)
  crowd.due!.batches = 1
  crowd.take(set, weighed(1, 3), { restarted: NONE, isMoving: MOVING })
  expect(crowd.due!.batches).toBe(1)
  expect(crowd.shown([], weighed(1, 3))[1].weights[0]!.factor).toBeCloseTo(3, 9)
  expect(crowd.due!.firstPoints).toBeLessThan(16)
  crowd.take(set, how, { restarted: NONE, isMoving: RESTING })
  expect([crowd.due!.batches, crowd.due!.firstPoints, crowd.isStale]).toEqual([0, 16, false])
})

test('the layers of its own sources take its place when each is as far', () => {
  const crowd = started(RESTING)
  const layers = sources.map((source) => new LightLayer(4, 4, source, rig, () => seenCloud(rig), null))
  crowd.due!.batches = 16
  expect(crowd.due).toBeNull()
  for (const batches of [0, 15]) {
    for (const layer of layers) layer.batches = batches
    crowd.giveWay(layers)
    expect(crowd.shown(layers, how)[0]).not.toBe(layers)
  }
  for (const layer of layers) layer.batches = 16
  crowd.giveWay(layers)
  expect(crowd.shown(layers, how)).toEqual([layers, how])
})
