import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import type { Vec3 } from '../../src/space'
import { agreementPage } from './agreement-bench'
import { rigOf } from './agreement-rigs'
import { byPicture } from './agreement-routes'

/** shared/check-values.json SKY-OVERCAST-EH and -EV through the picture's own passes, per zenith of 1 cd/m². */
const open = agreementPage()
const expectedOf = (id: string) =>
  JSON.parse(readFileSync('shared/check-values.json', 'utf8')).find((one: { id: string }) => one.id === id).expected

const SIDES: readonly (readonly [normal: Vec3, expected: number])[] = [
  [[0, 1, 0], expectedOf('SKY-OVERCAST-EH')],
  [[1, 0, 0], expectedOf('SKY-OVERCAST-EV').E_v],
  [[0, 0, -1], expectedOf('SKY-OVERCAST-EV').E_v],
]
const PLACES: readonly Vec3[] = [
  [0, 1.2, 0],
  [5, 0.01, -6],
]

test('level and upright places under the overcast sky', async () => {
  const emission = { profile: 'kind', kind: 'overcast-sky' } as const
  // Its frame looks down from the middle of the level.
  const set = { sources: [{ emission, centre: [0, 0, 0] as Vec3, aim: [0, -1, 0] as Vec3 }] }
  const cases = PLACES.flatMap((position) => SIDES.map(([normal, expected]) => ({ position, normal, expected })))
  const { lights } = await byPicture(open, { set, probes: cases, samples: 512, bounce: null }, rigOf(set))
  for (const [i, { position, normal, expected }] of cases.entries())
    expect(Math.abs(lights[i].direct / expected - 1), `${position} ${normal}: ${lights[i].direct}`).toBeLessThan(0.01)
})
