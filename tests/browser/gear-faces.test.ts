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

/** Two beams apart, brighter on one side of the plane of 0° and round it: a table in which planes and angles both count. */
const STEPS = Array.from({ length: 19 }, (_, i) => 5 * i)
const PLANES = Array.from({ length: 13 }, (_, i) => 30 * i)
const winged = PLANES.map((plane) =>
  STEPS.map((angle) =>
    (
      900 *
      Math.cos((angle * Math.PI) / 180) *
      (1 + 0.6 * Math.cos(((plane - 40) * Math.PI) / 180) * (angle / 90))
    ).toFixed(3),
  ).join(' '),
).join('; ')
const TABLE = { planesDeg: PLANES.join(' '), anglesDeg: STEPS.join(' '), candela: winged }

test.each([
  ['bare-bulb', {}],
  ['snoot', {}],
  ['ring-flash', {}],
  ['softbox', { lipM: 0.08 }],
  ['beauty-dish', {}],
  ['white-umbrella', { front: 'cloth' }],
  ['deep-umbrella', {}],
  ['measured-lamp', { ...TABLE, opening: 'disc', widthM: 0.3 }],
  ['measured-lamp', { ...TABLE, widthM: 0.6, heightM: 0.3 }],
] as const)('%s, %#', async (kind, change) => {
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
