import type { Surface } from '../rig'
import { addScaled, cross, dot, length, normalize, type Rect, scale, subtract, type Vec3 } from '../space'
import type { Patch } from './elements'

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

function cutAt(patch: Patch, sheet: Rect): Cut | null {
  const facing = normalize(cross(sheet.halfU, sheet.halfV))
  const isAcrossU = Math.abs(dot(facing, normalize(patch.halfU))) > SQUARE
  if (!isAcrossU && Math.abs(dot(facing, normalize(patch.halfV))) < SQUARE) return null
  const [across, along] = isAcrossU ? [patch.halfU, patch.halfV] : [patch.halfV, patch.halfU]
  const way = subtract(sheet.centre, patch.centre)
  const reaches = (axis: Vec3, roomM: number): boolean => {
    const reach = Math.abs(dot(sheet.halfU, axis)) + Math.abs(dot(sheet.halfV, axis))
    return Math.abs(dot(way, axis)) < reach + roomM
  }
  if (!reaches(patch.normal, TOUCHING_M) || !reaches(normalize(along), length(along))) return null
  /** Where the sheet stands, in half edges from the patch's middle; its front may look either way. */
  const at = dot(way, facing) / dot(across, facing)
  if (Math.abs(at) > 1 - NARROW) return null
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
