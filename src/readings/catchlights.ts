import { CORNEA_CENTRE_MM, CORNEA_EDGE_MM, CORNEA_RADIUS_MM } from '../figure'
import { mirrorPoint } from '../photometry'
import type { RigSource } from '../rig'
import { addScaled, cross, degrees, distance, dot, normalize, subtract, type Vec3 } from '../space'
import { catchlightBand, clockBand } from './bands'
import { litPoints } from './lit-points'
import { absent, GEOMETRY, reading } from './reading'
import type { Stage } from './stage'
import type { Reading } from './types'
import { figure, side } from './words'

const MM = 1000
export const EYES = ['Left', 'Right'] as const
export type Eye = (typeof EYES)[number]

/** Where the centre of a source's face is mirrored in an eye, as the lens sees it. */
export interface Catchlight {
  /** On the cornea, world. */
  readonly at: Vec3
  /** From the middle of the iris, metres square to the line of sight: to camera right, and up. */
  readonly right: number
  readonly up: number
  /** Of the source's face, 0 to 1: what the lens sees mirrored. */
  readonly share: number
  /** What hides the rest. */
  readonly hiddenBy: 'the lid' | 'the face' | 'the edge of the cornea' | 'something in the way' | null
}

/** Clock and height of every source's catchlight in both eyes of the first sitter. */
export function catchlightReadings(stage: Stage, source: RigSource): readonly Reading[] {
  return EYES.flatMap((eye) => {
    const found = catchlightIn(stage, source, eye)
    return typeof found === 'string' ? [nothing(stage, source, eye, found)] : pair(stage, source, eye, found)
  })
}

/** One source in one eye (the sitter's own left or right), or why there is none. */
export function catchlightIn(stage: Stage, source: RigSource, eye: Eye): Catchlight | string {
  const { frame, letter } = source
  const lens = stage.scene.rig.view.frame
  const { cornea, pupil, sight } = eyeOf(stage, eye)
  const mirrored = (lamp: Vec3) =>
    onCornea(mirrorPoint(cornea, CORNEA_RADIUS_MM / MM, lens.origin, lamp), cornea, sight)
  const at = mirrored(frame.origin)
  if (!at) return `no part of that cornea mirrors ${letter} to the lens.`
  if (dot(frame.z, subtract(at, frame.origin)) <= 0) return `${letter} has its back to the eye.`
  const ways = litPoints(source).map((lamp) => {
    const point = mirrored(lamp)
    return point ? inTheWay(stage, source, eye, point, lamp) : 'the edge of the cornea'
  })
  const hidden = ways.filter((way) => way !== null)
  const toLens = normalize(subtract(lens.origin, pupil))
  const out = subtract(at, pupil)
  // The view's y is up, its z looks into the scene: x × z is then camera right, square to the line of sight.
  const right = normalize(cross(lens.y, toLens))
  return {
    at,
    right: dot(out, right),
    up: dot(out, cross(toLens, right)),
    share: 1 - hidden.length / ways.length,
    hiddenBy: mostOf(hidden),
  }
}

function eyeOf({ figure: { posed } }: Stage, eye: Eye) {
  const { position: pupil, normal: sight } = posed.landmarks[`pupil${eye}`]
  return { pupil, sight, cornea: addScaled(posed.landmarks[`eyeCentre${eye}`].position, sight, CORNEA_CENTRE_MM / MM) }
}

/** The point if it lies on the clear part of the cornea; the white beyond mirrors too, but dull and small. */
function onCornea(point: Vec3 | null, cornea: Vec3, sight: Vec3): Vec3 | null {
  if (!point) return null
  const out = subtract(point, cornea)
  const ahead = dot(out, sight)
  return ahead > 0 && distance(out, addScaled([0, 0, 0], sight, ahead)) * MM <= CORNEA_EDGE_MM ? point : null
}

type Way = NonNullable<Catchlight['hiddenBy']>

/** As near to the catchlight as a lid is, and as a brow, a nose or a cheek, metres. */
const LID_M = 0.012

/** What hides a mirrored point from the lens, or the lamp from it; null: nothing. */
function inTheWay(stage: Stage, source: RigSource, eye: Eye, point: Vec3, lamp: Vec3): Way | null {
  const { caster, bodies, rig } = stage.scene
  const lens = rig.view.frame.origin
  const ball = bodies.meanings.findIndex(
    (one) => one.kind === 'figure' && one.figure === stage.figure && one.part.name === `eye${eye}`,
  )
  // From the lens, which sees into the room from behind a wall.
  const seen = caster.nearest(lens, normalize(subtract(point, lens)), new Set([ball]))
  const short = distance(lens, point)
  if (seen && seen.distance < short - 1e-4) return named(stage, seen.bodyIndex, short - seen.distance)
  const own = new Set([ball, ...(bodies.gearOf.get(source.id) ?? [])])
  if (caster.visible(point, lamp, own)) return null
  const met = caster.nearest(point, normalize(subtract(lamp, point)), own)
  return met ? named(stage, met.bodyIndex, met.distance) : 'something in the way'
}

