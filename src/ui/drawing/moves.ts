import { modifierKind } from '../../gear'
import type { Point2, Target } from '../../paper'
import {
  aimSource,
  EditRefused,
  moveMeter,
  moveObject,
  movePanel,
  moveSource,
  type PlaceLandmarks,
  type Sitting,
  setBackdrop,
  setCamera,
  setMeterPlace,
  setSitter,
  setSourcePlace,
  sourcePlace,
  thingById,
} from '../../sitting'
import { degrees, type Vec3 } from '../../space'
import { heldAt, insideNow } from '../controls/meter-hold'
import { type DragHow, FREE, grain, lifted, SNAP_DEG, slid, tapedTo, toNext } from './slide'

/** A drawing's plane in the world: the plan, or an elevation with its level axis. */
export type Plane =
  | { readonly kind: 'plan' }
  | { readonly kind: 'elevation'; readonly along: readonly [number, number] }

/** A place in the room after a point of it was dragged to a point of the drawing; what the drawing doesn't show is kept. */
export function dragged(from: Vec3, to: Point2, plane: Plane, snaps = false): Vec3 {
  if (plane.kind === 'plan') return [grain(to[0], snaps), from[1], grain(to[1], snaps)]
  const [ax, az] = plane.along
  const shift = to[0] - (from[0] * ax + from[2] * az)
  return [grain(from[0] + ax * shift), grain(-to[1], snaps), grain(from[2] + az * shift)]
}

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
 * sitter rises and sinks. A source on the plan keeps its angle up or its height; on the elevation it goes where the hand goes. Without
 * marks (the sitter is not loaded) it keeps its height, and nothing stops it.
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
  const from = pointOf(sitting, target)
  if (!from) return sitting
  if (target.type !== 'source' || !marks || isRemote(sitting, target.id))
    return putAt(sitting, target, dragged(from, to, plane, how.snaps))
  const stands =
    plane.kind === 'plan'
      ? slid(sitting, target.id, to, how, marks)
      : lifted(sitting, target.id, dragged(from, to, plane), how, marks)
  return putAt(sitting, target, stands)
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
  how: DragHow = FREE,
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
    const tapeM = place.tapeM + arrow[1] * 0.05 * times
    return putAt(sitting, target, tapedTo(sitting, target.id, tapeM, how, marks))
  }
  const from = pointOf(sitting, target)
  if (!from) return sitting
  const step = 0.05 * times
  const [ax, az] = plane.kind === 'plan' ? [1, 0] : plane.along
  const [dx, dy] = [arrow[0] * step, arrow[1] * step]
  const to: Vec3 =
    plane.kind === 'plan' ? [from[0] + dx, from[1], from[2] + dy] : [from[0] + ax * dx, from[1] - dy, from[2] + az * dx]
  const isStopped = target.type === 'source' && plane.kind === 'elevation' && marks && !isRemote(sitting, target.id)
  return putAt(sitting, target, isStopped ? lifted(sitting, target.id, to, how, marks) : to)
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
