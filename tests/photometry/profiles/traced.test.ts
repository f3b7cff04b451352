import { describe, expect, test } from 'vitest'
import {
  blockedByCylinder,
  type Cloth,
  type Cylinder,
  canopy,
  capRadius,
  fluxOf,
  ggx,
  irradianceAt,
  STANDARD_DISH,
} from '../../../src/photometry'
import { addScaled, basisAround, dot, hash32, length, radians, scale, subtract, type Vec3 } from '../../../src/space'
import { dishOnly, SATIN, SATIN_SHAFTS_M, umbrella } from './canopies'
import { FACING, mattCloth, RECORDS, silverCloth } from './check'
import { halfPowerFullAngle, lossStops } from './measure'

/**
 * Light traced bounce by bounce through the canopy, against the profile's sum of first bounce and closed exchange. An
 * independent route for all that follows the first bounce: every meeting with the cloth is scattered by the whole BSDF.
 */
const [WIDTH, DEPTH, SHAFT] = [0.95, 0.209, 0.537]
const RADIUS = capRadius(WIDTH, DEPTH)
const CENTRE: Vec3 = [0, 0, RADIUS - DEPTH]
const PATHS = 60_000
const BOUNCES = 6

interface Lamp {
  readonly shaftM: number
  /** What of it stands in the light. */
  readonly blockers: readonly Cylinder[]
}
const BARE: Lamp = { shaftM: SHAFT, blockers: [] }
const withDish = (shaftM: number): Lamp => ({ shaftM, blockers: dishOnly(shaftM - DEPTH) })

/** E at a place on a receptor that looks along `facing`, 1/m². */
function trace(cloth: Cloth, at: Vec3, facing = FACING, { shaftM, blockers } = BARE): number {
  let draw = 0
  const random = () => hash32(draw++, 4711) / 2 ** 32
  let sum = 0
  for (let path = 0; path < PATHS; path++) {
    let { origin, direction } = fromLamp(random, shaftM)
    let weight = fluxOf(STANDARD_DISH)
    for (let bounce = 0; bounce < BOUNCES; bounce++) {
      const point = meetCap(origin, direction)
      if (!point || (bounce > 0 && blockedByCylinder(origin, point, blockers))) break
      const normal = scale(subtract(CENTRE, point), 1 / RADIUS)
      const incident = scale(direction, -1)
      const bsdf = (out: Vec3) =>
        cloth.diffuse / Math.PI + cloth.specular * ggx(normal, incident, out, cloth.roughness ** 2)
      const away = subtract(at, point)
      const out = scale(away, 1 / length(away))
      const cosines = Math.max(0, dot(out, normal)) * Math.max(0, -dot(out, facing))
      if (cosines > 0 && !blockedByCylinder(point, at, blockers))
        sum += (weight * bsdf(out) * cosines) / dot(away, away)
      direction = scattered(normal, random)
      weight *= Math.PI * bsdf(direction)
      origin = point
    }
  }
  return sum / PATHS
}

function fromLamp(random: () => number, shaftM: number): { origin: Vec3; direction: Vec3 } {
  const [r, a] = [STANDARD_DISH.radiusM * Math.sqrt(random()), 2 * Math.PI * random()]
  const [c, b] = [random() ** (1 / (STANDARD_DISH.exponent + 1)), 2 * Math.PI * random()]
  const s = Math.sqrt(1 - c * c)
  return {
    origin: [r * Math.cos(a), r * Math.sin(a), shaftM - DEPTH],
    direction: [s * Math.cos(b), s * Math.sin(b), -c],
  }
}

/** Cosine about the normal: density cosθ/π. */
function scattered(normal: Vec3, random: () => number): Vec3 {
  const [x, y] = basisAround(normal)
  const [r, a] = [Math.sqrt(random()), 2 * Math.PI * random()]
  return addScaled(addScaled(scale(normal, Math.sqrt(1 - r * r)), x, r * Math.cos(a)), y, r * Math.sin(a))
}

function meetCap(origin: Vec3, direction: Vec3): Vec3 | null {
  const start = subtract(origin, CENTRE)
  const along = dot(start, direction)
  const root = along * along - dot(start, start) + RADIUS * RADIUS
  const t = Math.sqrt(Math.max(0, root)) - along
  if (root < 0 || t < 1e-7) return null
  const point = addScaled(origin, direction, t)
  return point[2] <= 0 ? point : null
}

/** Stops by which the profile may differ: tracer noise 0.015, and for gloss what its single bounce leaves out. */
test.each([
  ['matt, on axis', mattCloth(0.8), [0, 0, 1.5], 0.02],
  ['matt, 1 m aside', mattCloth(0.8), [1, 0, 1], 0.02],
  ['satin, on axis', SATIN, [0, 0, 1.5], 0.03],
  ['satin, 1 m aside', SATIN, [1, 0, 1], 0.045],
  ['silver r 0.5, on axis', silverCloth(0.5), [0, 0, 1.5], 0.04],
  ['silver r 0.5, 1 m aside', silverCloth(0.5), [1, 0, 1], 0.13],
] as const)('%s', (_, cloth, at, tolerance) => {
  const profile = irradianceAt(canopy(umbrella(cloth, { depthM: DEPTH, shaftM: SHAFT })), at, FACING)
  expect(Math.abs(Math.log2(profile / trace(cloth, at)))).toBeLessThan(tolerance)
})

describe('EMIT-SATIN, traced with its dish', () => {
  const [losses] = RECORDS.filter(({ id }) => id === 'EMIT-SATIN').map(({ expected }) => expected)
  test.each(SATIN_SHAFTS_M.map((shaftM, i) => [shaftM, losses[i][0]] as const))('s %f m', (shaftM, recorded) => {
    const emission = canopy(umbrella(SATIN, { shaftM }, 'inside', dishOnly))
    const traced = -Math.log2(trace(SATIN, [0, 0, 1.5], FACING, withDish(shaftM)) * 1.5 ** 2)
    expect(Math.abs(lossStops(emission, 1.5) - traced)).toBeLessThan(0.03)
    // The record's 0.05 is not to be had: it lies farther than that from what is traced.
    expect(recorded - traced).toBeGreaterThan(0.055)
    const at = radians(halfPowerFullAngle(emission) / 2)
    const far = ([x, z]: readonly [number, number]) => trace(SATIN, [50 * x, 0, 50 * z], [-x, 0, -z], withDish(shaftM))
    // 0.012 is a degree to each side.
    expect(Math.abs(far([Math.sin(at), Math.cos(at)]) / far([0, 1]) - 0.5)).toBeLessThan(0.012)
  })
})
