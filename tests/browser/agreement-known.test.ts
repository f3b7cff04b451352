import { describe, expect, test } from 'vitest'
import { discFactorOffAxis, facingRectangle, type LitSurface } from '../../src/photometry'
import type { Probe } from '../../src/render'
import { addScaled, cross, normalize, type Vec3 } from '../../src/space'
import { agreementPage } from './agreement-bench'
import { type RigOrder, rigOf, type SourceOrder } from './agreement-rigs'
import { byPicture } from './agreement-routes'

/** Sets whose light is known in closed form, through the picture's own passes. */
const open = agreementPage()

const source = (surface: LitSurface, centre: Vec3, aim: Vec3): SourceOrder => ({
  emission: { profile: 'uniform', surface, luminance: 1 },
  centre,
  aim,
})
/** Total luminous exposure at each probe, lx·s. */
async function measured(
  set: RigOrder,
  probes: readonly Probe[],
  bounce = false,
  samples = 256,
): Promise<readonly number[]> {
  const { lights } = await byPicture(open, { set, probes, samples, bounce: bounce ? {} : null }, rigOf(set))
  return lights.map(({ direct, bounced }) => direct + bounced)
}
const stops = (got: number, expected: number) => Math.abs(Math.log2(got / expected))
const FACING: Vec3 = [0, 0, 1]
/** Receivers look along +z at faces that look back along −z. */
const ahead = (z: number): Vec3 => [0, 0, z]

describe('direct light', () => {
  test('inverse square: a disc of 1 cm at 0.5 to 4 m, E·d² = π·L·R² to (R/d)² (Bouguer)', async () => {
    const set = { sources: [source({ shape: 'disc', radiusM: 0.01 }, ahead(4), [0, 0, 0])] }
    const distances = [0.5, 1, 2, 4]
    const got = await measured(
      set,
      distances.map((d) => ({ position: ahead(4 - d), normal: FACING })),
    )
    for (const [i, d] of distances.entries()) expect(stops(got[i] * d * d, Math.PI * 0.01 ** 2)).toBeLessThan(0.001)
  })

  test('uniform disc Ø1 m at 0.5 to 3 m, on the axis and 0.6 m aside (Howell B-12, B-13)', async () => {
    const set = { sources: [source({ shape: 'disc', radiusM: 0.5 }, ahead(3), [0, 0, 0])] }
    const places = [0.5, 1, 1.5, 2, 3].flatMap((d) => [0, 0.6].map((aside) => ({ d, aside })))
    const got = await measured(
      set,
      places.map(({ d, aside }) => ({ position: [aside, 0, 3 - d], normal: FACING })),
    )
    for (const [i, { d, aside }] of places.entries())
      expect(stops(got[i], Math.PI * discFactorOffAxis(0.5, d, aside)), `${d} m, ${aside} m aside`).toBeLessThan(0.005)
  })

  test('uniform square 1 × 1 m at 0.5 to 3 m (Howell B-3), and four quarters that add up to it', async () => {
    const whole = { sources: [source({ shape: 'rectangle', widthM: 1, heightM: 1 }, ahead(3), [0, 0, 0])] }
    const quarter = { shape: 'rectangle', widthM: 0.5, heightM: 0.5 } as const
    const corners = [-0.25, 0.25].flatMap((x) => [-0.25, 0.25].map((y) => [x, y] as const))
    const four = { sources: corners.map(([x, y]) => source(quarter, [x, y, 3], [x, y, 0])) }
    const distances = [0.5, 1, 1.5, 2, 3]
    const probes = distances.map((d) => ({ position: ahead(3 - d), normal: FACING }))
    const [one, sum] = [await measured(whole, probes), await measured(four, probes)]
    for (const [i, d] of distances.entries()) {
      expect(stops(one[i], facingRectangle(1, 1, d)), `${d} m`).toBeLessThan(0.005)
      expect(stops(sum[i], one[i]), `quarters at ${d} m`).toBeLessThan(0.005)
    }
  })

  test('a card in between: nothing behind it, all beside its shadow, half behind its edge', async () => {
    const sourceAt = source({ shape: 'disc', radiusM: 0.1 }, ahead(2), [0, 0, 0])
    const set = {
      sources: [sourceAt],
      cards: [{ centre: [-0.5, 0, 1] as Vec3, towards: [-0.5, 0, 2] as Vec3, halfM: 0.5, reflectance: 0 }],
    }
    const probes = [-0.5, 0, 0.5].map((x) => ({ position: [x, 0, 0] as Vec3, normal: FACING }))
    const [shaded, open] = [await measured(set, probes), await measured({ sources: [sourceAt] }, probes)]
    expect(shaded[0]).toBe(0)
    // The penumbra's middle: half of the disc is seen (its diameter as the edge).
    expect(shaded[1] / open[1]).toBeCloseTo(0.5, 2)
    expect(shaded[2] / open[2]).toBeCloseTo(1, 6)
  })

  test('twice the axial intensity is one stop exactly', async () => {
    const one = source({ shape: 'disc', radiusM: 0.2 }, ahead(1), [0, 0, 0])
    const probes = [{ position: [0, 0, 0] as Vec3, normal: FACING }]
    const [full] = await measured({ sources: [{ ...one, axialIntensity: 400 }] }, probes)
    const [half] = await measured({ sources: [{ ...one, axialIntensity: 200 }] }, probes)
    expect(Math.log2(full / half)).toBe(1)
  })
})

