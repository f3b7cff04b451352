import type { Backdrop, Panel, Room, TestObject } from '../sitting'
import { addScaled, type Rect, radians, scale, type Vec3 } from '../space'
import { BLACK, grey, matt, PANEL_MATERIALS } from './materials'
import { boardFrame, boardRect } from './place'
import type { Ball, Surface } from './types'

/** Flat things and balls of the set as surfaces, world metres. Boards have no thickness and two sides. */

/** One board, or the two leaves of a folded one: the first has the panel's id. */
export function panelSurfaces(panel: Panel): readonly Surface[] {
  const front = PANEL_MATERIALS[panel.kind]
  const back = PANEL_MATERIALS[panel.back ?? panel.kind]
  const surface = (id: string, rect: Rect): Surface => ({ id, kind: 'panel', rect, front, back })
  if (!panel.foldDeg) return [surface(panel.id, boardRect(panel))]
  const [left, right] = leaves(panel, panel.foldDeg)
  return [surface(panel.id, left), { ...surface(`${panel.id}.leaf`, right), of: panel.id }]
}

/** Both turn by half the fold about the hinge, which stands in the panel's middle. */
function leaves(panel: Panel, foldDeg: number): readonly [Rect, Rect] {
  const { origin, x, y, z } = boardFrame(panel)
  const half = radians(foldDeg / 2)
  const halfV = scale(y, panel.heightM / 2)
  const leaf = (side: 1 | -1): Rect => {
    const across = addScaled(scale(x, Math.cos(half)), z, side * Math.sin(half))
    const halfU = scale(across, panel.widthM / 4)
    return { centre: addScaled(origin, halfU, side), halfU, halfV }
  }
  return [leaf(-1), leaf(1)]
}

/** Paper or cloth: both sides matt and alike. */
export const backdropSurface = ({ widthM, heightM, distanceM, reflectance }: Backdrop): Surface => ({
  id: 'backdrop',
  kind: 'backdrop',
  rect: boardRect({ centreM: [0, heightM / 2, -distanceM], widthM, heightM, turnDeg: 0, tiltDeg: 0 }),
  front: matt(reflectance),
  back: matt(reflectance),
})

/** Walls, floor and ceiling, fronts inwards, one-sided: nothing is outside. Outdoors the floor alone. */
export function roomSurfaces(room: Room): readonly Surface[] {
  const [w, h, d] = [room.widthM / 2, room.heightM / 2, room.depthM / 2]
  const side = (
    id: string,
    kind: Surface['kind'],
    out: Vec3,
    halfU: Vec3,
    halfV: Vec3,
    reflectance: number,
  ): Surface => ({
    id: `room.${id}`,
    kind,
    rect: { centre: [room.xM + out[0] * w, h + out[1] * h, room.zM + out[2] * d], halfU, halfV },
    front: matt(grey(reflectance)),
    back: null,
  })
  const up: Vec3 = [0, h, 0]
  const wall = room.wallReflectance
  const floor = side('floor', 'floor', [0, -1, 0], [0, 0, d], [w, 0, 0], room.floorReflectance)
  if (room.outdoors) return [floor]
  return [
    floor,
    side('ceiling', 'ceiling', [0, 1, 0], [w, 0, 0], [0, 0, d], room.ceilingReflectance),
    side('wall-camera-left', 'wall', [-1, 0, 0], [0, 0, -d], up, wall),
    side('wall-camera-right', 'wall', [1, 0, 0], [0, 0, d], up, wall),
    side('wall-behind-sitter', 'wall', [0, 0, -1], [w, 0, 0], up, wall),
    side('wall-behind-camera', 'wall', [0, 0, 1], [-w, 0, 0], up, wall),
  ]
}

export interface ObjectParts {
  readonly surfaces: readonly Surface[]
  readonly balls: readonly Ball[]
}

export function objectParts(object: TestObject): ObjectParts {
  const material = matt(grey(object.reflectance))
  if (object.kind === 'ball')
    return { surfaces: [], balls: [{ id: object.id, centre: object.centreM, radiusM: object.diameterM / 2, material }] }
  const card: Surface = { id: object.id, kind: 'card', rect: boardRect(object), front: material, back: material }
  if (object.kind === 'card') return { surfaces: [card], balls: [] }
  return { surfaces: [card, flagBefore(object)], balls: [] }
}

/**
 * The flag covers the upper half of the card: its straight lower edge runs across the middle, gapM in front. Under light
 * from above the shadow's edge then falls below the flag, where the camera sees it.
 */
function flagBefore(object: Extract<TestObject, { kind: 'flag-before-card' }>): Surface {
  const { y, z } = boardFrame(object)
  const centreM = addScaled(addScaled(object.centreM, y, object.heightM / 4), z, object.gapM)
  return {
    id: `${object.id}.flag`,
    kind: 'flag',
    rect: boardRect({ ...object, centreM, heightM: object.heightM / 2 }),
    front: BLACK,
    back: BLACK,
  }
}
