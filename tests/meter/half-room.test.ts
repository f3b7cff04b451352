import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { defaultModifier } from '../../src/gear'
import {
  arrivalsAt,
  bodiesOf,
  bounceAt,
  bouncedOf,
  bouncePass,
  directAt,
  HalfRoom,
  type HalfRoomBounce,
  type HalfRoomGrid,
  luminanceOfCells,
  type MeterScene,
  noBounce,
  type Probe,
  visibleShare,
} from '../../src/meter'
import { luminanceFromSrgb } from '../../src/photometry'
import { createRayCaster } from '../../src/rays'
import { createRigBuilder, type Rig, type RigSource } from '../../src/rig'
import { firstSitting } from '../../src/sitting'
import { addScaled, normalize, type Vec3 } from '../../src/space'
import { lamp, setOf } from '../readings/set'
import { rigOf, roomOf, sceneOf, sourceAt } from './fixtures'

const SIDE = 96
const HERE: Vec3 = [0, 1.2, 0]
const FACING: Probe = { point: HERE, normal: [0, 0, 1] }
const front = (d: number): Vec3 => [0, 1.2, d]

function ended<T>(steps: Generator<unknown, T>): T {
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}
const gridOf = (scene: MeterScene, probe: Probe, side = SIDE): HalfRoomGrid =>
  ended(new HalfRoom(scene, probe).grid(side))
const directOf = ({ things }: HalfRoomGrid): number => things.reduce((sum, { direct }) => sum + direct, 0)
const lightFrom = (source: RigSource, probe = FACING): number => directOf(gridOf(sceneOf(rigOf([source])), probe))

const build = createRigBuilder({ figure: readFigureAsset(readFileSync('assets/sitter.glb')) })
function cast(rig: Rig): MeterScene {
  const bodies = bodiesOf(rig)
  return { rig, bodies, caster: createRayCaster(bodies.bodies) }
}

describe('light by area times luminance, against closed forms', () => {
  // E/L = π·R²/(R² + d²): disc and coaxial parallel element, Howell catalogue of configuration factors.
  test.each([0.3, 0.6, 1, 2])('a matt disc 0.9 m wide at %s m', (d) => {
    const R = 0.45
    const light = lightFrom(sourceAt('A', { shape: 'disc', radiusM: R }, front(d), HERE))
    expect(Math.abs(light / ((Math.PI * R * R) / (R * R + d * d)) - 1)).toBeLessThan(0.01)
  })

  // RAD-POLY-SQ: 1 m square at 1 m, Lambert's polygon formula.
  test('a square', () => {
    const light = lightFrom(sourceAt('A', { shape: 'rectangle', widthM: 1, heightM: 1 }, front(1), HERE))
    expect(Math.abs(light / 0.7522746885 - 1)).toBeLessThan(0.01)
  })

  // RAD-POLY-HORIZON: the same, edge on to the skin, half of it below the horizon.
  test('a square that is half set', () => {
    const light = lightFrom(sourceAt('A', { shape: 'rectangle', widthM: 1, heightM: 1 }, front(1), HERE), {
      point: HERE,
      normal: [0, 1, 0],
    })
    expect(Math.abs(light / 0.0875102642 - 1)).toBeLessThan(0.02)
  })

  test('a lamp 2 cm wide 1 m off is not lost between the cells', () => {
    const light = lightFrom(sourceAt('A', { shape: 'disc', radiusM: 0.01 }, [0.31, 1.33, 1], HERE))
    const d2 = 0.31 ** 2 + 0.13 ** 2 + 1
    // Inverse square and cosine: π·r²·cosθ/d², the lamp facing the place.
    expect(Math.abs(light / ((Math.PI * 1e-4 * (1 / Math.sqrt(d2))) / d2) - 1)).toBeLessThan(0.1)
  })
})

