import type { Point2 } from '../../paper'
import {
  beyondStops,
  centreAt,
  heightAtAngle,
  type PlaceLandmarks,
  placeOf,
  type Sitting,
  type Stop,
  sourcePlace,
  thingById,
} from '../../sitting'
import { degrees, radians, type Vec3 } from '../../space'

/** What the hand asks of a drag. */
export interface DragHow {
  /** To 5 cm and 5°. */
  readonly snaps: boolean
  /** A source on the plan keeps its angle up, its height follows; else its stand slides and keeps its height. */
  readonly keepsAngle: boolean
  /** A source on the plan keeps its direction from the eyes: only its distance goes with the hand. Left out: both go. */
  readonly keepsRound?: boolean
  /** Half the height of the source's lit face when it stands upright, metres: it stops at ceiling and floor; 0: its centre does. */
  readonly halfFaceM: number
}
export const FREE: DragHow = { snaps: false, keepsAngle: true, halfFaceM: 0 }

/** A hand on a stand does not work finer than this, metres; snapping, not than that. */
const GRAIN_M = 0.01
const SNAP_M = 0.05
export const SNAP_DEG = 5
export const toNext = (value: number, step: number): number => Math.round(value / step) * step
export const grain = (value: number, snaps = false): number => toNext(value, snaps ? SNAP_M : GRAIN_M)

/**
 * Where a source comes to stand when it is dragged over the plan: at its angle up or at its height, snapped to 5° round and 5 cm of
 * tape. Ceiling, floor and face stop it on its way out or in; round the sitter it still goes with the hand.
 */
export function slid(sitting: Sitting, id: string, to: Point2, how: DragHow, marks: PlaceLandmarks): Vec3 {
  const { centreM } = thingById(sitting, 'sources', id)
  const { camera } = sitting
  const [ex, , ez] = marks.eyePoint
  const [dx, dz] = onWay(
    [grain(to[0]) - ex, grain(to[1]) - ez],
    how.keepsRound ? [centreM[0] - ex, centreM[2] - ez] : null,
  )
  const level = Math.hypot(dx, dz)
  if (level < GRAIN_M) return centreM
  if (!how.snaps)
    return stopped(sitting, id, wayOut(sitting, id, [dx / level, dz / level], how, marks), level, how, marks)
  const round = placeOf([ex + dx, centreM[1], ez + dz], camera, marks).azimuthFromLensDeg
  const off = how.keepsRound ? 0 : radians(toNext(round, SNAP_DEG) - round)
  // Azimuth grows from +z towards +x.
  const way = [dx * Math.cos(off) + dz * Math.sin(off), dz * Math.cos(off) - dx * Math.sin(off)] as const
  const along = wayOut(sitting, id, [way[0] / level, way[1] / level], how, marks)
  const tapeM = toNext(placeOf(along(level), camera, marks).tapeM, SNAP_M)
  return stopped(sitting, id, along, levelAt(tapeM, along, level, sitting, marks), how, marks)
}

/** So far aside a hand strays that goes along a tape. */
const STEADY_DEG = 3

/** Whether a hand that took a source at a point of the plan clearly goes round the eyes, and no longer along the tape alone. */
export function goesRound(from: Point2, to: Point2, { eyePoint: [ex, , ez] }: PlaceLandmarks): boolean {
  const [a, b] = [from, to].map(([x, z]) => degrees(Math.atan2(x - ex, z - ez))) as [number, number]
  const turn = Math.abs(b - a)
  return Math.min(turn, 360 - turn) > STEADY_DEG
}

/** What of a way from the eyes lies along another one, metres; null, or one of no length: all of it. Behind the eyes it is at its end. */
function onWay([dx, dz]: Point2, way: Point2 | null): Point2 {
  const far = way ? Math.hypot(...way) : 0
  if (!way || far < GRAIN_M) return [dx, dz]
  const [wx, wz] = [way[0] / far, way[1] / far]
  const along = Math.max(GRAIN_M, dx * wx + dz * wz)
  return [along * wx, along * wz]
}

/** Where a source comes to stand when it goes nearer or farther to so much tape, metres, by the rule of a drag over the plan. */
export function tapedTo(sitting: Sitting, id: string, tapeM: number, how: DragHow, marks: PlaceLandmarks): Vec3 {
  const { centreM } = thingById(sitting, 'sources', id)
  const [dx, dz] = [centreM[0] - marks.eyePoint[0], centreM[2] - marks.eyePoint[2]]
  const level = Math.hypot(dx, dz)
  if (level < GRAIN_M) return centreM
  const along = wayOut(sitting, id, [dx / level, dz / level], how, marks)
  return stopped(sitting, id, along, levelAt(tapeM, along, level, sitting, marks), how, marks)
}

