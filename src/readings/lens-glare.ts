import { type LensPair, onLens, outlineAt, type SpectacleLens } from '../figure'
import { mirrorPoint, outlineOf } from '../photometry'
import type { RigSource } from '../rig'
import {
  addScaled,
  directionToLocal,
  directionToWorld,
  distance,
  dot,
  type Frame,
  normalize,
  pointToLocal,
  pointToWorld,
  rotateAbout,
  subtract,
  type Vec3,
} from '../space'

/**
 * What a lens of a pair of glasses mirrors to the viewer, by mirror geometry alone. Each place of the lens sends the viewer's
 * look on in one direction; all places together look into a zone of the room, and a lit face within it glares. World metres.
 */

/** A lit face: its frame and its convex outline in the plane z = 0 of it, counter-clockwise. */
export interface Face {
  readonly frame: Frame
  readonly outline: readonly (readonly [number, number])[]
}

export function faceOf({ frame, litFace: { shape, widthM, heightM } }: RigSource): Face {
  const outline = outlineOf(shape === 'disc' ? { shape, radiusM: widthM / 2 } : { shape, widthM, heightM })
  const flat = outline.map(([x, y]) => [x, y] as const)
  return { frame, outline: areaOf(flat) > 0 ? flat : flat.reverse() }
}

type Flat = readonly [number, number]
const turn = (a: Flat, b: Flat): number => a[0] * b[1] - a[1] * b[0]
/** Positive counter-clockwise. */
const areaOf = (outline: readonly Flat[]): number =>
  outline.reduce((sum, a, i) => sum + turn(a, outline[(i + 1) % outline.length]), 0) / 2

/** A look that left the lens. */
interface Look {
  readonly from: Vec3
  readonly way: Vec3
}

/** Where the look goes that meets the lens above x, y of its plane; null: the surface there is turned away from the viewer. */
function lookFrom(lens: SpectacleLens, viewer: Vec3, x: number, y: number): Look | null {
  const { point, normal } = onLens(lens, x, y)
  const in_ = normalize(subtract(point, viewer))
  const cosine = dot(in_, normal)
  return cosine < 0 ? { from: point, way: addScaled(in_, normal, -2 * cosine) } : null
}

const ROUND = 64

/** Looks from round the outline: the border of the zone. Empty where the lens shows the viewer its back. */
const border = (lens: SpectacleLens, viewer: Vec3): readonly Look[] =>
  Array.from({ length: ROUND }, (_, i) => lookFrom(lens, viewer, ...outlineAt(lens, (2 * Math.PI * i) / ROUND))).filter(
    (look) => look !== null,
  )

/** A point of the face's plane as x/w, y/w; w ≤ 0: the look goes away from the plane. */
type Spot = readonly [number, number, number]

function spotOf(frame: Frame, { from, way }: Look): Spot {
  const [p, d] = [pointToLocal(frame, from), directionToLocal(frame, way)]
  return [p[2] * d[0] - p[0] * d[2], p[2] * d[1] - p[1] * d[2], -d[2]]
}

const BEHIND = 1e-9

/** The part of the face that the lens mirrors, in the face's plane; empty: none. (Sutherland and Hodgman's clipping, 1974.) */
export function mirroredPart(lens: SpectacleLens, viewer: Vec3, { frame, outline }: Face): readonly Flat[] {
  if (dot(frame.z, subtract(lens.frame.origin, frame.origin)) <= 0) return []
  let spots: readonly Spot[] = border(lens, viewer).map((look) => spotOf(frame, look))
  spots = clipped(spots, ([, , w]) => w - BEHIND)
  for (let i = 0; i < outline.length && spots.length > 0; i++) {
    const [a, b] = [outline[i], outline[(i + 1) % outline.length]]
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
    spots = clipped(spots, ([x, y, w]) => dx * (y - a[1] * w) - dy * (x - a[0] * w))
  }
  return spots.map(([x, y, w]) => [x / w, y / w] as const)
}

function clipped(spots: readonly Spot[], level: (spot: Spot) => number): readonly Spot[] {
  return spots.flatMap((spot, i) => {
    const next = spots[(i + 1) % spots.length]
    const [here, there] = [level(spot), level(next)]
    const kept = here >= 0 ? [spot] : []
    if (here >= 0 === there >= 0) return kept
    const t = here / (here - there)
    return [...kept, [0, 1, 2].map((k) => spot[k] + t * (next[k] - spot[k])) as unknown as Spot]
  })
}

/** Clipping leaves lines without area where a zone that is hollow on one side passes by. */
const NOTHING = 1e-7

export function glares(lens: SpectacleLens, viewer: Vec3, face: Face): boolean {
  const part = mirroredPart(lens, viewer, face)
  return part.length > 2 && Math.abs(areaOf(part)) > NOTHING * Math.abs(areaOf(face.outline))
}

/** The point of the lens's whole sphere or plane at which the viewer sees a lamp mirrored; null: at none. */
export function mirrorOn({ frame, curvature }: SpectacleLens, viewer: Vec3, lamp: Vec3): Vec3 | null {
  if (curvature > 0) return mirrorPoint(addScaled(frame.origin, frame.z, -1 / curvature), 1 / curvature, viewer, lamp)
  const [up, lampUp] = [viewer, lamp].map((p) => dot(subtract(p, frame.origin), frame.z))
  if (up <= 0 || lampUp <= 0) return null
  const share = up / (up + lampUp)
  return addScaled(addScaled(viewer, subtract(lamp, viewer), share), frame.z, -(up + share * (lampUp - up)))
}

