import { modifierKind } from '../../gear'
import type { Point2, Target } from '../../paper'
import {
  aimSource,
  EditRefused,
  heightAtAngle,
  moveMeter,
  moveObject,
  movePanel,
  moveSource,
  type PlaceLandmarks,
  placeOf,
  type Sitting,
  setBackdrop,
  setCamera,
  setMeterPlace,
  setSitter,
  setSourcePlace,
  sourcePlace,
  thingById,
} from '../../sitting'
import { degrees, radians, type Vec3 } from '../../space'
import { heldAt, insideNow } from '../controls/meter-hold'

/** A drawing's plane in the world: the plan, or an elevation with its level axis. */
export type Plane =
  | { readonly kind: 'plan' }
  | { readonly kind: 'elevation'; readonly along: readonly [number, number] }

/** What keys held beside the hand ask of a drag. */
export interface DragHow {
  /** To 5 cm and 5°. */
  readonly snaps: boolean
  /** A source on the plan keeps its angle up, its height follows; else a stand slides and keeps its height. */
  readonly keepsAngle: boolean
}
const FREE: DragHow = { snaps: false, keepsAngle: false }

/** A hand on a stand does not work finer than this, metres; snapping, not than that. */
const GRAIN_M = 0.01
const SNAP_M = 0.05
const SNAP_DEG = 5
const toNext = (value: number, step: number): number => Math.round(value / step) * step
const grain = (value: number, snaps = false): number => toNext(value, snaps ? SNAP_M : GRAIN_M)

/** A place in the room after a point of it was dragged to a point of the drawing; what the drawing doesn't show is kept. */
export function dragged(from: Vec3, to: Point2, plane: Plane, snaps = false): Vec3 {
  if (plane.kind === 'plan') return [grain(to[0], snaps), from[1], grain(to[1], snaps)]
  const [ax, az] = plane.along
  const shift = to[0] - (from[0] * ax + from[2] * az)
  return [grain(from[0] + ax * shift), grain(-to[1], snaps), grain(from[2] + az * shift)]
}

/**
 * Where a source comes to stand when it is dragged over the plan: at its height or at its angle up, and snapped to 5° round and
 * 5 cm of tape.
 */
function slid(sitting: Sitting, id: string, to: Point2, how: DragHow, marks: PlaceLandmarks): Vec3 {
  const source = thingById(sitting, 'sources', id)
  const { camera } = sitting
  const { eyePoint } = marks
  const up = sourcePlace(source, camera, marks).elevationDeg
  const at = (x: number, z: number): Vec3 => {
    const [, y] = source.centreM
    return [x, how.keepsAngle ? heightAtAngle([x, y, z], up, marks) : y, z]
  }
  const free = at(grain(to[0]), grain(to[1]))
  if (!how.snaps) return free
  const place = placeOf(free, camera, marks)
  const off = radians(toNext(place.azimuthFromLensDeg, SNAP_DEG) - place.azimuthFromLensDeg)
  const [dx, dz] = [free[0] - eyePoint[0], free[2] - eyePoint[2]]
  // Azimuth grows from +z towards +x.
  const way = [dx * Math.cos(off) + dz * Math.sin(off), dz * Math.cos(off) - dx * Math.sin(off)] as const
  const level = Math.hypot(...way)
  if (!(level > 0)) return free
  const tapeM = toNext(place.tapeM, SNAP_M)
  let out = level
  const along = () => at(eyePoint[0] + (way[0] * out) / level, eyePoint[2] + (way[1] * out) / level)
  for (let i = 0; i < TAPE_STEPS; i++) out = Math.max(0, out + tapeM - placeOf(along(), camera, marks).tapeM)
  return along()
}
/** Each takes the tape most of the rest of the way, as it grows nearly as the way out does. */
const TAPE_STEPS = 12

/** Degrees round from the camera's side to a point of the plan, positive to camera right. */
const turnTowards = (from: readonly [number, number], to: Point2): number =>
  Math.round(degrees(Math.atan2(to[0] - from[0], to[1] - from[1])))

const within = (value: number, limit: number): number => Math.max(-limit, Math.min(limit, value))

