import { expect, test } from 'vitest'
import { irradianceAt } from '../../src/photometry'
import type { Vec3 } from '../../src/space'
import { agreementPage } from './agreement-bench'
import { emissionOf, rigOf } from './agreement-rigs'
import { byPicture } from './agreement-routes'

/**
 * Lit faces of gear through the picture's own passes, against the sum over surface and directions (the meter's route): one
 * kind for each profile and gate, on the axis, near and far, and aside.
 */
const open = agreementPage()
const FACING: Vec3 = [0, 0, -1]
const PLACES: readonly Vec3[] = [
  [0, 0, 0.5],
  [0, 0, 1.5],
  [0.4, 0.2, 1],
]

test.each([
  ['bare-bulb', {}],
  ['snoot', {}],
  ['ring-flash', {}],
  ['softbox', { lipM: 0.08 }],
  ['beauty-dish', {}],
  ['white-umbrella', { front: 'cloth' }],
  ['deep-umbrella', {}],
] as const)('%s %o', async (kind, change) => {
  const emission = { profile: 'kind', kind, change } as const
  const set = { sources: [{ emission, centre: [0, 0, 0] as Vec3, aim: [0, 0, 1] as Vec3 }] }
  const probes = PLACES.map((position) => ({ position, normal: FACING }))
  const { lights } = await byPicture(open, { set, probes, samples: 128, bounce: null }, rigOf(set))
  const summed = PLACES.map((at) => irradianceAt(emissionOf(emission), at, FACING, 128))
  const brightest = Math.max(...summed)
  for (const [i, expected] of summed.entries())
    expect(Math.abs(lights[i].direct - expected), `${PLACES[i]}: ${lights[i].direct}, ${expected}`).toBeLessThan(
      0.025 * expected + 0.001 * brightest,
    )
})
