import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { bodiesOf, bouncePass, directAt, HalfRoom, type MeterScene, noBounce } from '../../src/meter'
import { createRayCaster } from '../../src/rays'
import {
  flatReading,
  lightShares,
  type SeenRoom,
  seeingPlace,
  seeingPlaces,
  seeingProbe,
  seenRoom,
} from '../../src/readings'
import { createRigBuilder, type Rig } from '../../src/rig'
import { firstSitting, type Sitting } from '../../src/sitting'
import { dot, length, normalize, subtract, type Vec3 } from '../../src/space'
import { lamp, setOf, stopsBetween, take } from './set'

const build = createRigBuilder({ figure: readFigureAsset(readFileSync('assets/sitter.glb')) })

function ended<T>(steps: Generator<unknown, T>): T {
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}
function cast(rig: Rig): MeterScene {
  const bodies = bodiesOf(rig)
  return { rig, bodies, caster: createRayCaster(bodies.bodies) }
}
function seenIn(
  sitting: Sitting,
  place: string,
): { readonly room: SeenRoom; readonly rig: Rig; readonly scene: MeterScene } {
  const scene = cast(build(sitting))
  const looked = new HalfRoom(scene, seeingProbe(sitting, scene.rig, place))
  const grid = ended(looked.grid(56))
  let bounce = noBounce(grid)
  for (let pass = 0; pass < 6; pass++) bounce = ended(bouncePass(looked, grid, bounce, pass))
  return { room: seenRoom(grid, bounce), rig: scene.rig, scene }
}

const first = firstSitting()

describe('places', () => {
  const rig = build(first)
  test('the cheek with the shadow first, then the near one, each place of the face by the side that the camera sees, then the meter places of the document', () => {
    const meterPlaces = [
      {
        id: 'm',
        name: 'left temple',
        at: { pointM: [0.3, 1.3, 0.2] as const },
        receptor: 'dome',
        facing: 'light',
      } as const,
    ]
    expect(seeingPlaces({ meterPlaces }, rig).map(({ name }) => name)).toEqual([
      'cheek away from the key',
      'near cheek',
      'cheek at camera left',
      'cheek at camera right',
      'cheek beside the nose, camera left',
      'cheek beside the nose, camera right',
      'forehead',
      'chin',
      'meter at left temple',
    ])
    expect(seeingPlace({ meterPlaces }, rig, 'place.m').name).toBe('meter at left temple')
    expect(seeingPlace({ meterPlaces: [] }, rig, 'place.m').name).toBe('near cheek')
    const probe = seeingProbe({ ...first, meterPlaces }, rig, 'place.m')
    expect(probe.point).toEqual([0.3, 1.3, 0.2])
    expect(dot(probe.normal, normalize(subtract(rig.sources[0].frame.origin, probe.point)))).toBeCloseTo(1, 9)
  })

  test('the cheek with the shadow is beside the nose, on the side away from the key', () => {
    const { landmarks, eyeMidpoint } = rig.figures[0].posed
    const aside = (point: Vec3) =>
      dot(subtract(landmarks.cheekLeft.position, eyeMidpoint), subtract(point, eyeMidpoint))
    // The key stands at the left cheek (the test below).
    expect(aside(seeingProbe(first, rig, 'nearCheek').point)).toBeGreaterThan(0)
    expect(aside(seeingProbe(first, rig, 'shadowCheek').point)).toBeLessThan(0)
  })

  test('the near cheek is the one at the key, its disc flat on the skin and 5 mm off it, as the meter is held', () => {
    const { position, normal } = rig.figures[0].posed.landmarks.cheekLeft
    const probe = seeingProbe(first, rig, 'nearCheek')
    expect(probe.normal).toEqual(normal)
    expect(length(subtract(probe.point, position))).toBeCloseTo(0.005, 9)
  })
})

describe('what brings the light', () => {
  test('the far cheek of the first sitting: key, white panel, room, and they are all of it', () => {
    const { room, rig } = seenIn(first, 'cheekRight')
    const shares = lightShares(room, rig)
    expect(shares.slice(0, 3).map(({ group }) => group)).toEqual(['source', 'panel', 'room'])
    expect(shares.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9)
    expect(shares.reduce((sum, { area }) => sum + area, 0)).toBeCloseTo(1, 9)
    // What is taken away is missing: the panel's share is what the cheek loses without it, but for the room behind it.
    const without = seenIn({ ...first, panels: [] }, 'cheekRight').room
    const sum = ({ things }: SeenRoom) => things.reduce((all, { direct, bounced }) => all + direct + bounced, 0)
    const lost = 1 - sum(without) / sum(room)
    const panel = shares[1].share
    expect(lost).toBeGreaterThan(0.6 * panel)
    expect(lost).toBeLessThan(1.3 * panel)
  })

  test('two keys in a black room: shares are the meter’s direct light, one by one', () => {
    const sitting = setOf([lamp('A', { az: 20, el: 20, d: 1.5 }), lamp('B', { az: -30, el: 10, d: 2.2 })])
    const { room, rig, scene } = seenIn(sitting, 'foreheadCentre')
    const meter = directAt(scene, seeingProbe(sitting, rig, 'foreheadCentre'), 'disc').map(
      ({ perCandela }, i) => perCandela * rig.sources[i].axialIntensity,
    )
    const seen = lightShares(room, rig)
    for (const [i, { id }] of rig.sources.entries())
      expect((seen.find((row) => row.id === id)?.share ?? 0) / (meter[i] / (meter[0] + meter[1]))).toBeCloseTo(1, 1)
  })

  test('the f-number is the one of the meter’s ratio from cheek to cheek, both discs flat on the skin', () => {
    const light = ({ things }: SeenRoom) => things.reduce((all, { direct, bounced }) => all + direct + bounced, 0)
    const [near, far] = ['cheekLeft', 'cheekRight'].map((place) => light(seenIn(first, place).room))
    const ratio = take(first, 512).value('ratio.nearFar')
    expect(Math.abs(Math.log2(far / near) - ratio)).toBeLessThan(0.08)
  })

  test('a stop more power is a stop more; no light is no number', () => {
    const { room } = seenIn(setOf([lamp('A', { az: 20 })]), 'foreheadCentre')
    const number = (factorStops: number) => {
      const text = flatReading(room, { factorStops }, 100) ?? ''
      const [whole, tenths = '0'] = text.replace('f/', '').split(' + ')
      return Number(whole) * 2 ** (Number(tenths) / 2)
    }
    expect(stopsBetween(number(0), number(1))).toBeCloseTo(1, 0)
    const dark = seenIn(setOf([]), 'foreheadCentre')
    expect(flatReading(dark.room, { factorStops: 0 }, 100)).toBeNull()
    expect(lightShares(dark.room, dark.rig).every(({ share }) => share === 0)).toBe(true)
  })
})