/**
 * Where a source comes to stand when it is dragged on the elevation to a point: there, snapped to 5° up and 5 cm of tape; under
 * the ceiling, over the floor, before the face.
 */
export function lifted(sitting: Sitting, id: string, to: Vec3, how: DragHow, marks: PlaceLandmarks): Vec3 {
  const { camera } = sitting
  const place = placeOf(to, camera, marks)
  const snapped = how.snaps
    ? centreAt(
        {
          ...place,
          elevationDeg: toNext(place.elevationDeg, SNAP_DEG),
          tapeM: Math.max(3 * SNAP_M, toNext(place.tapeM, SNAP_M)),
        },
        camera,
        marks,
      )
    : to
  const fits = standsFree(sitting, id, how, marks)
  const [x, y, z] = snapped
  const [, eyes] = marks.eyePoint
  const between = fits(snapped, HEIGHTS)
    ? snapped
    : lastGood(
        eyes,
        y,
        (height) => [x, height, z],
        (p) => fits(p, HEIGHTS),
      )
  if (fits(between, ['face'])) return between
  const out = placeOf(between, camera, marks)
  const farther = (tapeM: number) => centreAt({ ...out, tapeM }, camera, marks)
  return lastGood(out.tapeM + CLEAR_OUT_M, out.tapeM, farther, (p) => fits(p, ['face']))
}

const HEIGHTS = ['ceiling', 'floor'] as const

/** Files hold no tails of floating point. */
const clean = (metres: number): number => Math.round(metres * 1e12) / 1e12

type Along = (levelM: number) => Vec3

/** Points over a level way out from under the eyes, at the angle or the height of the source. */
function wayOut(sitting: Sitting, id: string, [wx, wz]: Point2, how: DragHow, marks: PlaceLandmarks): Along {
  const source = thingById(sitting, 'sources', id)
  const up = sourcePlace(source, sitting.camera, marks).elevationDeg
  const [ex, , ez] = marks.eyePoint
  return (levelM) => {
    const at: Vec3 = [clean(ex + wx * levelM), source.centreM[1], clean(ez + wz * levelM)]
    return how.keepsAngle ? [at[0], heightAtAngle(at, up, marks), at[2]] : at
  }
}

/** Each takes the tape most of the rest of the way, as it grows nearly as the way out does. */
const TAPE_STEPS = 24

/** How far out a way has so much tape; where it never comes that near, the least way out. */
function levelAt(tapeM: number, along: Along, from: number, { camera }: Sitting, marks: PlaceLandmarks): number {
  let out = from
  for (let i = 0; i < TAPE_STEPS; i++) out = Math.max(GRAIN_M, out + tapeM - placeOf(along(out), camera, marks).tapeM)
  return out
}

/** The point so far out on a way, or as far as the stops let it go. */
function stopped(sitting: Sitting, id: string, along: Along, level: number, how: DragHow, marks: PlaceLandmarks): Vec3 {
  const fits = standsFree(sitting, id, how, marks)
  const wanted = along(level)
  if (!fits(wanted, ['face'])) return lastGood(level + CLEAR_OUT_M, level, along, (p) => fits(p, ['face']))
  // A stand that slides at its height is not lowered by the ceiling: the caution tells of it.
  if (!how.keepsAngle || fits(wanted, HEIGHTS)) return wanted
  return lastGood(0, level, along, (p) => fits(p, HEIGHTS))
}

/** So much farther out no lamp is in the face, metres: more than any shaft is long. */
const CLEAR_OUT_M = 2

/** Whether a point is free of these stops; through one of them already, it is free while it goes no farther. */
function standsFree(sitting: Sitting, id: string, { halfFaceM }: DragHow, marks: PlaceLandmarks) {
  const source = thingById(sitting, 'sources', id)
  const now = beyondStops(source, source.centreM, halfFaceM, sitting, marks)
  return (point: Vec3, stops: readonly Stop[]): boolean => {
    const beyond = beyondStops(source, point, halfFaceM, sitting, marks)
    return stops.every((stop) => beyond[stop] <= Math.max(0, now[stop]))
  }
}

/** Halvings of a way of a few metres: to a thousandth of a millimetre. */
const HALVINGS = 24

/** The last point that is good on the way from a number that is to one that is not. */
function lastGood(good: number, bad: number, at: (x: number) => Vec3, isGood: (point: Vec3) => boolean): Vec3 {
  let [from, to] = [good, bad]
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (from + to) / 2
    if (isGood(at(middle))) from = middle
    else to = middle
  }
  return at(from)
}
