import { gearGridId, placeOnSolid, type Rig, type Solid, type SolidSide, sidesOf, solidGrid } from '../rig'
import { addScaled, length } from '../space'
import type { RayStart } from './shots'
import type { PatchGrid } from './types'

/** Receivers on balls and gear: places of a grid on each side of each. They receive only; what they send, clusters do. */
export interface SolidReceivers {
  /** Numbered on from the set's patches. */
  readonly grids: readonly PatchGrid[]
  readonly starts: readonly RayStart[]
  /** Of each place of the grids, in their order, the start that speaks for it: all places at a pole have one. */
  readonly startOf: Uint32Array
  /** Pairs of starts that are neighbours. */
  readonly edges: readonly (readonly [number, number])[]
}

/** Metres by which a ray starts off the surface. */
const LIFT = 2e-4
/** Shares of the radius by which the caster's facets of a cylinder or a cap may lie off it: a start must lie outside. */
const FACETS = 0.015

interface NamedSolid {
  readonly id: string
  readonly solid: Solid
}

const solidsOf = ({ balls, sources }: Rig): readonly NamedSolid[] => [
  ...balls.map(({ id, centre, radiusM }) => ({ id, solid: { kind: 'ball', centre, radiusM } as const })),
  ...sources.flatMap(({ id, gear }) => gear.map((solid, i) => ({ id: gearGridId(id, i), solid }))),
]

export function solidReceivers(rig: Rig, patchCount: number): SolidReceivers {
  const grids: PatchGrid[] = []
  const starts: RayStart[] = []
  const startOf: number[] = []
  const edges: [number, number][] = []
  for (const { id, solid } of solidsOf(rig))
    for (const side of sidesOf(solid)) {
      const { isRound, columns, rows } = solidGrid(solid)
      const first = startOf.length
      grids.push({ surfaceId: id, side, columns, rows, first: patchCount + first })
      for (let row = 0; row < rows; row++) {
        const isPole = isRound && (row === 0 || row === rows - 1)
        for (let column = 0; column < columns; column++) {
          if (!isPole || column === 0) starts.push(startAt(solid, side, column, row))
          startOf.push(starts.length - 1)
        }
      }
      for (let i = first; i < startOf.length; i++) {
        const column = (i - first) % columns
        if (column > 0 || isRound) edges.push([startOf[i], startOf[column > 0 ? i - 1 : i + columns - 1]])
        if (i - first >= columns) edges.push([startOf[i], startOf[i - columns]])
      }
    }
  return { grids, starts, startOf: Uint32Array.from(startOf), edges }
}

function startAt(solid: Solid, side: SolidSide, column: number, row: number): RayStart {
  const { point, normal } = placeOnSolid(solid, side, column, row)
  const isFaceted = solid.kind === 'cylinder' || solid.kind === 'cap'
  const radiusM = isFaceted ? length(solidGrid(solid).halfU) : 0
  return { point: addScaled(point, normal, LIFT + FACETS * radiusM), normal }
}
