import { expect, test } from 'vitest'
import { SETTLED } from '../../src/bounce'
import { uniformSurface } from '../../src/photometry'
import type { RigSource } from '../../src/rig'
import { addScaled, cross, type Frame, length, normalize, type Rect, scale, type Vec3 } from '../../src/space'
import { board, bounceOf, discLamp, matt, rigOf, room } from './fixtures'

const SIZE: Vec3 = [3, 2.4, 3.5]
const SET = [
  ...room(SIZE, (name) => matt(name === 'floor' ? 0.2 : name === 'left' ? 0.8 : 0.5)),
  board('panel', [-0.6, 1.1, 0.2], [0, 1.2, 0], 0.9, 1.2, matt(0.85)),
]
/** Of a wall's grid: the first column and row of a window three by three cells wide: a list of one cell is no measure. */
interface Window {
  readonly wall: string
  readonly column: number
  readonly row: number
}
const WIDE = 3
const PAIRS: readonly (readonly [Window, Window])[] = [
  [
    { wall: 'right', column: 6, row: 4 },
    { wall: 'ceiling', column: 2, row: 5 },
  ],
  [
    { wall: 'right', column: 5, row: 3 },
    { wall: 'left', column: 8, row: 5 },
  ],
  [
    { wall: 'back', column: 3, row: 3 },
    { wall: 'left', column: 3, row: 3 },
  ],
]

const gridOf = (wall: string) =>
  bounceOf(rigOf([], SET), { patchRays: 1, vertexRays: 1, linkEdge: 1 }).receivers.grids.find(
    ({ surfaceId }) => surfaceId === wall,
  )!

/** Its own piece of the wall. */
function rectOf({ wall, column, row }: Window): Rect {
  const { centre, halfU, halfV } = SET.find(({ id }) => id === wall)!.rect
  const { columns, rows } = gridOf(wall)
  const u = (2 * column + WIDE) / columns - 1
  const v = (2 * row + WIDE) / rows - 1
  return {
    centre: addScaled(addScaled(centre, halfU, u), halfV, v),
    halfU: scale(halfU, WIDE / columns),
    halfV: scale(halfV, WIDE / rows),
  }
}
const areaOf = (window: Window) => 4 * length(rectOf(window).halfU) * length(rectOf(window).halfV)

function glowing(window: Window): RigSource {
  const { centre, halfU, halfV } = rectOf(window)
  const z = normalize(cross(halfU, halfV))
  const frame: Frame = { origin: addScaled(centre, z, 1e-3), x: normalize(halfU), y: normalize(halfV), z }
  const surface = { shape: 'rectangle', widthM: 2 * length(halfU), heightM: 2 * length(halfV) } as const
  const lamp = discLamp(centre, addScaled(centre, z, 1))
  const emission = uniformSurface({ surface, luminance: 1 })
  return { ...lamp, frame, emitters: [{ ...lamp.emitters[0], frame, emission }] }
}

/** Bounced flux on the cells of a window, lm·s. */
function landing(from: Window, on: Window): number {
  const source = glowing(from)
  const bounce = bounceOf(rigOf([source], SET), { patchRays: 1024, vertexRays: 32, linkEdge: 1 })
  const { patches } = bounce.solve(source, SETTLED)
  const { columns, first } = bounce.receivers.grids.find(({ surfaceId }) => surfaceId === on.wall)!
  let sum = 0
  for (let row = on.row; row < on.row + WIDE; row++)
    for (let column = on.column; column < on.column + WIDE; column++)
      sum += patches[3 * (first + row * columns + column) + 1]
  return (sum / WIDE ** 2) * areaOf(on)
}

/** The picture's route: what one lit piece of wall sends another by way of everything else, to all orders (F₁₂A₁ = F₂₁A₂). */
test.each(PAIRS)('a lit piece of wall and another may change places, within 1 %: $wall', (a, b) => {
  const [there, back] = [landing(a, b), landing(b, a)]
  expect(there).toBeGreaterThan(0)
  expect(Math.abs(there / back - 1)).toBeLessThan(0.01)
})
