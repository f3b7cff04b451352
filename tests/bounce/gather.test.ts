import { expect, test } from 'vitest'
import { SETTLED, SETTLED_LISTS } from '../../src/bounce'
import { addScaled, cross, distance, dot, length, normalize, type Rect, subtract, type Vec3 } from '../../src/space'
import { board, bounceOf, discLamp, matt, rigOf, room } from './fixtures'

const BLACK = matt(0)
const SIZE: Vec3 = [4, 2.6, 4]

/** Middles of so many by so many parts of a patch. */
const PARTS = 5

function partsOf({ centre, halfU, halfV }: Rect, columns: number, rows: number, patch: number): readonly Vec3[] {
  const [column, row] = [patch % columns, Math.floor(patch / columns)]
  const at = (cell: number, part: number, count: number) => (2 * (cell + (part + 0.5) / PARTS)) / count - 1
  return Array.from({ length: PARTS ** 2 }, (_, i) => {
    const along = addScaled(centre, halfU, at(column, i % PARTS, columns))
    return addScaled(along, halfV, at(row, Math.floor(i / PARTS), rows))
  })
}

/** Of 256 rays from a place some 2 m off, none or one meets the card: by those alone its light would be there thrice or not at all. */
test('a card of 12 cm lights the walls of a black room as E = B·A·cosθ·cosθ′/(π·r²), each patch within 3 %', () => {
  const [lampAt, cardAt, sideM, rho]: [Vec3, Vec3, number, number] = [[0, 1.4, 1.4], [0, 1.2, -0.6], 0.12, 0.8]
  const card = board('card', cardAt, lampAt, sideM, sideM, matt(rho))
  const lamp = discLamp(lampAt, cardAt)
  // A matt disc on its own axis: E = πL·R²/(R² + d²).
  const radiosity = (rho * Math.PI * 0.5 ** 2) / (0.5 ** 2 + distance(lampAt, cardAt) ** 2)
  const rig = rigOf([lamp], [...room(SIZE, () => BLACK), { ...card, back: BLACK }])
  const bounce = bounceOf(rig, SETTLED_LISTS)
  const { patches } = bounce.solve(lamp, SETTLED)
  const front = normalize(subtract(lampAt, cardAt))
  const walls = bounce.receivers.grids.filter(({ surfaceId }) => surfaceId !== 'card')
  const both = walls.flatMap(({ surfaceId, columns, rows, first }) => {
    const { rect } = rig.surfaces.find(({ id }) => id === surfaceId)!
    const normal = normalize(cross(rect.halfU, rect.halfV))
    return Array.from({ length: columns * rows }, (_, patch) => {
      const lights = partsOf(rect, columns, rows, patch).map((at) => {
        const way = subtract(at, cardAt)
        const cosines = Math.max(0, dot(front, way)) * Math.max(0, -dot(normal, way))
        return (radiosity * sideM ** 2 * cosines) / (Math.PI * length(way) ** 4)
      })
      const light = lights.reduce((sum, value) => sum + value, 0) / lights.length
      return { surfaceId, patch, light, got: patches[3 * (first + patch)]! }
    })
  })
  const most = Math.max(...both.map(({ light }) => light))
  const lit = both.filter(({ light }) => light > 0.05 * most)
  expect(lit.length).toBeGreaterThan(200)
  expect(lit.filter(({ light, got }) => !(Math.abs(got / light - 1) < 0.03))).toEqual([])
})

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length

/** Opaque is opaque: no source needed. The sheet stands off the patches' edges, so on floor, walls and ceiling it cuts patches. */
test('a sheet from wall to wall and from floor to ceiling leaves nothing of the light for what lies behind it', () => {
  const z = -0.93
  const sheet = board('sheet', [0, 1.3, z], [0, 1.3, 1], 4, 2.6, matt(0.8))
  const lamp = discLamp([0.5, 1.5, 1], [0, 1.2, 0])
  const rig = rigOf([lamp], [...room(SIZE, () => matt(0.7)), sheet])
  const bounce = bounceOf(rig, SETTLED_LISTS)
  const { patches } = bounce.solve(lamp, SETTLED)
  const lightOn = (isMeant: (at: Vec3, name: string) => boolean) =>
    bounce.receivers.grids.flatMap(({ surfaceId, side, columns, rows, first }) => {
      const { rect } = rig.surfaces.find(({ id }) => id === surfaceId)!
      return Array.from({ length: columns * rows }, (_, patch) => patch)
        .filter((patch) => {
          const parts = partsOf(rect, columns, rows, patch)
          return parts.every((part) => isMeant(part, `${surfaceId} ${side}`))
        })
        .map((patch) => patches[3 * (first + patch)]!)
    })
  const before = lightOn(([, , at]) => at > z + 0.001)
  const behind = lightOn(([, , at], name) => at < z - 0.001 || name === 'sheet back')
  expect(behind.length).toBeGreaterThan(200)
  expect(Math.min(...before)).toBeGreaterThan(0)
  // A sight's ends are pulled in by 0.1 mm: of what lies as near behind the sheet, some counts as before it.
  expect(mean(behind)).toBeLessThan(0.001 * mean(before))
})

test('a wall has patches half as wide where a backdrop hangs within 0.45 m of it, and no other surface has', () => {
  const columnsOf = (z: number) => {
    const paper = { ...board('paper', [0, 1.3, z], [0, 1.3, 1], 2, 2, matt(0.8)), kind: 'backdrop' as const }
    const { grids } = bounceOf(rigOf([], [...room(SIZE, () => matt(0.7)), paper]), FEW_RAYS).receivers
    return new Map(grids.map(({ surfaceId, columns, rows }) => [surfaceId, columns * rows]))
  }
  const [far, near] = [columnsOf(0), columnsOf(0.4 - SIZE[2] / 2)]
  for (const [id, count] of near) expect(count / far.get(id)!, id).toBeCloseTo(id === 'back' ? 4 : 1, 0)
})
const FEW_RAYS = { patchRays: 1, vertexRays: 1, linkEdge: 1 }