/** Share of the lens over which the face is mirrored, 0 to 1, on a grid. */
export function glareShare(lens: SpectacleLens, viewer: Vec3, face: Face): number {
  const steps = 24
  let [all, hit] = [0, 0]
  for (let ring = 0; ring < steps / 2; ring++)
    for (let i = 0; i < steps; i++) {
      // Rings that stand for equal areas.
      const r = Math.sqrt((ring + 0.5) / (steps / 2))
      const [x, y] = outlineAt(lens, (2 * Math.PI * (i + (ring % 2) / 2)) / steps)
      all++
      if (isMirroredAt(lens, viewer, face, r * x, r * y)) hit++
    }
  return hit / all
}

/** Whether the face is mirrored at a place of the lens's plane. */
export function isMirroredAt(
  lens: SpectacleLens,
  viewer: Vec3,
  { frame, outline }: Face,
  x: number,
  y: number,
): boolean {
  const look = lookFrom(lens, viewer, x, y)
  if (!look || pointToLocal(frame, look.from)[2] <= 0) return false
  const [sx, sy, w] = spotOf(frame, look)
  if (w <= BEHIND) return false
  return outline.every((a, i) => {
    const b = outline[(i + 1) % outline.length]
    return (b[0] - a[0]) * (sy / w - a[1]) - (b[1] - a[1]) * (sx / w - a[0]) >= 0
  })
}

/** Steps by which the nearest pair of places is refined. */
const REFINE = 14

/**
 * Radians by which the zone misses a face that it does not hold: the least angle, at any place of the lens's edge, between the
 * look from there and the way to any place of the face. null: the lens shows the viewer its back.
 */
export function missedBy(lens: SpectacleLens, viewer: Vec3, { frame, outline }: Face): number | null {
  const onFace = (place: number): Vec3 => {
    const wrapped = ((place % outline.length) + outline.length) % outline.length
    const k = Math.floor(wrapped) % outline.length
    const [a, b, t] = [outline[k], outline[(k + 1) % outline.length], wrapped - Math.floor(wrapped)]
    return pointToWorld(frame, [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), 0])
  }
  const angle = (round: number, place: number): number => {
    const look = lookFrom(lens, viewer, ...outlineAt(lens, round))
    if (!look) return Number.POSITIVE_INFINITY
    return Math.acos(Math.max(-1, Math.min(1, dot(look.way, normalize(subtract(onFace(place), look.from))))))
  }
  let best = { least: Number.POSITIVE_INFINITY, round: 0, place: 0 }
  const tried = (round: number, place: number) => {
    const least = angle(round, place)
    if (least < best.least) best = { least, round, place }
  }
  for (let i = 0; i < ROUND / 2; i++) for (let k = 0; k < outline.length; k++) tried((4 * Math.PI * i) / ROUND, k)
  let [turnBy, moveBy] = [(2 * Math.PI) / ROUND, 0.5]
  for (let step = 0; step < REFINE; step++) {
    const { round, place } = best
    for (const i of [-1, 0, 1]) for (const k of [-1, 0, 1]) tried(round + i * turnBy, place + k * moveBy)
    if (best.round === round && best.place === place) [turnBy, moveBy] = [turnBy / 2, moveBy / 2]
  }
  return Number.isFinite(best.least) ? best.least : null
}

/** The frame turned about an axis through a point, right-handed, radians. */
export function turnedFrame({ origin, x, y, z }: Frame, about: Vec3, axis: Vec3, angle: number): Frame {
  const turned = (v: Vec3) => rotateAbout(v, axis, angle)
  const away = subtract(origin, about)
  return { origin: addScaled(about, turned(away), 1), x: turned(x), y: turned(y), z: turned(z) }
}

/** Both lenses with the frame tilted by so many radians more, lower edge towards the cheeks, about its seat on the nose. */
export function tipped({ left, right, pivot, axis }: LensPair, angle: number): readonly SpectacleLens[] {
  return [left, right].map((lens) => ({ ...lens, frame: turnedFrame(lens.frame, pivot, axis, angle) }))
}

const STEP = Math.PI / 180
const FINE = STEP / 20

/** The first angle from 0 to most at which nothing glares any more, to a twentieth of a degree; null: at none. */
export function clearAt(most: number, isClear: (angle: number) => boolean): number | null {
  for (let angle = STEP; angle < most + STEP; angle += STEP) {
    const end = Math.min(angle, most)
    if (!isClear(end)) continue
    let [low, high] = [angle - STEP, end]
    while (high - low > FINE) {
      const middle = (low + high) / 2
      if (isClear(middle)) high = middle
      else low = middle
    }
    return high
  }
  return null
}

/** Places of the mirrored part, on the lens and on the face: its middle, and some near its edge. */
export function glareWays(lens: SpectacleLens, viewer: Vec3, face: Face): readonly { at: Vec3; lamp: Vec3 }[] {
  const part = mirroredPart(lens, viewer, face)
  const middle = [0, 1].map((k) => part.reduce((sum, p) => sum + p[k], 0) / part.length)
  const stride = Math.max(1, Math.floor(part.length / 8))
  const inner = part
    .filter((_, i) => i % stride === 0)
    .map(([x, y]): Flat => [0.2 * middle[0] + 0.8 * x, 0.2 * middle[1] + 0.8 * y])
  return [[middle[0], middle[1]] as const, ...inner].flatMap(([x, y]) => {
    const lamp = addScaled(face.frame.origin, directionToWorld(face.frame, [x, y, 0]), 1)
    const at = mirrorOn(lens, viewer, lamp)
    return at && distance(at, viewer) > 0 ? [{ at, lamp }] : []
  })
}