describe('over a mirror at z = −1', () => {
  const RADIUS_M = 0.005
  const LAMP: Vec3 = [0.6, 0, 0]
  /** Looks at the mirror, away from the places. */
  const lamp = source({ shape: 'disc', radiusM: RADIUS_M }, LAMP, addScaled(LAMP, [0, 0, -1], 1))
  const mirror = (halfM: number) => ({
    centre: [0, 0, -1] as Vec3,
    towards: [0, 0, 0] as Vec3,
    halfM,
    f0: [0.88, 0.88, 0.88] as Vec3,
  })
  const probe = (x: number, y = 0, z = 1): Probe => ({ position: [x, y, z], normal: [0, 0, -1] })
  /** From the image at (0.6, 0, −2), both cosines depth over way (law of reflection; inverse square). */
  const fromImage = ({ position: [x, y, z] }: Probe): number => {
    const squared = (x - LAMP[0]) ** 2 + y ** 2 + (z + 2) ** 2
    return (0.88 * Math.PI * RADIUS_M ** 2 * (z + 2) ** 2) / squared ** 2
  }
  /** Similar triangles from the image: what stands so deep before it is seen at z = 1, 3 m before it. */
  const projected = (x: number, depth: number) => LAMP[0] + ((x - LAMP[0]) * 3) / depth
  const CLEAR_M = 0.016

  test('a small lamp brings what its image would, within 0.5 %; nothing behind', async () => {
    const probes = [probe(-0.6, 0, 0.2), probe(0.1, 0.5), probe(0.55, -0.3, -0.9)]
    const behind: Probe = { position: [0, 0, -2], normal: [0, 0, 1] }
    const got = await measured({ sources: [lamp], mirror: mirror(3) }, [...probes, behind])
    for (const [i, at] of probes.entries()) expect(Math.abs(got[i] / fromImage(at) - 1), `${i}`).toBeLessThan(0.005)
    expect(got[3]).toBe(0)
  })

  test('the lit patch ends where the mirror does, and at its end half of the lamp shows', async () => {
    const [low, high] = [projected(-0.3, 1), projected(0.3, 1)]
    const probes = [low - CLEAR_M, low + CLEAR_M, high - CLEAR_M, high + CLEAR_M, low, high].map((x) => probe(x))
    const got = await measured({ sources: [lamp], mirror: mirror(0.3) }, probes)
    expect(got[0]).toBe(0)
    expect(got[3]).toBe(0)
    for (const i of [1, 2]) expect(Math.abs(got[i] / fromImage(probes[i]) - 1)).toBeLessThan(0.005)
    for (const i of [4, 5]) expect(Math.abs(got[i] / fromImage(probes[i]) - 0.5)).toBeLessThan(0.02)
  })

  test.each([
    { where: 'between lamp and mirror', at: [0.5, 0, -0.5] as Vec3, depth: 0.5 },
    { where: 'between mirror and place', at: [0.2, 0, 0.4] as Vec3, depth: 2.4 },
    { where: 'behind the mirror', at: [0.2, 0, -1.5] as Vec3, depth: 0 },
  ])('a card $where', async ({ at, depth }) => {
    const halfM = depth === 0 ? 0.5 : 0.04
    const cards = [{ centre: at, towards: [at[0], 0, 3] as Vec3, halfM, reflectance: 0 }]
    const clear = depth === 0 ? 0 : RADIUS_M * 1.2 * (3 / depth - 1)
    const [low, high] = depth === 0 ? [-0.3, 0.1] : [projected(at[0] - halfM, depth), projected(at[0] + halfM, depth)]
    const probes = [low - clear, low + clear, (low + high) / 2, high - clear, high + clear].map((x) => probe(x))
    const got = await measured({ sources: [lamp], mirror: mirror(3), cards }, probes)
    for (const i of depth === 0 ? [0, 1, 2, 3, 4] : [0, 4])
      expect(Math.abs(got[i] / fromImage(probes[i]) - 1)).toBeLessThan(0.005)
    for (const i of depth === 0 ? [] : [1, 2, 3]) expect(got[i]).toBe(0)
  })
})

