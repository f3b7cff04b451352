import { describe, expect, test } from 'vitest'
import { STANDARD_DISH } from '../../src/photometry'
import type { Probe } from '../../src/render'
import type { Vec3 } from '../../src/space'
import { bruteForce, facing, UMBRELLAS } from '../bounce/umbrella-kinds'
import { BOXES } from '../photometry/profiles/boxes'
import {
  dishOnly,
  place,
  SATIN,
  SATIN_SHAFTS_M,
  SET_A,
  setA,
  setB,
  umbrella,
  unmovedDistance,
} from '../photometry/profiles/canopies'
import { mattCloth, RECORDS, silverCloth, translucentCloth, type ValueRecord } from '../photometry/profiles/check'
import { agreementPage } from './agreement-bench'
import { type EmissionOrder, emissionOf, rigOf } from './agreement-rigs'
import { byPicture } from './agreement-routes'

/**
 * shared/emission-values.json through the picture's own passes: illuminance and loss of umbrellas and boxes, and the
 * light they throw into the room. Each record's own tolerance; where the figures come from: shared/emission-values.md.
 */
const open = agreementPage()

const FACING: Vec3 = [0, 0, -1]
const BACK: Vec3 = [0, 0, 1]

/** E in 1/m² at places of the source's own frame, normals towards the source. */
const illuminance = (emission: EmissionOrder, places: readonly Vec3[], samples: number, normal: Vec3 = FACING) =>
  received(
    emission,
    places.map((position) => ({ position, normal })),
    samples,
  )

async function received(
  emission: EmissionOrder,
  probes: readonly Probe[],
  samples: number,
): Promise<readonly number[]> {
  const set = { sources: [{ emission, centre: [0, 0, 0] as Vec3, aim: [0, 0, 1] as Vec3 }] }
  const { lights } = await byPicture(open, { set, probes, samples, bounce: null }, rigOf(set))
  return lights.map(({ direct }) => direct)
}
const stopsLost = (e: number, distanceM: number) => -Math.log2(e * distanceM ** 2)
const axis = (distanceM: number): Vec3 => [0, 0, distanceM]
const share = ({ tolerance }: ValueRecord) => Number.parseFloat(String(tolerance)) / 100
const record = (id: string): ValueRecord => {
  const found = RECORDS.find((candidate) => candidate.id === id)
  if (!found) throw new Error(`no record ${id}`)
  return found
}

/** To the records' 1 and 2 %; where stops are asked to 0.05 a quarter of it is enough. */
const FINE = 256
const FINISHED = 1024
const COARSE = 64

describe('set A: illuminance on the axis and aside', () => {
  const points = RECORDS.filter(({ id }) => /^EMIT-A-.*(axis|aside-1mout)/.test(id))
  test.each([
    ['EMIT-A-silver-r0.3', 5],
    ['EMIT-A-silver-r0.5', 5],
    ['EMIT-A-white', 5],
    ['EMIT-A-trans', 6],
  ] as const)('%s', async (kind, count) => {
    const records = points.filter(({ id }) => id.startsWith(kind))
    expect(records.length).toBe(count)
    const places = records.map(({ inputs }) => place(inputs.receiverAt))
    const got = await illuminance({ profile: 'canopy', ...setA(records[0]) }, places, FINE)
    for (const [i, value] of records.entries())
      expect(Math.abs(got[i] / value.expected - 1), `${value.id}: ${got[i]}`).toBeLessThanOrEqual(share(value))
  })

  test('EMIT-A-trans-backside: what the lamp’s side gives back and the outside’s edges', async () => {
    const value = record('EMIT-A-trans-backside-1maside-2mtowardsthelamp')
    const disc = (zM: number) => [{ from: [0, 0, zM], to: [0, 0, zM + 1e-4], radiusM: 0.05 } as const]
    const inside = umbrella(mattCloth(0.3), SET_A, 'inside', (zM) => [...disc(zM)])
    const [back] = await illuminance({ profile: 'canopy', ...inside }, [[1, 0, 2 - SET_A.depthM]], FINE)
    const [front] = await illuminance({ profile: 'canopy', ...setA(value) }, [[1, 0, -2]], FINE, BACK)
    expect(Math.abs((back + front) / value.expected - 1)).toBeLessThanOrEqual(share(value))
  })
})