function named({ scene: { bodies }, figure: sitter }: Stage, body: number, away: number): Way {
  const met = bodies.meanings[body]
  if (met.kind !== 'figure' || met.figure !== sitter) return 'something in the way'
  return away < LID_M ? 'the lid' : 'the face'
}

function mostOf(ways: readonly Way[]): Way | null {
  const count = (way: Way) => ways.filter((other) => other === way).length
  return ways.reduce<Way | null>((most, way) => (most && count(most) >= count(way) ? most : way), null)
}

/** Minutes on the dial, to five: 0 is twelve o'clock, 720 all round. */
const dialMinutes = ({ right, up }: Catchlight): number =>
  (Math.round((degrees(Math.atan2(right, up)) * 2 + 720) / 5) * 5) % 720

/** '1:20', '12:00': where the hour hand of a clock before the iris points to the catchlight, as the lens sees it. */
export function clockOf(catchlight: Catchlight): string {
  const minutes = dialMinutes(catchlight)
  return `${Math.floor(minutes / 60) || 12}:${String(minutes % 60).padStart(2, '0')}`
}

/** The sitter's own left eye is at camera right while they face the lens. */
export function eyeName({ figure: { posed }, scene }: Stage, eye: Eye): string {
  const { eyeCentreLeft, eyeCentreRight } = posed.landmarks
  const left = -dot(scene.rig.view.frame.x, subtract(eyeCentreLeft.position, eyeCentreRight.position))
  return `eye at ${side(eye === 'Left' ? left : -left)}`
}

const FORMULA = 'the normal of the cornea halves the angle between lens and source'
const idOf = ({ letter }: RigSource, eye: Eye, what: string) =>
  `source.${letter}.catchlight.${eye.toLowerCase()}.${what}`

function nothing(stage: Stage, source: RigSource, eye: Eye, sentence: string): Reading {
  const place = { name: eyeName(stage, eye), at: stage.figure.posed.landmarks[`pupil${eye}`].position }
  const id = idOf(source, eye, 'clock')
  return absent({ id, place, formula: FORMULA, source: GEOMETRY, sourceId: source.id, sentence })
}

function pair(stage: Stage, source: RigSource, eye: Eye, found: Catchlight): readonly Reading[] {
  const { letter, id: sourceId } = source
  const where = eyeName(stage, eye)
  if (found.share < LEAST_SHARE)
    return [nothing(stage, source, eye, `${found.hiddenBy} hides ${letter} from the ${where}.`)]
  const clock = clockOf(found)
  const [up, right] = [found.up * MM, found.right * MM]
  const place = { name: where, at: found.at }
  const cut =
    found.share > 1 - LEAST_SHARE ? 'all of it shows' : `${found.hiddenBy} cuts off ${percent(1 - found.share)}`
  const aside = Math.abs(right) < 0.05 ? 'on its upright' : `${figure(Math.abs(right), 1)} mm to ${side(right)}`
  const why = {
    formula: FORMULA,
    filled: `ball of ${CORNEA_RADIUS_MM} mm: ${figure(right, 2)} mm right, ${figure(up, 2)} mm up`,
    source: GEOMETRY,
  }
  return [
    reading({
      id: idOf(source, eye, 'clock'),
      value: clock,
      unit: '',
      text: clock,
      band: clockBand(Math.hypot(up, right)),
      place,
      sentence: `o’clock is ${letter}'s catchlight in the ${where}: ${cut}.`,
      why,
      sourceId,
    }),
    reading({
      id: idOf(source, eye, 'height'),
      value: up,
      unit: 'mm',
      text: figure(up, 1),
      band: catchlightBand,
      place,
      sentence: `${up < 0 ? 'under' : 'over'} the middle of the iris lies ${letter}'s catchlight in the ${where}, ${aside}.`,
      why,
      sourceId,
    }),
  ]
}

/** A thirtieth of the face is a spark that nobody sees; as much missing nobody misses. */
const LEAST_SHARE = 1 / 30
const percent = (share: number): string => `${figure(share * 100)} %`
