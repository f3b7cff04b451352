import { describe, expect, test } from 'vitest'
import { bounceAt, directAt, type Probe } from '../../src/meter'
import { luminanceFromSrgb, type Rgb } from '../../src/photometry'
import type { Material, Surface } from '../../src/rig'
import { add, cross, normalize, type Vec3 } from '../../src/space'
import { rigOf, roomOf, sceneOf, sourceAt } from './fixtures'

/** The law of the flat mirror (Euclid, Catoptrics): a lamp's light comes as from its image, as far behind as the lamp is before. */
const mirror = (f0: Rgb): Material => ({ kind: 'metal', f0, roughness: 0 })
const SILVER: Rgb = [0.88, 0.88, 0.88]
const BLACK: Material = { kind: 'matt', albedo: [0, 0, 0] }

/** Upright at z = −1, looking to the camera, its middle at the origin's height. */
const mirrorAt = (widthM: number, front: Material, back: Material = BLACK): Surface => ({
  id: 'mirror',
  kind: 'panel',
  rect: { centre: [0, 0, -1], halfU: [widthM / 2, 0, 0], halfV: [0, 1, 0] },
  front,
  back,
})
const card = (centre: Vec3, halfM: number): Surface => ({
  id: `card ${centre}`,
  kind: 'card',
  rect: { centre, halfU: [halfM, 0, 0], halfV: [0, halfM, 0] },
  front: BLACK,
  back: BLACK,
})

const RADIUS_M = 0.002
/** Looks at the mirror's plane, away from every place of these tests. */
const LAMP: Vec3 = [0.6, 0, 0]
const lamp = (colour: Rgb = [1, 1, 1]) =>
  sourceAt('A', { shape: 'disc', radiusM: RADIUS_M }, LAMP, add(LAMP, [0, 0, -1]), { colour })
const facing = (point: Vec3): Probe => ({ point, normal: [0, 0, -1] })

function light(surfaces: readonly Surface[], probe: Probe, colour?: Rgb): Rgb {
  const [{ mean, sent }] = bounceAt(sceneOf(rigOf([lamp(colour)], surfaces)), probe, 'disc', { paths: 16 })
  expect(sent.boards).toEqual(mean)
  return mean
}

/** L·A·cosθ·cosθ'/d² from the image, at (0.6, 0, −2): both cosines are depth over way. */
function fromImage([x, y, z]: Vec3): number {
  const [dx, dy, dz] = [x - LAMP[0], y - LAMP[1], z + 2]
  const squared = dx * dx + dy * dy + dz * dz
  return (Math.PI * RADIUS_M ** 2 * dz * dz) / squared ** 2
}

describe('a small lamp over a mirror', () => {
  test.each<Vec3>([
    [-0.6, 0, 0.2],
    [0.1, 0.5, 1],
    [0.55, -0.3, -0.9],
  ])('brings to %s what its image would, times the reflectance, within 0.5 %%', (...point) => {
    const [r] = light([mirrorAt(4, mirror(SILVER))], facing(point))
    expect(Math.abs(r / (0.88 * fromImage(point)) - 1)).toBeLessThan(0.005)
  })

  test('in gold is coloured band by band, and by the lamp', () => {
    const found = light([mirrorAt(4, mirror([0.88, 0.68, 0.3]))], facing([0, 0, 1]), [1.2, 1, 0.5])
    const white = fromImage([0, 0, 1])
    for (const [band, f] of [0.88 * 1.2, 0.68, 0.3 * 0.5].entries())
      expect(Math.abs(found[band] / (f * white) - 1)).toBeLessThan(0.005)
  })

  test('brings nothing behind it, and nothing where the other side is the mirror', () => {
    const behind: Probe = { point: [0, 0, -2], normal: [0, 0, 1] }
    expect(light([mirrorAt(4, mirror(SILVER))], behind)).toEqual([0, 0, 0])
    expect(light([mirrorAt(4, BLACK, mirror(SILVER))], facing([0, 0, 1]))).toEqual([0, 0, 0])
  })
})