/** The point that a target's handle moves; null where it turns instead. */
export function pointOf(sitting: Sitting, target: Target): Vec3 | null {
  switch (target.type) {
    case 'source':
      return thingById(sitting, 'sources', target.id).centreM
    case 'aim':
      return thingById(sitting, 'sources', target.id).aimM
    case 'panel':
      return thingById(sitting, 'panels', target.id).centreM
    case 'object':
      return thingById(sitting, 'objects', target.id).centreM
    case 'meter':
      return heldAt(sitting, target.id)
    case 'camera':
      return sitting.camera.positionM
    case 'backdrop':
      return [0, 0, -(sitting.backdrop?.distanceM ?? 0)]
    default:
      return null
  }
}

/** As far as a document reaches from the first sitter, metres: to each side, and behind for paper. */
const FARTHEST_M = { point: 30, backdrop: 15 }

function requireReach(target: Target, point: Vec3): void {
  const farthest = target.type === 'backdrop' ? FARTHEST_M.backdrop : FARTHEST_M.point
  if (point.every((value) => Math.abs(value) <= farthest)) return
  throw new EditRefused({
    rule: 'S15',
    path: target.type,
    expected: `a place within ${farthest} m of the first sitter`,
    got: point.map((value) => value.toFixed(1)).join(', '),
    advice: 'Move it less far, or fewer things together.',
  })
}

/** The sitting with a target put at a point of the world. Throws EditRefused beyond what a document reaches. */
export function putAt(sitting: Sitting, target: Target, point: Vec3): Sitting {
  requireReach(target, point)
  switch (target.type) {
    case 'source':
      return moveSource(sitting, target.id, point)
    case 'aim':
      return aimSource(sitting, target.id, point)
    case 'panel':
      return movePanel(sitting, target.id, point)
    case 'object':
      return moveObject(sitting, target.id, point)
    case 'meter':
      return moveMeter(sitting, target.id, point, insideNow)
    case 'camera':
      return setCamera(sitting, { positionM: point })
    case 'backdrop':
      return setBackdrop(sitting, { distanceM: Math.max(0.15, -point[2]) })
    default:
      return sitting
  }
}

/**
 * The sitting after a handle was dragged to a point of the drawing. The head turns after the hand, and so does the body; on the elevation the
 * sitter rises and sinks. Without
 * marks (the sitter is not loaded) a source neither snaps nor keeps its angle.
 */
export function drag(
  sitting: Sitting,
  target: Target,
  to: Point2,
  plane: Plane,
  how: DragHow = FREE,
  marks: PlaceLandmarks | null = null,
): Sitting {
  if (target.type === 'sitter' && plane.kind === 'elevation') return setEyes(sitting, target.id, -to[1], how.snaps)
  if (target.type === 'nose' || target.type === 'sitter') {
    const { id, xM, zM } = thingById(sitting, 'sitters', target.id)
    const turn = within(toNext(turnTowards([xM, zM], to), how.snaps ? SNAP_DEG : 1), 90)
    return setSitter(sitting, id, target.type === 'nose' ? { headTurnDeg: turn } : { bodyTurnDeg: turn })
  }
  if (target.type === 'source' && plane.kind === 'plan' && marks && !isRemote(sitting, target.id))
    return putAt(sitting, target, slid(sitting, target.id, to, how, marks))
  const from = pointOf(sitting, target)
  return from ? putAt(sitting, target, dragged(from, to, plane, how.snaps)) : sitting
}

/** Eyes at rest above the floor, metres: as the document lets them be. */
const EYES_M = [0.5, 2.2] as const

function setEyes(sitting: Sitting, id: string, heightM: number, snaps = false): Sitting {
  const eyeHeightM = Math.min(EYES_M[1], Math.max(EYES_M[0], grain(heightM, snaps)))
  return setSitter(sitting, id, { eyeHeightM })
}

/** The sun stands nowhere in the room: on the plan it keeps its mark's height. */
export const isRemote = (sitting: Sitting, id: string): boolean =>
  modifierKind(thingById(sitting, 'sources', id).modifier.kind).remote !== undefined

const ARROWS: Readonly<Record<string, Point2>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}

