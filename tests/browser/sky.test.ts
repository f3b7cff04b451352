import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { luminousExposureFromFNumber } from '../../src/photometry'
import { firstSitting, setPower } from '../../src/sitting'
import type { Vec3 } from '../../src/space'
import { agreementPage } from './agreement-bench'
import { rigOf } from './agreement-rigs'
import { byPicture, pixelsOf } from './agreement-routes'

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

/** Level matt ground under the whole sky: ρ·E, wherever it lies (Lambert). The document's own piece ends 2 m behind the sitter. */
test('ground reaches the horizon in the picture, as bright as it is under the open sky', async () => {
  const first = firstSitting()
  const [rho, lux, shutterS, fNumber] = [0.3, 10_000, 0.004, 8]
  const sitting = {
    ...first,
    ...{ panels: [], objects: [], backdrop: null },
    room: { ...first.room, widthM: 4, depthM: 5, zM: 0.5, outdoors: true, floorReflectance: rho },
    sources: [{ ...first.sources[0], modifier: { kind: 'overcast-sky', illuminanceLx: lux } }],
    camera: { ...first.camera, positionM: [0, 1.2, 1.5], aimM: [0, 1.2, 0], focalLengthMm: 24, shutterS },
  }
  const [width, height] = [64, 96]
  const order = {
    set: { sittingText: JSON.stringify(setPower(sitting as never, first.sources[0].id, 0)) },
    width,
    height,
  }
  const { linear } = await pixelsOf(open, { ...order, samples: 16, bounce: null, fNumber })
  const expected = (rho * lux * shutterS) / luminousExposureFromFNumber(fNumber, first.camera.iso)
  // Looking level: the horizon is the middle row. From the tenth of the frame under it on, ground is nearer than 60 m.
  for (const x of [2, 12, 50, 61])
    for (const row of [0.54, 0.58, 0.62]) {
      const value = linear[4 * (Math.floor(row * height) * width + x) + 1]
      expect(Math.abs(value / expected - 1), `column ${x}, row ${row}`).toBeLessThan(0.02)
    }
})