/** Similar triangles: seen from the image, 1 m behind the mirror, what stands at depth a is (z + 2)/a times as far out at z. */
describe('on a wall at z = 1', () => {
  const onWall = (x: number): Probe => facing([x, 0, 1])
  const projected = (x: number, depth: number) => LAMP[0] + ((x - LAMP[0]) * 3) / depth
  /** The lamp's own blur is RADIUS_M·2 either way for an edge 1 m from the image. */
  const CLEAR_M = 0.006

  test('the lit patch ends where the mirror does', () => {
    const set = [mirrorAt(0.6, mirror(SILVER))]
    for (const [edge, inwards] of [
      [0.3, -1],
      [-0.3, 1],
    ]) {
      const x = projected(edge, 1)
      expect(light(set, onWall(x - inwards * CLEAR_M))[1]).toBe(0)
      const [, within] = light(set, onWall(x + inwards * CLEAR_M))
      expect(Math.abs(within / (0.88 * fromImage([x, 0, 1])) - 1)).toBeLessThan(0.02)
      const [, half] = light(set, onWall(x))
      expect(Math.abs(half / within - 0.5)).toBeLessThan(0.03)
    }
  })

  test.each([
    // At z = −0.5 in front of the lamp, half a metre before the mirror: its image is 0.5 m from the lamp's image.
    { where: 'between lamp and mirror', at: [0.5, 0, -0.5] as Vec3, depth: 0.5 },
    { where: 'between mirror and wall', at: [0.2, 0, 0.4] as Vec3, depth: 2.4 },
  ])('a card $where casts its shadow there and nowhere else', ({ at, depth }) => {
    const set = [mirrorAt(4, mirror(SILVER)), card(at, 0.03)]
    const [low, high] = [projected(at[0] - 0.03, depth), projected(at[0] + 0.03, depth)]
    const clear = 2 * CLEAR_M * (3 / depth)
    for (const x of [low + clear, (low + high) / 2, high - clear]) expect(light(set, onWall(x))[1]).toBe(0)
    for (const x of [low - clear, high + clear])
      expect(Math.abs(light(set, onWall(x))[1] / (0.88 * fromImage([x, 0, 1])) - 1)).toBeLessThan(0.005)
  })

  test('a card behind the mirror casts none', () => {
    const set = [mirrorAt(4, mirror(SILVER)), card([0.3, 0, -1.5], 0.3)]
    expect(light(set, onWall(-0.3))[1]).toBeCloseTo(0.88 * fromImage([-0.3, 0, 1]), 8)
  })
})

test('white furnace: a mirror of reflectance 1 vanishes in a room that glows all over', () => {
  const size: Vec3 = [3, 2.4, 4]
  const walls = roomOf(size, 0)
  const glowing = walls.map(({ id, rect }) => {
    const normal = normalize(cross(rect.halfU, rect.halfV))
    const long = (axis: number) => Math.abs(normal[axis]) > 0.5
    const [widthM, heightM] = long(1) ? [size[0], size[2]] : long(0) ? [size[2], size[1]] : [size[0], size[1]]
    return sourceAt(id, { shape: 'rectangle', widthM, heightM }, rect.centre, add(rect.centre, normal))
  })
  const scene = sceneOf(rigOf(glowing, [...walls, mirrorAt(1.6, mirror([1, 1, 1]))]))
  const probe: Probe = { point: [0.2, 0.1, -0.6], normal: normalize([0.3, 0.1, -0.9]) }
  const direct = directAt(scene, probe, 'disc').reduce((sum, { perCandela }) => sum + perCandela, 0)
  const over = bounceAt(scene, probe, 'disc', { paths: 64 }).reduce((sum, { mean }) => sum + luminanceFromSrgb(mean), 0)
  expect(over / Math.PI, 'the mirror takes up a good part of the view').toBeGreaterThan(0.2)
  expect(Math.abs((direct + over) / Math.PI - 1)).toBeLessThan(0.01)
})
