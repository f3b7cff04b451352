import type { Surface } from '../rig'
import { cross, dot, length, normalize, type Rect, subtract, type Vec3 } from '../space'
import type { BounceScene } from './scene'

/** Edge lengths of patches, m: of the room; of what stands free in it, whose light varies faster. */
const ROOM_PATCH_M = 0.25
const FREE_PATCH_M = 0.125
/** A hall's patches grow so that they stay this few. */
const MOST_ROOM_PATCHES = 6000
/**
 * Behind a backdrop that hangs so near, m, light falls by half within a hand's breadth, and a patch that sends from all of itself
 * what came to its rim carries it deeper in: so many patches go on the gap, none with a shorter edge than this, m, and on a wall so many.
 */
const NEAR_BACKDROP_M = 0.48
const PATCHES_A_GAP = 5
const LEAST_PATCH_M = 0.0625
const MOST_WALL_PATCHES = 5000
/** Cosine between a wall and a backdrop that hangs before it. */
const ALONG = 0.9

export const isRoom = ({ kind }: Surface): boolean => kind === 'wall' || kind === 'floor' || kind === 'ceiling'

export const normalOf = ({ halfU, halfV }: Rect): Vec3 => normalize(cross(halfU, halfV))

/** Edge length of the room's patches where nothing hangs close before them, m. */
export function roomPatchEdge({ rig }: BounceScene): number {
  const area = rig.surfaces.filter(isRoom).reduce((sum, { rect }) => sum + areaOf(rect), 0)
  return Math.max(ROOM_PATCH_M, Math.sqrt(area / MOST_ROOM_PATCHES))
}

const areaOf = ({ halfU, halfV }: Rect): number => 4 * length(halfU) * length(halfV)

export function patchEdge(surface: Surface, scene: BounceScene, roomPatchM: number): number {
  if (!isRoom(surface)) return FREE_PATCH_M
  const gap = gapBefore(surface, scene)
  if (gap === null) return roomPatchM
  const least = Math.max(LEAST_PATCH_M, Math.sqrt(areaOf(surface.rect) / MOST_WALL_PATCHES))
  return Math.min(roomPatchM, Math.max(least, gap / PATCHES_A_GAP))
}

/** Metres from a wall to a backdrop that hangs close before it; null: none does. */
export function gapBefore(surface: Surface, { rig }: Pick<BounceScene, 'rig'>): number | null {
  const out = normalOf(surface.rect)
  const gaps = rig.surfaces
    .filter(({ kind, rect }) => kind === 'backdrop' && Math.abs(dot(out, normalOf(rect))) > ALONG)
    .map(({ rect }) => Math.abs(dot(out, subtract(rect.centre, surface.rect.centre))))
  const least = Math.min(...gaps)
  return isRoom(surface) && least < NEAR_BACKDROP_M ? least : null
}
