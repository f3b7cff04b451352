import { describe, expect, test } from 'vitest'
import { directIrradiance, litPools } from '../../src/bounce/direct'
import { arrivalsAt, bodiesOf, received } from '../../src/meter'
import { canopy } from '../../src/photometry'
import { createRayCaster } from '../../src/rays'
import type { RigSource } from '../../src/rig'
import { type Frame, normalize, scale, type Vec3 } from '../../src/space'
import { type Umbrella, umbrellaIrradiance } from './canopy-quadrature'
import { discLamp, rigOf } from './fixtures'

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
