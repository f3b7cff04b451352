import { projectToFrame } from '../camera'
import type { Sitting } from '../sitting'
import { radians, type Vec3 } from '../space'
import { loadCentre } from './lit-face'
import type { RigSource, View } from './types'

/** How a source is held up. World metres. */
export interface Standing {
  /** Middle of the lamp and what it carries. */
  readonly load: Vec3
  /** Of the stand, on the floor. */
  readonly foot: Vec3
  /** Over the foot, where the boom turns; null: no boom, the stand is under the lamp. */
  readonly pivot: Vec3 | null
}

/** Radius of the legs of a medium stand: common practice, no source. */
export const LEGS_RADIUS_M = 0.5
/** A boom comes from straight outwards; where its stand finds no room there, from the nearest way on either side. Degrees. */
const TURNS = [0, 30, -30, 60, -60, 90, -90, 120, -120]
/** Of a stand: places of it that may show. */
const UP = [0.05, 0.25, 0.5, 0.75, 1]

/**
 * Where its stand is. A document says how long a boom is, not whence it comes: its arm then lies over nobody, pointing away from the
 * sitter, the stand within the walls, before the backdrop and out of the picture, as far as there is such a way.
 */
export function standingOf(sitting: Sitting, view: View, source: RigSource): Standing {
  const load = loadCentre(source)
  const stand = sitting.sources.find(({ id }) => id === source.id)?.stand
  if (!stand?.boomM) return { load, foot: [load[0], 0, load[2]], pivot: null }
  const rise = Math.min(stand.boomM, Math.max(0, load[1] - stand.highestM))
  const reach = Math.sqrt(stand.boomM ** 2 - rise ** 2)
  const out = load[0] === 0 && load[2] === 0 ? 0 : Math.atan2(load[0], load[2])
  const ways = TURNS.map((turn): Vec3 => {
    const way = out + radians(turn)
    return [load[0] + reach * Math.sin(way), load[1] - rise, load[2] + reach * Math.cos(way)]
  })
  const pivot = ways.find((way) => hasRoom(sitting, way, load) && !isSeen(view, way)) ?? ways[0]!
  return { load, foot: [pivot[0], 0, pivot[2]], pivot }
}

/** Within the walls, legs and all, and on the lamp's side of the backdrop. */
function hasRoom({ room, backdrop }: Sitting, [x, , z]: Vec3, load: Vec3): boolean {
  const walls = Math.min(room.widthM / 2 - Math.abs(x - room.xM), room.depthM / 2 - Math.abs(z - room.zM))
  const isCrossed = backdrop !== null && load[2] > -backdrop.distanceM && z - LEGS_RADIUS_M < -backdrop.distanceM
  return (room.outdoors || walls >= LEGS_RADIUS_M) && !isCrossed
}

const isSeen = (view: View, [x, y, z]: Vec3): boolean =>
  UP.some((share) => {
    const at = projectToFrame([x, share * y, z], view.frame, view)
    return at !== null && Math.abs(at.x) <= 1 && Math.abs(at.y) <= 1
  })
