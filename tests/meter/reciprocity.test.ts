import { expect, test } from 'vitest'
import { bounceAt, directAt } from '../../src/meter'
import { luminanceFromSrgb } from '../../src/photometry'
import type { Material, Surface } from '../../src/rig'
import { addScaled, normalize, type Vec3 } from '../../src/space'
import { board, matt, room } from '../bounce/fixtures'
import { rigOf, sceneOf, sourceAt } from './fixtures'

/** A small lit disc and a disc receptor may change places (Helmholtz; Clarke and Parry 1985): each gives the other the same light. */
const RADIUS_M = 0.02
/** Paths by way of silver scatter more. */
const PATHS = { matt: 49_152, silver: 131_072 }

interface Place {
  readonly point: Vec3
  readonly normal: Vec3
}
const place = (point: Vec3, towards: Vec3): Place => ({ point, normal: normalize(towards) })

const METAL = { kind: 'metal', f0: [0.88, 0.88, 0.88], roughness: 0.5 } as const satisfies Material
const WALLS = room([3, 2.4, 3.5], (name) => matt(name === 'floor' ? 0.2 : name === 'left' ? 0.8 : 0.5))
/** A white and a silver one. */
const BOARDS = [
  ...WALLS,
  board('white', [-0.8, 1.1, 0.2], [0, 1.2, 0], 0.9, 1.2, matt(0.85)),
  board('silver', [0.7, 1.3, -0.4], [0, 1.1, 0.5], 0.8, 1, METAL),
]
const MIRROR = [...WALLS, board('mirror', [0.7, 1.3, -0.4], [0, 1.1, 0.5], 0.8, 1, { ...METAL, roughness: 0 })]
const PAIRS: readonly (readonly [string, Place, Place])[] = [
  ['in sight of each other', place([0.6, 1.6, 0.9], [-0.6, -0.3, -0.9]), place([0, 1.2, 0], [0.3, 0.3, 0.9])],
  ['turned away from each other', place([0.5, 1.5, 0.8], [0.2, 0.9, 0.4]), place([-0.1, 1.2, 0.1], [-0.9, 0.1, 0.2])],
]

/** At one place from the other, all orders of bounce. */
function received(surfaces: readonly Surface[], paths: number, from: Place, at: Place): number {
  const lamp = sourceAt('A', { shape: 'disc', radiusM: RADIUS_M }, from.point, addScaled(from.point, from.normal, 1))
  const scene = sceneOf(rigOf([lamp], surfaces))
  const [{ mean }] = bounceAt(scene, at, 'disc', { paths })
  return directAt(scene, at, 'disc')[0].perCandela + luminanceFromSrgb(mean)
}

test.each([
  ...PAIRS.map(([pair, a, b]) => ({ set: 'painted walls', surfaces: WALLS, paths: PATHS.matt, pair, a, b })),
  ...PAIRS.slice(1).map(([pair, a, b]) => ({ set: 'a mirror', surfaces: MIRROR, paths: PATHS.matt, pair, a, b })),
  ...PAIRS.slice(1).map(([pair, a, b]) => ({ set: 'boards', surfaces: BOARDS, paths: PATHS.silver, pair, a, b })),
])('$set; lamp and meter $pair: swapped, the same within 1 %', ({ surfaces, paths, a, b }) => {
  const [there, back] = [received(surfaces, paths, a, b), received(surfaces, paths, b, a)]
  expect(there).toBeGreaterThan(0)
  expect(Math.abs(there / back - 1)).toBeLessThan(0.01)
})
