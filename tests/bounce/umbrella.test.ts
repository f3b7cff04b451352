import { describe, expect, test } from 'vitest'
import { directIrradiance, litPools } from '../../src/bounce/direct'
import { arrivalsAt, bodiesOf, received } from '../../src/meter'
import { canopy } from '../../src/photometry'
import { createRayCaster } from '../../src/rays'
import type { RigSource } from '../../src/rig'
import { type Frame, normalize, scale, type Vec3 } from '../../src/space'
import { rigOf as rigOfOrder } from '../browser/agreement-rigs'
import { type Umbrella, umbrellaIrradiance } from './canopy-quadrature'
import { discLamp, rigOf } from './fixtures'
import { bruteForce, facing, UMBRELLAS } from './umbrella-kinds'

const SHAPE = { diameterM: 0.95, depthM: 0.209, shaftM: 0.5, lampRadiusM: 0.05, exponent: 4.07 }
const KINDS: Readonly<Record<string, Umbrella>> = {
  white: { ...SHAPE, matt: 0.8, glossy: 0, roughness: 0.5 },
  satin: { ...SHAPE, matt: 0.65, glossy: 0.2, roughness: 0.55 },
  silver: { ...SHAPE, matt: 0, glossy: 0.88, roughness: 0.5 },
}
const LEVEL: Frame = { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] }
const PLACES: readonly Vec3[] = [
  [0, 0, 0.7],
  [0, 0, 1],
  [0.5, 0, 1],
  [0.3, 0.4, 1.5],
]

function sourceOf({ lampRadiusM, exponent, matt, glossy, roughness, ...shape }: Umbrella): RigSource {
  const lamp = { axialIntensity: 1, exponent, radiusM: lampRadiusM }
  const cloth = { diffuse: matt, specular: glossy, roughness, forward: 0, forwardExponent: 1, exchange: matt + glossy }
  const emission = canopy({ ...shape, side: 'inside', lamp, cloth, blockers: [] })
  return { ...discLamp([0, 0, 0], [0, 0, 1]), emitters: [{ id: 'canopy', part: 'front', frame: LEVEL, emission }] }
}

describe.each(Object.entries(KINDS))('%s umbrella against brute force over cloth and lamp', (_, umbrella) => {
  const source = sourceOf(umbrella)
  const rig = rigOf([source], [])
  const caster = createRayCaster([])
  const pools = litPools(source)

  test.each(PLACES)(
    '%d, %d, %d m: bounce by the flux route within 2 %, the meter by the area route within 1 %',
    (...at) => {
      const point: Vec3 = [at[0], at[1], at[2]]
      const normal = scale(normalize(point), -1)
      const truth = umbrellaIrradiance(umbrella, point, normal)
      const byFlux = directIrradiance(pools, 0, 512, () => ({ point, normal }), caster, undefined)
      const byArea = received(arrivalsAt({ rig, bodies: bodiesOf(rig), caster }, source, point), normal, 'disc')
      expect(Math.abs(byFlux / truth - 1)).toBeLessThan(0.02)
      expect(Math.abs(byArea / truth - 1)).toBeLessThan(0.01)
    },
  )
})

/** The meter's own quadrature with dish and body in the light, whose edges once left 0.03 stop of noise. */
test.each(Object.entries(UMBRELLAS))('%s as it comes: the meter within 0.01 stop of brute force', (_, one) => {
  const rig = rigOfOrder({ sources: [{ emission: one.emission, centre: [0, 0, 0], aim: [0, 0, 1] }] })
  const scene = { rig, bodies: bodiesOf(rig), caster: createRayCaster([]) }
  const truth = bruteForce(one)
  for (const [i, point] of one.places.entries()) {
    const metered = received(arrivalsAt(scene, rig.sources[0]!, point), facing(point), 'disc')
    expect(Math.abs(Math.log2(metered / truth[i]!)), `${point}: ${metered}, ${truth[i]}`).toBeLessThan(0.01)
  }
})