describe('against the meter, which sums over the source and not over the room', () => {
  const kinds = ['white-umbrella', 'silver-umbrella', 'shoot-through-umbrella', 'softbox', 'wide-dish'] as const
  const opened = (rig: Rig): MeterScene => cast({ ...rig, figures: [], surfaces: [] })
  test.each(kinds)('%s in open view, skin turned aside by 25°', (kind) => {
    const scene = opened(build(setOf([lamp('A', { az: 30, el: 25, d: 1.1, modifier: defaultModifier(kind) })])))
    const probe = { point: HERE, normal: normalize([0.05, 0.1, 1] as Vec3) }
    const [meter] = directAt(scene, probe, 'disc')
    const light = directOf(gridOf(scene, probe))
    expect(light).toBeGreaterThan(0)
    expect(Math.abs(light / (meter.perCandela * scene.rig.sources[0].axialIntensity) - 1)).toBeLessThan(0.02)
  })

  test('a softbox of which the nose hides a part from the cheek', () => {
    const modifier = { ...defaultModifier('softbox'), widthM: 0.6, heightM: 0.6 }
    const scene = cast(build(setOf([lamp('A', { az: 62, el: 25, d: 1, modifier })])))
    const [source] = scene.rig.sources
    const { position, normal } = scene.rig.figures[0].posed.landmarks.noseShadowCheekRight
    const probe = { point: addScaled(position, normal, 0.005), normal }
    const share = visibleShare(arrivalsAt(scene, source, probe.point))
    expect(share).toBeGreaterThan(0.2)
    expect(share).toBeLessThan(0.8)
    const [meter] = directAt(scene, probe, 'disc')
    // The meter's own quadrature of a hard edge is ±0.035 stop, 2.5 %.
    expect(Math.abs(directOf(gridOf(scene, probe)) / (meter.perCandela * source.axialIntensity) - 1)).toBeLessThan(0.04)
  })

  test('what panel, room and face send back is what its paths bring, and the disc is shared out whole', () => {
    const scene = cast(build(firstSitting()))
    const { position, normal } = scene.rig.figures[0].posed.landmarks.cheekLeft
    const probe = { point: addScaled(position, normal, 0.005), normal }
    const room = new HalfRoom(scene, probe)
    const grid = ended(room.grid(48))
    expect(grid.things.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9)
    let bounce: HalfRoomBounce = noBounce(grid)
    for (let pass = 0; pass < 8; pass++) bounce = ended(bouncePass(room, grid, bounce, pass))
    const sent = grid.things.reduce((sum, _, i) => sum + bouncedOf(bounce, i), 0)
    const [known] = bounceAt(scene, probe, 'disc', { paths: 4096 })
    const intensity = scene.rig.sources[0].axialIntensity
    expect(Math.abs(sent / intensity - luminanceFromSrgb(known.mean))).toBeLessThan(
      6 * known.standardError + 0.03 * luminanceFromSrgb(known.mean),
    )
    // The picture of it adds up to the same light.
    const cells = luminanceOfCells(grid, bounce)
    const drawn = (Math.PI * cells.reduce((sum, value) => sum + value, 0)) / grid.cells
    expect(Math.abs(drawn / (sent + directOf(grid)) - 1)).toBeLessThan(0.02)
  })
})

test('a room of one brightness: every thing sends as it fills the disc', () => {
  // A closed room of one reflectance with an even lamp is not even; so this looks at areas alone, which sum to the disc.
  const scene = sceneOf(rigOf([], roomOf([4, 3, 5], 0.5)))
  const { things } = gridOf(scene, { point: [0, 0, 0], normal: [0, 1, 0] })
  const ceiling = things.find(({ id }) => id === 'ceiling')
  // View factor of a 4 × 5 m rectangle from 1.5 m under its middle: (2/π)·[a·atan(b′) + …] over four corners, Howell B-4.
  const corner = (a: number, b: number) => {
    const [ra, rb] = [Math.hypot(1, a), Math.hypot(1, b)]
    return ((a / ra) * Math.atan(b / ra) + (b / rb) * Math.atan(a / rb)) / (2 * Math.PI)
  }
  expect(Math.abs((ceiling?.share ?? 0) / (4 * corner(2 / 1.5, 2.5 / 1.5)) - 1)).toBeLessThan(0.01)
})

describe('as it is seen from the skin', () => {
  const scene = cast(build(setOf([lamp('A', { az: 40, el: 30, d: 1.5 })])))
  const probe: Probe = { point: [0, 1.25, 0.12], normal: [0, 0, 1] }
  test('who looks to the lens has camera right at the left hand, and what is high above', () => {
    const place = new HalfRoom(scene, probe).place(scene.rig.sources[0].frame.origin)
    expect(place![0]).toBeLessThan(-0.3)
    expect(place![1]).toBeGreaterThan(0.3)
  })
  test('place and direction are each the way back of the other; behind the skin there is nothing', () => {
    const room = new HalfRoom(scene, probe)
    const direction = room.direction(0.4, -0.3)!
    expect(room.place(addScaled(probe.point, direction, 2))).toEqual([expect.closeTo(0.4, 9), expect.closeTo(-0.3, 9)])
    expect(room.place([0, 1.25, -1])).toBeNull()
    expect(room.direction(0.8, 0.7)).toBeNull()
  })
  test('too few cells are refused', () => {
    expect(() => gridOf(scene, probe, 4)).toThrow(/side must be a whole number over 7, got 4/)
  })
})
