import { litFaceOutline, type RigSource } from '../rig'
import { placeOf, type SourcePlace, tapeEnd } from '../sitting'
import { addScaled, degrees, distance, dot, normalize, radians, subtract, type Vec3 } from '../space'
import { BANDS } from './bands'
import { absent, GEOMETRY, reading } from './reading'
import type { Stage } from './stage'
import type { Reading } from './types'
import {
  AIM_LANDMARKS,
  figure,
  landmarkWords,
  lengthBand,
  lengthPhrase,
  lengthText,
  lengthUnit,
  roundTo,
} from './words'

/** Where a source stands, as a tape and a protractor find it. */
export function placingReadings(stage: Stage, source: RigSource): readonly Reading[] {
  const place = placeOf(source.frame.origin, stage.sitting.camera, stage.marks)
  return [
    ...azimuthReadings(stage, source, place),
    elevationReading(stage, source, place),
    ...(source.remote ? withoutPlace(source) : standing(stage, source, place)),
  ]
}

const standing = (stage: Stage, source: RigSource, place: SourcePlace): readonly Reading[] => [
  tapeReading(stage, source, place),
  ...heightReadings(stage, source, place),
  aimReading(stage, source),
]

/** Of one that is no thing of the set. */
const withoutPlace = ({ letter, id: sourceId }: RigSource): readonly Reading[] =>
  ['tape', 'centreHeight', 'lowerEdge', 'aim'].map((what) =>
    absent({
      id: `source.${letter}.${what}`,
      place: { name: letter, at: null },
      formula: 'a place in the set',
      source: GEOMETRY,
      sourceId,
      sentence: `${letter} is so far off that only its direction counts.`,
    }),
  )

const wrapped = (deg: number): number => deg - 360 * Math.round(deg / 360)

/** Round from where the nose points, seen from above; positive to camera right for a face that looks at the lens. */
export function azimuthFromNoseDeg({ figure: { posed }, marks }: Stage, at: Vec3): number {
  const out = subtract(at, marks.eyePoint)
  const heading = ([x, , z]: Vec3) => degrees(Math.atan2(x, z))
  return wrapped(heading(out) - heading(posed.noseDirection))
}

function azimuthReadings(stage: Stage, source: RigSource, place: SourcePlace): readonly Reading[] {
  const { letter, id: sourceId } = source
  const at = source.frame.origin
  const fromNose = azimuthFromNoseDeg(stage, at)
  const fromLens = place.azimuthFromLensDeg
  const eye = { name: 'eye line', at: stage.marks.eyePoint }
  return [
    reading({
      id: `source.${letter}.azimuthFromNose`,
      value: fromNose,
      unit: '°',
      text: figure(Math.abs(fromNose)),
      band: BANDS.angle,
      place: eye,
      sentence: `from the nose, ${roundTo(fromNose)}: that makes the pattern.`,
      why: {
        formula: 'azimuth of the centre − azimuth of the nose, seen from above',
        filled: `${figure(fromNose, 1)}°`,
        source: GEOMETRY,
      },
      sourceId,
    }),
    reading({
      id: `source.${letter}.azimuthFromLens`,
      value: fromLens,
      unit: '°',
      text: figure(Math.abs(fromLens)),
      band: BANDS.angle,
      place: eye,
      sentence: `from the lens, ${roundTo(fromLens)}: that goes on the floor plan.`,
      why: {
        formula: 'azimuth of the centre at the eye point, round from the lens axis',
        filled: `${figure(fromLens, 1)}°`,
        source: GEOMETRY,
      },
      sourceId,
    }),
  ]
}

function elevationReading(stage: Stage, { letter, id: sourceId }: RigSource, place: SourcePlace): Reading {
  return reading({
    id: `source.${letter}.elevation`,
    value: place.elevationDeg,
    unit: '°',
    text: figure(Math.abs(place.elevationDeg)),
    band: BANDS.angle,
    place: { name: 'eye line', at: stage.marks.eyePoint },
    sentence: `is how far the centre of ${letter} stands ${place.elevationDeg < 0 ? 'below' : 'above'} the eye line.`,
    why: {
      formula: 'atan(rise / level distance) from the eye point to the centre of the lit face',
      filled: `${figure(place.elevationDeg, 1)}°`,
      source: GEOMETRY,
    },
    sourceId,
  })
}

function tapeReading(stage: Stage, source: RigSource, place: SourcePlace): Reading {
  const { letter, id: sourceId } = source
  const end = tapeEnd(source.frame.origin, stage.sitting.camera, stage.marks)
  const toNose = distance(source.frame.origin, stage.figure.posed.landmarks.noseTip.position)
  const why = place.tapeTo === 'crown' ? 'the crown, since it stands behind the sitter' : 'the near cheek'
  return reading({
    id: `source.${letter}.tape`,
    value: place.tapeM,
    unit: lengthUnit(stage.units),
    text: lengthText(place.tapeM, stage.units),
    band: lengthBand(stage.units),
    place: { name: place.tapeTo, at: end },
    sentence: `on the tape, from the centre of ${letter}'s lit face to ${why}; to the nose ${lengthPhrase(toNose, stage.units)}.`,
    why: { formula: '|centre − landmark|', filled: `${figure(place.tapeM, 3)} m`, source: GEOMETRY },
    sourceId,
  })
}