/**
 * The sitting after an arrow key on a handle: 1° round or 5 cm, ten times that with Shift; null for another key. On the
 * plan a source goes round the sitter with left and right, nearer with up, farther with down; the sun, which has no distance, goes
 * up and down the sky.
 */
export function nudge(
  sitting: Sitting,
  target: Target,
  key: string,
  shift: boolean,
  plane: Plane,
  marks: PlaceLandmarks | null,
): Sitting | null {
  const arrow = ARROWS[key]
  if (!arrow) return null
  const times = shift ? 10 : 1
  if (target.type === 'sitter' && plane.kind === 'elevation') {
    const { eyeHeightM } = thingById(sitting, 'sitters', target.id)
    return arrow[1] === 0 ? null : setEyes(sitting, target.id, eyeHeightM - arrow[1] * 0.05 * times)
  }
  if (target.type === 'nose' || target.type === 'sitter') return turnBy(sitting, target, (arrow[0] - arrow[1]) * times)
  if (target.type === 'source' && plane.kind === 'plan' && marks) {
    const source = thingById(sitting, 'sources', target.id)
    const place = sourcePlace(source, sitting.camera, marks)
    if (arrow[0] !== 0)
      return setSourcePlace(
        sitting,
        target.id,
        { azimuthFromLensDeg: wrapped(place.azimuthFromLensDeg + arrow[0] * times) },
        marks,
      )
    if (isRemote(sitting, target.id))
      return setSourcePlace(sitting, target.id, { elevationDeg: place.elevationDeg - arrow[1] * times }, marks)
    return setSourcePlace(sitting, target.id, { tapeM: place.tapeM + arrow[1] * 0.05 * times }, marks)
  }
  const from = pointOf(sitting, target)
  if (!from) return sitting
  const step = 0.05 * times
  const [ax, az] = plane.kind === 'plan' ? [1, 0] : plane.along
  const [dx, dy] = [arrow[0] * step, arrow[1] * step]
  const to: Vec3 =
    plane.kind === 'plan' ? [from[0] + dx, from[1], from[2] + dy] : [from[0] + ax * dx, from[1] - dy, from[2] + az * dx]
  return putAt(sitting, target, to)
}

const wrapped = (degree: number): number => (degree > 180 ? degree - 360 : degree < -180 ? degree + 360 : degree)

function turnBy(sitting: Sitting, target: { type: 'nose' | 'sitter'; id: string }, by: number): Sitting {
  const { headTurnDeg, bodyTurnDeg } = thingById(sitting, 'sitters', target.id)
  return setSitter(
    sitting,
    target.id,
    target.type === 'nose'
      ? { headTurnDeg: within(headTurnDeg + by, 90) }
      : { bodyTurnDeg: within(bodyTurnDeg + by, 90) },
  )
}

/** The sitting with a handle's thing back where the opened sitting has it; unchanged where that has no such thing. Throws EditRefused for a meter on what is gone. */
export function putBack(sitting: Sitting, opened: Sitting, target: Target, plane: Plane = { kind: 'plan' }): Sitting {
  if (target.type === 'nose' || target.type === 'sitter') {
    const first = opened.sitters.find(({ id }) => id === target.id)
    if (!first) return sitting
    if (target.type === 'sitter' && plane.kind === 'elevation')
      return setSitter(sitting, target.id, { eyeHeightM: first.eyeHeightM })
    const { headTurnDeg, bodyTurnDeg } = first
    return setSitter(sitting, target.id, target.type === 'nose' ? { headTurnDeg } : { bodyTurnDeg })
  }
  if (target.type === 'meter') {
    // Held on what it was held on, not in free air beside it.
    const first = opened.meterPlaces.find(({ id }) => id === target.id)
    return first ? setMeterPlace(sitting, target.id, { at: first.at, facing: first.facing }, insideNow) : sitting
  }
  const known =
    'id' in target ? [...opened.sources, ...opened.panels, ...opened.objects].some(({ id }) => id === target.id) : true
  const from = known && (target.type !== 'backdrop' || opened.backdrop) ? pointOf(opened, target) : null
  return from ? putAt(sitting, target, from) : sitting
}

/** Id under which a target's thing is selected. */
export const selectionOf = (target: Target): string => ('id' in target ? target.id : target.type)
