import type { Surface } from '../rig'
import { addScaled, cross, dot, length, normalize, type Rect, scale, subtract, type Vec3 } from '../space'
import type { Patch } from './elements'
import type { PatchGrid, SheetLine } from './types'

/**
 * A patch on which a sheet stands, in two: a floor is bright before a backdrop and dark behind it, and one radiosity for
 * both would leak through.
 */
export interface Cut {
  readonly before: Patch
  readonly behind: Patch
  /** On the side that the sheet turns its back to. */
  isBehind(point: Vec3): boolean
}

/** Metres within which a sheet's edge stands on a surface. */
const TOUCHING_M = 0.02
/** Cosine between an edge of the patch and the sheet's normal from which both parts count as rectangles. */
const SQUARE = 0.999
/** Of half an edge: a narrower part than this is not worth an element. */
const NARROW = 0.02

/** By the first of the sheets that stands on the patch and square to it; null: none does. */
export function cutBy(patch: Patch, sheets: readonly Surface[]): Cut | null {
  for (const { rect } of sheets) {
    const cut = cutAt(patch, rect)
    if (cut) return cut
  }
  return null
}

/** Of a grid on a surface, by the first of the sheets that stands on it: a patch that is cut belongs to the part before the sheet. */
export function lineOf(rect: Rect, grid: PatchGrid, sheets: readonly Surface[]): SheetLine | undefined {
  const normal = normalize(cross(rect.halfU, rect.halfV))
  for (const { rect: sheet } of sheets) {
    const stand = standOf({ ...rect, normal }, sheet)
    if (!stand || Math.abs(stand.at) >= 1) continue
    const { across, along, way, facing, isAcrossU } = stand
    const [count, other] = isAcrossU ? [grid.columns, grid.rows] : [grid.rows, grid.columns]
    const inPatches = (halfEdges: number, patches: number) => ((halfEdges + 1) / 2) * patches - 0.5
    const at = inPatches(stand.at, count)
    const cell = Math.round(at)
    const within = 2 * (at - cell)
    const isHighBefore = dot(across, facing) > 0
    const isLow = within > 1 - NARROW || (within >= NARROW - 1 && !isHighBefore)
    const squared = dot(along, along)
    const [middle, half] = [dot(way, along) / squared, reachOf(sheet, along) / squared]
    return {
      across: isAcrossU ? 'columns' : 'rows',
      at,
      last: isLow ? cell : cell - 1,
      from: inPatches(middle - half, other),
      to: inPatches(middle + half, other),
    }
  }
  return undefined
}

/** Along an axis that need not be a unit. */
const reachOf = (sheet: Rect, axis: Vec3): number => Math.abs(dot(sheet.halfU, axis)) + Math.abs(dot(sheet.halfV, axis))

type Flat = Pick<Patch, 'centre' | 'halfU' | 'halfV' | 'normal'>

/** How a sheet stands on a flat piece, square to it; null: it does not. */
function standOf(flat: Flat, sheet: Rect) {
  const facing = normalize(cross(sheet.halfU, sheet.halfV))
  const isAcrossU = Math.abs(dot(facing, normalize(flat.halfU))) > SQUARE
  if (!isAcrossU && Math.abs(dot(facing, normalize(flat.halfV))) < SQUARE) return null
  const [across, along] = isAcrossU ? [flat.halfU, flat.halfV] : [flat.halfV, flat.halfU]
  const way = subtract(sheet.centre, flat.centre)
  const reaches = (axis: Vec3, roomM: number): boolean => Math.abs(dot(way, axis)) < reachOf(sheet, axis) + roomM
  if (!reaches(flat.normal, TOUCHING_M) || !reaches(normalize(along), length(along))) return null
  /** Where the sheet stands, in half edges from the piece's middle; its front may look either way. */
  return { facing, isAcrossU, across, along, way, at: dot(way, facing) / dot(across, facing) }
}

function cutAt(patch: Patch, sheet: Rect): Cut | null {
  const stand = standOf(patch, sheet)
  if (!stand || Math.abs(stand.at) > 1 - NARROW) return null
  const { facing, isAcrossU, across, at } = stand
  const part = (from: number, to: number): Patch => {
    const half = scale(across, (to - from) / 2)
    return {
      ...patch,
      centre: addScaled(patch.centre, across, (from + to) / 2),
      ...(isAcrossU ? { halfU: half } : { halfV: half }),
      areaM2: (patch.areaM2 * (to - from)) / 2,
    }
  }
  const [low, high] = [part(-1, at), part(at, 1)]
  const isHighBefore = dot(across, facing) > 0
  return {
    before: isHighBefore ? high : low,
    behind: isHighBefore ? low : high,
    isBehind: (point) => dot(subtract(point, sheet.centre), facing) < 0,
  }
}