function heightReadings(stage: Stage, source: RigSource, place: SourcePlace): readonly Reading[] {
  const { letter, id: sourceId } = source
  const centre = source.frame.origin
  const outline = litFaceOutline(source)
  const lowest = outline.reduce((low, p) => (p[1] < low[1] ? p : low))
  const rise = centre[1] - stage.marks.eyePoint[1]
  const length = (m: number) => lengthPhrase(m, stage.units)
  return [
    reading({
      id: `source.${letter}.centreHeight`,
      value: centre[1],
      unit: lengthUnit(stage.units),
      text: lengthText(centre[1], stage.units),
      band: lengthBand(stage.units),
      place: { name: `centre of ${letter}`, at: centre },
      sentence: `is the height of ${letter}'s centre, eye line ${rise < 0 ? '−' : '+'} ${lengthText(Math.abs(rise), stage.units)}; its lower edge is at ${length(lowest[1])}.`,
      why: {
        formula: 'eye line + distance · sin(elevation)',
        filled: `${figure(stage.marks.eyePoint[1], 2)} + ${figure(rise / Math.sin(radians(place.elevationDeg)) || 0, 2)}·sin ${figure(place.elevationDeg)}° m`,
        source: GEOMETRY,
      },
      sourceId,
    }),
    reading({
      id: `source.${letter}.lowerEdge`,
      value: lowest[1],
      unit: lengthUnit(stage.units),
      text: lengthText(lowest[1], stage.units),
      band: lengthBand(stage.units),
      place: { name: `lower edge of ${letter}`, at: lowest },
      sentence: `over the floor is the lower edge of ${letter}.`,
      why: {
        formula: 'lowest point of the outline of the tilted face',
        filled: `${figure(lowest[1], 3)} m`,
        source: GEOMETRY,
      },
      sourceId,
    }),
  ]
}

/** ', 27° down'; empty: level. */
function slopeWords([, up]: Vec3): string {
  const tilt = degrees(Math.asin(up))
  return Math.abs(tilt) < 0.5 ? '' : `, ${figure(Math.abs(tilt))}° ${tilt < 0 ? 'down' : 'up'}`
}

function aimReading(stage: Stage, source: RigSource): Reading {
  const { letter, frame, id: sourceId } = source
  const { landmarks } = stage.figure.posed
  const off = (to: Vec3) => angleBetween(frame.z, subtract(to, frame.origin))
  const chin = off(landmarks.chin.position)
  const face = off(landmarks.noseTip.position)
  return reading({
    id: `source.${letter}.aim`,
    value: chin,
    unit: '°',
    text: figure(chin),
    band: BANDS.angle,
    place: { name: 'aim point', at: source.aim },
    sentence: `off the chin and ${figure(face)}° off the nose: ${letter} points at ${aimedAt(stage, source)}${slopeWords(frame.z)}.`,
    why: {
      formula: 'angle between the axis of the lit face and the line to the chin',
      filled: `${figure(chin, 1)}°`,
      source: GEOMETRY,
    },
    sourceId,
  })
}

const angleBetween = (a: Vec3, b: Vec3): number =>
  degrees(Math.acos(Math.min(1, Math.max(-1, dot(normalize(a), normalize(b))))))

/** An axis that goes by a named place as near as this points at it, metres: a hand aims no better. */
const GRAZES_M = 0.03

/** What the axis meets first, or goes by closely on its way there; on the sitter, the nearest named place. */
function aimedAt({ scene, figure: { posed } }: Stage, { id, frame }: RigSource): string {
  const hit = scene.caster.nearest(frame.origin, frame.z, scene.bodies.gearOf.get(id))
  const meaning = hit && scene.bodies.meanings[hit.bodyIndex]
  const marks = posed.landmarks as Readonly<Record<string, { readonly position: Vec3 }>>
  const nearestTo = (distanceOf: (place: Vec3) => number) =>
    AIM_LANDMARKS.map((name) => ({ name, off: distanceOf(marks[name].position) })).reduce((a, b) =>
      b.off < a.off ? b : a,
    )
  if (hit && meaning?.kind === 'figure') {
    const met = addScaled(frame.origin, frame.z, hit.distance)
    return landmarkWords(nearestTo((place) => distance(place, met)).name)
  }
  const passed = nearestTo((place) => {
    const along = dot(subtract(place, frame.origin), frame.z)
    const isOnWay = along > 0 && (!hit || along < hit.distance)
    return isOnWay ? distance(place, addScaled(frame.origin, frame.z, along)) : Number.POSITIVE_INFINITY
  })
  if (passed.off < GRAZES_M) return landmarkWords(passed.name)
  if (!meaning) return 'nothing in the room'
  if (meaning.kind === 'surface') return `the ${meaning.surface.kind}`
  return meaning.kind === 'ball' ? 'the ball' : 'another source'
}
