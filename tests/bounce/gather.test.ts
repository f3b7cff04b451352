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

/**
 * Of 256 rays from a place some 2 m off, none or one meets the card: by those alone its light would be there thrice or not at all. Before
 * one wall hangs a sheet, so that points are chosen for that wall as for a pocket; what the sheet may hide of the card is left out.
 */
test('a card of 12 cm lights the walls of a black room as E = B·A·cosθ·cosθ′/(π·r²), each patch within 3 %', () => {
  const [lampAt, cardAt, sideM, rho]: [Vec3, Vec3, number, number] = [[0, 1.4, 1.4], [0, 1.2, -0.6], 0.12, 0.8]
  const card = board('card', cardAt, lampAt, sideM, sideM, matt(rho))
  const lamp = discLamp(lampAt, cardAt)
  // A matt disc on its own axis: E = πL·R²/(R² + d²).
  const radiosity = (rho * Math.PI * 0.5 ** 2) / (0.5 ** 2 + distance(lampAt, cardAt) ** 2)
  const hung = { ...board('hung', [-1.2, 0.6, 1.7], [-1.2, 0.6, 0], 1, 1, BLACK), kind: 'backdrop' as const }
  const isHidden = (at: Vec3): boolean => {
    const [x, y] = addScaled(cardAt, subtract(at, cardAt), (1.7 - cardAt[2]) / (at[2] - cardAt[2]))
    return at[2] > 1.7 && Math.abs(x + 1.2) < 0.5 + sideM && Math.abs(y - 0.6) < 0.5 + sideM
  }
  const rig = rigOf([lamp], [...room(SIZE, () => BLACK), { ...card, back: BLACK }, hung])
  const bounce = bounceOf(rig, SETTLED_LISTS)
  const { patches } = bounce.solve(lamp, SETTLED)
  const front = normalize(subtract(lampAt, cardAt))
  const walls = bounce.receivers.grids.filter(({ surfaceId }) => !['card', 'hung'].includes(surfaceId))
  const both = walls.flatMap(({ surfaceId, columns, rows, first }) => {
    const { rect } = rig.surfaces.find(({ id }) => id === surfaceId)!
    const normal = normalize(cross(rect.halfU, rect.halfV))
    return Array.from({ length: columns * rows }, (_, patch) => {
      const parts = partsOf(rect, columns, rows, patch)
      if (parts.some(isHidden)) return { surfaceId, patch, light: 0, got: 0 }
      const lights = parts.map((at) => {
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

/** Sizes are a choice of ours (by the two routes' agreement); held to: which surface has them, at any gap and in a hall. */
test('a wall has five patches on the gap where a backdrop hangs close before it, in a hall no more than 5,000, and no other surface has', () => {
  const patchesOf = (gap: number, size = SIZE) => {
    const paperAt: Vec3 = [0, 1.3, gap - size[2] / 2]
    const paper = { ...board('paper', paperAt, [0, 1.3, 9], 2, 2, matt(0.8)), kind: 'backdrop' as const }
    const { grids } = bounceOf(rigOf([], [...room(size, () => matt(0.7)), paper]), FEW_RAYS).receivers
    return new Map(grids.map(({ surfaceId, columns, rows }) => [surfaceId, columns * rows]))
  }
  const [far, near, nearer] = [patchesOf(2), patchesOf(0.4), patchesOf(0.2)]
  for (const [id, count] of far) if (id !== 'back') expect([near.get(id), nearer.get(id)], id).toEqual([count, count])
  const areaM2 = SIZE[0] * SIZE[1]
  expect(near.get('back')! / (areaM2 / 0.08 ** 2)).toBeCloseTo(1, 1)
  expect(nearer.get('back')! / (areaM2 / 0.0625 ** 2)).toBeCloseTo(1, 1)
  expect(patchesOf(0.2, [12, 4, 4]).get('back')! / 5000).toBeCloseTo(1, 1)
})
const FEW_RAYS = { patchRays: 1, vertexRays: 1, linkEdge: 1 }

/** By the places' own coordinates: nothing of a grid but where its patches' middles lie. */
test('where a backdrop stands on the floor the floor’s grid says so: which patches lie before it and which behind', () => {
  const lineAt = (z: number, facing: 1 | -1) => {
    const paper = { ...board('paper', [0.5, 1, z], [0.5, 1, 9 * facing], 2, 2, matt(0.8)), kind: 'backdrop' as const }
    const set = [...room(SIZE, () => matt(0.7)), paper]
    const { grids } = bounceOf(rigOf([], set), FEW_RAYS).receivers
    expect(grids.filter(({ sheet }) => sheet).map(({ surfaceId }) => surfaceId)).toEqual(['floor'])
    const grid = grids.find(({ surfaceId }) => surfaceId === 'floor')!
    const { centre, halfU, halfV } = set.find(({ id }) => id === 'floor')!.rect
    const { across, at, last, from, to } = grid.sheet!
    const [own, other] = across === 'columns' ? [halfU, halfV] : [halfV, halfU]
    const [count, beside] = across === 'columns' ? [grid.columns, grid.rows] : [grid.rows, grid.columns]
    const placeOf = (k: number, patches: number, axis: Vec3) => addScaled(centre, axis, (2 * k + 1) / patches - 1)
    const ends = [from, to].map((k) => placeOf(k, beside, other)[0]).sort((a, b) => a - b)
    const lower = placeOf(last, count, own)[2] < placeOf(last + 1, count, own)[2] ? [last, last + 1] : [last + 1, last]
    return { z: placeOf(at, count, own)[2], ends, sides: lower.map((k) => placeOf(k, count, own)[2]) }
  }
  // Patches of 25 cm from −2 on: −0.93 cuts that of −0.875, which is the side's that the paper faces; −1 is an edge.
  for (const [z, facing, sides] of [
    [-0.93, 1, [-1.125, -0.875]],
    [-0.93, -1, [-0.875, -0.625]],
    [-1, 1, [-1.125, -0.875]],
    [-1, -1, [-1.125, -0.875]],
  ] as const) {
    const line = lineAt(z, facing)
    expect(line.z).toBeCloseTo(z, 6)
    for (const k of [0, 1] as const) {
      expect(line.ends[k]).toBeCloseTo([-0.5, 1.5][k]!, 6)
      expect(line.sides[k], `${z} ${facing}`).toBeCloseTo(sides[k]!, 6)
    }
  }
})