describe('set B: losses', () => {
  const records = RECORDS.filter(({ id }) => id.startsWith('EMIT-B-'))
  test('all fourteen are here', () => expect(records.length).toBe(14))
  test.each(records)('$id', async (value) => {
    const canopy = setB(value)
    const unmoved = unmovedDistance(canopy)
    const distances = [1, 1.5, 3, 100, unmoved]
    const e = await illuminance({ profile: 'canopy', ...canopy }, distances.map(axis), COARSE)
    const { loss1m, loss15m, loss3m, lossFar, lossUnmoved15m } = value.expected
    const expected = [loss1m, loss15m, loss3m, lossFar, lossUnmoved15m - 2 * Math.log2(unmoved / 1.5)]
    for (const [i, d] of distances.entries())
      expect(Math.abs(stopsLost(e[i], d) - expected[i]), `${d} m: ${stopsLost(e[i], d)}`).toBeLessThanOrEqual(0.05)
  })
})

test('EMIT-SATIN: the default white cloth at 1.5 m', async () => {
  const { expected } = record('EMIT-SATIN')
  for (const [i, shaftM] of SATIN_SHAFTS_M.entries()) {
    const canopy = umbrella(SATIN, { shaftM }, 'inside', dishOnly)
    const [e] = await illuminance({ profile: 'canopy', ...canopy }, [axis(1.5)], COARSE)
    // The record leaves the sheen out of the light inside the canopy: traced, it is 0.07 stop brighter (traced.test.ts).
    expect(Math.abs(stopsLost(e, 1.5) - expected[i][0])).toBeLessThanOrEqual(0.07)
  }
})

/** physics.md, section 11, asks for 0.02 stop; measured: at most 0.0017. A finished picture, as lamps stand in their own light. */
test.each(Object.entries(UMBRELLAS))('%s as it comes, against brute force over cloth and lamp', async (name, one) => {
  const probes = one.places.map((position) => ({ position, normal: facing(position) }))
  const got = await received(one.emission, probes, FINISHED)
  const off = bruteForce(one).map((truth, i) => Math.log2(got[i]! / truth))
  console.log(`${name}: ${off.map((stops) => stops.toFixed(4)).join(', ')} stop`)
  for (const [i, stops] of off.entries()) expect(Math.abs(stops), `${one.places[i]}`).toBeLessThan(0.005)
})

test.each(Object.keys(BOXES))('%s: one cloth at 1.5 m', async (id) => {
  const [e] = await illuminance({ profile: 'box', sizeM: BOXES[id] }, [axis(1.5)], COARSE)
  const value = record(id)
  expect(Math.abs(stopsLost(e, 1.5) - value.expected[0])).toBeLessThanOrEqual(Number(value.tolerance))
})

test('EMIT-X: flux thrown into the room per face light at 1.5 m', async () => {
  const { expected } = record('EMIT-X')
  const face = (cloth: ReturnType<typeof mattCloth>, side: 'inside' | 'outside' = 'inside'): EmissionOrder => ({
    profile: 'canopy',
    ...umbrella(cloth, { shaftM: 0.45 }, side),
  })
  // First what lights the face; then what else leaves the modifier.
  const kinds: Readonly<Record<string, readonly EmissionOrder[]>> = {
    dish: [{ profile: 'beam', ...STANDARD_DISH }],
    silver_r03: [face(silverCloth(0.3))],
    silver_r05: [face(silverCloth(0.5))],
    white: [face(mattCloth(0.8))],
    through: [face(translucentCloth(0.6, 0.3), 'outside'), face(mattCloth(0.3))],
    box60x90: [{ profile: 'box', sizeM: [0.6, 0.9, 0.4] }],
  }
  expect(Object.keys(kinds).sort()).toEqual(Object.keys(expected).sort())
  for (const [name, emissions] of Object.entries(kinds)) {
    const [e] = await illuminance(emissions[0], [axis(1.5)], COARSE)
    let flux = 0
    for (const emission of emissions) {
      const through = await fluxThroughSphere(emission)
      expect(Math.abs(through / emissionOf(emission).flux - 1), `${name}, flux`).toBeLessThan(0.01)
      flux += through
    }
    const x = flux / (e * 1.5 ** 2)
    expect(Math.abs(x / expected[name] - 1), `${name}: ${x}`).toBeLessThanOrEqual(0.05)
  }
})

/** Flux through a sphere about a source, by places spread evenly over it (Fibonacci's spiral): Φ = ∮E dA [Gauss]. */
async function fluxThroughSphere(emission: EmissionOrder): Promise<number> {
  const [radiusM, count] = [10, 512]
  const probes = Array.from({ length: count }, (_, i): Probe => {
    const [z, turn] = [1 - (2 * i + 1) / count, i * Math.PI * (3 - Math.sqrt(5))]
    const flat = Math.sqrt(1 - z * z)
    const normal: Vec3 = [-flat * Math.cos(turn), -flat * Math.sin(turn), -z]
    return { position: [-radiusM * normal[0], -radiusM * normal[1], -radiusM * normal[2]], normal }
  })
  const e = await received(emission, probes, COARSE)
  return (4 * Math.PI * radiusM ** 2 * e.reduce((sum, value) => sum + value, 0)) / count
}