/** Places spread evenly over the six walls of a room on the floor y = 0, normals inwards, each with its share of area. */
function wallPlaces([w, h, d]: Vec3, side: number): readonly (Probe & { readonly areaM2: number })[] {
  const middle: Vec3 = [0, h / 2, 0]
  const walls: readonly (readonly [Vec3, Vec3])[] = [
    [
      [w / 2, 0, 0],
      [0, h / 2, 0],
    ],
    [
      [0, h / 2, 0],
      [0, 0, d / 2],
    ],
    [
      [0, 0, d / 2],
      [w / 2, 0, 0],
    ],
  ]
  const third: readonly Vec3[] = [
    [0, 0, d / 2],
    [w / 2, 0, 0],
    [0, h / 2, 0],
  ]
  const at = (i: number) => (2 * (i + 0.5)) / side - 1
  return walls.flatMap(([u, v], k) =>
    [-1, 1].flatMap((sign) =>
      Array.from({ length: side * side }, (_, i) => {
        const out: Vec3 = addScaled([0, 0, 0], third[k], sign)
        const place = addScaled(addScaled(addScaled(middle, out, 1), u, at(i % side)), v, at(Math.floor(i / side)))
        const area = 4 * Math.hypot(...cross(u, v))
        return { position: place, normal: normalize(addScaled([0, 0, 0], out, -1)), areaM2: area / side ** 2 }
      }),
    ),
  )
}

describe('all light', () => {
  // Φ = ρ-independent: what the walls absorb is what the lamp sends, so mean E = Φ/(A·(1 − ρ)) in any closed room.
  test.each([0.3, 0.7])('closed room, ρ %f: the walls’ mean is Φ/(A(1 − ρ)) (Sumpner)', async (reflectance) => {
    const sizeM: Vec3 = [3, 2.4, 4]
    const set: RigOrder = {
      sources: [source({ shape: 'disc', radiusM: 0.15 }, [0.4, 1.1, 0.5], [0.2, 1.6, -2])],
      room: { sizeM, reflectance },
    }
    const places = wallPlaces(sizeM, 12)
    const got = await measured(set, places, true, 64)
    const area = places.reduce((sum, { areaM2 }) => sum + areaM2, 0)
    const mean = got.reduce((sum, value, i) => sum + value * places[i].areaM2, 0) / area
    const flux = Math.PI * Math.PI * 0.15 ** 2
    expect(places.length).toBe(6 * 144)
    expect(stops(mean, flux / (area * (1 - reflectance)))).toBeLessThan(0.02)
  })
})
