import { elevationAngle } from '../camera'
import { add, addScaled, degrees, distance, dot, length, radians, subtract, type Vec3 } from '../space'
import { EditRefused, type Problem } from './problems'
import type { Camera } from './types'

/**
 * Where a source stands, in a photographer's terms, derived from the stored points. World metres, degrees.
 *
 * Azimuth: seen from above at the eye point, round from the direction to the camera (the lens axis turned about),
 * positive to camera right, −180 to 180. Elevation: of the centre of the lit face above the eye line, −90 to 90.
 * Tape: from the centre of the lit face to the near cheek, the nearer of the two; from behind the sitter
 * (|azimuth| > 90°) to the crown. A tape cannot end in the air between the eyes.
 */
export interface SourcePlace {
  readonly azimuthFromLensDeg: number
  readonly elevationDeg: number
  readonly tapeM: number
  readonly tapeTo: 'near cheek' | 'crown'
}

/** Of the first sitter as posed, world metres; `placeLandmarks` of rig gives them. */
export interface PlaceLandmarks {
  /** Midway between the eyeball centres. */
  readonly eyePoint: Vec3
  readonly cheekLeft: Vec3
  readonly cheekRight: Vec3
  readonly crown: Vec3
  /** What a source may be aimed at; left out where nothing asks. */
  readonly chin?: Vec3
  readonly noseTip?: Vec3
}

/** Of a point that stands for the centre of a lit face. */
export function placeOf(centre: Vec3, camera: Camera, marks: PlaceLandmarks): SourcePlace {
  const out = subtract(centre, marks.eyePoint)
  const azimuthFromLensDeg = azimuthFromLens(out, camera)
  const behind = isBehind(azimuthFromLensDeg)
  const ends = tapeEnds(behind, marks)
  return {
    azimuthFromLensDeg,
    elevationDeg: degrees(elevationAngle(out[1], Math.hypot(out[0], out[2]))),
    tapeM: Math.min(...ends.map((end) => distance(centre, end))),
    tapeTo: behind ? 'crown' : 'near cheek',
  }
}

/** Where the tape of this place ends: the near cheek or the crown. */
export function tapeEnd(centre: Vec3, camera: Camera, marks: PlaceLandmarks): Vec3 {
  const behind = isBehind(azimuthFromLens(subtract(centre, marks.eyePoint), camera))
  return tapeEnds(behind, marks).reduce((near, end) => (distance(centre, end) < distance(centre, near) ? end : near))
}

/**
 * The centre of the lit face for a place: the inverse of `placeOf`. Azimuth and elevation fix a ray from the eye point;
 * the tape fixes how far out on it. Both cheeks are tried, and the farther answer counts: there the nearer cheek is at
 * the tape's length. Throws EditRefused where the ray passes the cheek at more than that length.
 */
export function centreAt(
  place: Pick<SourcePlace, 'azimuthFromLensDeg' | 'elevationDeg' | 'tapeM'>,
  camera: Camera,
  marks: PlaceLandmarks,
): Vec3 {
  const direction = directionAt(place.azimuthFromLensDeg, place.elevationDeg, camera)
  const ends = tapeEnds(isBehind(place.azimuthFromLensDeg), marks)
  const distances = ends.map((end) => alongRay(marks.eyePoint, direction, end, place.tapeM))
  const reached = distances.filter((d) => d !== null)
  if (reached.length === 0) throw new EditRefused(tooShort(place.tapeM, marks.eyePoint, direction, ends))
  return addScaled(marks.eyePoint, direction, Math.max(...reached))
}

/** The point in that direction from another one, so many metres off. */
export const pointTowards = (
  from: Vec3,
  { azimuthFromLensDeg, elevationDeg }: Pick<SourcePlace, 'azimuthFromLensDeg' | 'elevationDeg'>,
  camera: Camera,
  distanceM: number,
): Vec3 => addScaled(from, directionAt(azimuthFromLensDeg, elevationDeg, camera), distanceM)

const isBehind = (azimuthDeg: number): boolean => Math.abs(azimuthDeg) > 90
const tapeEnds = (behind: boolean, marks: PlaceLandmarks): readonly Vec3[] =>
  behind ? [marks.crown] : [marks.cheekLeft, marks.cheekRight]

/** Level unit vectors: towards the camera along the lens axis, and to camera right. */
function lensAxes(camera: Camera): { readonly toCamera: Vec3; readonly right: Vec3 } {
  const [x, , z] = subtract(camera.positionM, camera.aimM)
  const size = Math.hypot(x, z)
  if (!(size > 0))
    throw new Error(`sitting.lensAxes: camera looks straight up or down, ${camera.positionM} to ${camera.aimM}`)
  const toCamera: Vec3 = [x / size, 0, z / size]
  return { toCamera, right: [toCamera[2], 0, -toCamera[0]] }
}

function azimuthFromLens(out: Vec3, camera: Camera): number {
  const { toCamera, right } = lensAxes(camera)
  return degrees(Math.atan2(dot(out, right), dot(out, toCamera)))
}

/** Unit vector out of the eye point. */
function directionAt(azimuthDeg: number, elevationDeg: number, camera: Camera): Vec3 {
  const { toCamera, right } = lensAxes(camera)
  const azimuth = radians(azimuthDeg)
  const elevation = radians(elevationDeg)
  const level = Math.cos(elevation)
  const flat = add(
    [toCamera[0] * Math.cos(azimuth), 0, toCamera[2] * Math.cos(azimuth)],
    [right[0] * Math.sin(azimuth), 0, right[2] * Math.sin(azimuth)],
  )
  return [flat[0] * level, Math.sin(elevation), flat[2] * level]
}

/** Farthest d ≥ 0 with |origin + d·direction − end| = tape; null: the ray never comes that near, or only behind the eyes. */
function alongRay(origin: Vec3, direction: Vec3, end: Vec3, tape: number): number | null {
  const out = subtract(origin, end)
  const half = dot(out, direction)
  const inside = half * half - dot(out, out) + tape * tape
  if (inside < 0) return null
  const d = -half + Math.sqrt(inside)
  return d >= 0 ? d : null
}

function tooShort(tapeM: number, eye: Vec3, direction: Vec3, ends: readonly Vec3[]): Problem {
  const least = Math.min(
    ...ends.map((end) => {
      const out = subtract(eye, end)
      return length(addScaled(out, direction, Math.max(0, -dot(out, direction))))
    }),
  )
  return {
    rule: 'S15',
    path: 'tapeM',
    expected: `at least ${least.toFixed(2)} m in this direction`,
    got: `${tapeM}`,
    advice: 'Tape a longer distance, or turn the source to another side.',
  }
}
