import { MODIFIER_KINDS } from '../../gear'
import {
  addSource,
  aimSource,
  moveSource,
  type Sitting,
  setPower,
  setRoom,
  swapModifier,
  thingById,
} from '../../sitting'
import type { Vec3 } from '../../space'

/** Centre of a flash in the camera's shoe over the lens axis, metres: common practice, no source. */
const SHOE_M = 0.14

const onCamera = (kind: string) => MODIFIER_KINDS.find(({ id }) => id === kind)?.onCamera
const isRemote = (kind: string) => MODIFIER_KINDS.find(({ id }) => id === kind)?.remote !== undefined

/** Another modifier on the head, where one of its kind is. */
export const swapKind = (sitting: Sitting, id: string, kind: string): Sitting =>
  placedByKind(sitting, swapModifier(sitting, id, kind), id)

/**
 * A source that has another modifier than before, where one of its kind is. One that sits on the camera goes there, looking where the
 * camera looks; sun and sky have no dial, and are outdoors.
 */
export function placedByKind(before: Sitting, swapped: Sitting, id: string): Sitting {
  const kindIn = (sitting: Sitting) => thingById(sitting, 'sources', id).modifier.kind
  const kind = kindIn(swapped)
  if (isRemote(kind)) return setRoom(setPower(swapped, id, 0), { outdoors: true })
  const place = onCamera(kind)
  if (!place) return onCamera(kindIn(before)) ? onStand(swapped, id) : swapped
  const up = place === 'in the shoe' ? SHOE_M : 0
  const lifted = ([x, y, z]: Vec3): Vec3 => [x, y + up, z]
  return aimSource(moveSource(swapped, id, lifted(swapped.camera.positionM)), id, lifted(swapped.camera.aimM))
}

/** Off the camera and where a source of its role usually stands: no softbox is left hanging before the lens. */
function onStand(sitting: Sitting, id: string): Sitting {
  const { role } = thingById(sitting, 'sources', id)
  const usual = addSource(sitting, { role }).sitting.sources.at(-1)!
  return aimSource(moveSource(sitting, id, usual.centreM), id, usual.aimM)
}
