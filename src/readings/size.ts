import { modifierKind } from '../gear'
import { apparentDeg, solidAngle } from '../meter'
import { inverseSquareStops, STANDARD_FLUX, stopsBetween } from '../photometry'
import { litFaceOutline, type RigSource } from '../rig'
import { tapeEnd } from '../sitting'
import { distance } from '../space'
import { BANDS, spillBand, tapeBand } from './bands'
import { absent, GEOMETRY, reading } from './reading'
import { farCheekOf, nearCheekOf, type Stage, towardsLight } from './stage'
import type { Reading } from './types'
import { figure, lengthPhrase, shortPhrase, signed, softness } from './words'

/** How large a source looks from the face, how its light falls off across it, and what it throws into the room. */
export const sizeReadings = (stage: Stage, source: RigSource): readonly Reading[] => [
  ...apparentReadings(stage, source),
  solidAngleReading(stage, source),
  roomFluxReading(stage, source),
  ...lossReading(stage, source),
  falloffReading(stage, source),
]

function apparentReadings(stage: Stage, source: RigSource): readonly Reading[] {
  const { letter, id: sourceId, litFace, frame } = source
  const from = tapeEnd(frame.origin, stage.sitting.camera, stage.marks)
  const [width, height] = (['width', 'height'] as const).map((along) => apparentDeg(source, along, from))
  const place = { name: 'near cheek', at: from }
  const away = distance(frame.origin, from)
  const size = (m: number, deg: number) =>
    `2·atan(${figure(m / 2, 2)} / ${figure(away, 2)} m) = ${figure(deg, 1)}°, less the tilt`
  return [
    reading({
      id: `source.${letter}.apparentWidth`,
      value: width,
      unit: '°',
      text: figure(width, width < 2 ? 1 : 0),
      band: tapeBand(width, away, '°'),
      place,
      sentence: `is how wide ${letter} appears from the near cheek: ${softness(width)} for an edge that runs along its height.`,
      why: {
        formula: '2·atan(½ width / distance), foreshortened',
        filled: size(litFace.widthM, width),
        source: GEOMETRY,
      },
      sourceId,
    }),
    reading({
      id: `source.${letter}.apparentHeight`,
      value: height,
      unit: '°',
      text: figure(height, height < 2 ? 1 : 0),
      band: tapeBand(height, away, '°'),
      place,
      sentence: `is how high ${letter} appears from the near cheek: ${softness(height)} for an edge that runs along its width.`,
      why: {
        formula: '2·atan(½ height / distance), foreshortened',
        filled: size(litFace.heightM, height),
        source: GEOMETRY,
      },
      sourceId,
    }),
  ]
}

function solidAngleReading(stage: Stage, source: RigSource): Reading {
  const { letter, id: sourceId, frame } = source
  const from = tapeEnd(frame.origin, stage.sitting.camera, stage.marks)
  const omega = solidAngle(litFaceOutline(source), frame.origin, from)
  return reading({
    id: `source.${letter}.solidAngle`,
    value: omega,
    unit: 'sr',
    text: figure(omega, omega < 0.1 ? 4 : 2),
    band: tapeBand(omega, distance(frame.origin, from), 'sr', 2),
    place: { name: 'near cheek', at: from },
    sentence: `of the near cheek's sky is filled by ${letter}.`,
    why: {
      formula: 'Ω of the outline, by triangles: tan(Ω/2) = |a·(b×c)| / (abc + (a·b)c + (a·c)b + (b·c)a)',
      filled: `${figure(omega, 4)} sr`,
      source: 'van Oosterom and Strackee 1983',
    },
    sourceId,
  })
}

/** X = Φ/(E·d²): two sources at equal exposure fill the shadows of one room as their X. */
function roomFluxReading(stage: Stage, source: RigSource): Reading {
  const { letter, id: sourceId, axialIntensity, emitters, remote } = source
  const probe = towardsLight(stage, source)
  const lux = stage.table.direct(source, probe, 'disc', false)
  const id = `source.${letter}.roomFlux`
  const place = { name: 'near cheek', at: probe.point }
  const formula = 'X = Φ / (E·d²)'
  if (remote)
    return absent({ id, place, formula, source: GEOMETRY, sourceId, sentence: `${letter} is no lamp in a room.` })
  if (!(lux > 0))
    return absent({ id, place, formula, source: GEOMETRY, sourceId, sentence: `${letter} sends the face no light.` })
  const flux = emitters.reduce((sum, { emission }) => sum + emission.flux, 0) * axialIntensity
  const d = distance(source.frame.origin, probe.point)
  const x = flux / (lux * d * d)
  return reading({
    id,
    value: x,
    unit: 'sr',
    text: figure(x, 1),
    band: spillBand(x, 'sr'),
    place,
    sentence: `of light goes into the room for each unit on the face: ${spill(x)}.`,
    roomM2: flux / lux,
    why: {
      formula,
      filled: `${figure(flux)} lm·s / (${figure(lux)} lx·s · ${figure(d, 2)}² m²)`,
      source: 'conservation of flux; what the own head catches is not taken off',
    },
    sourceId,
  })
}

/** Against the same head in its 65° dish, as far from the face as the lit face is. None for what is no flash head in a room. */
function lossReading(stage: Stage, source: RigSource): readonly Reading[] {
  const { letter, id: sourceId, axialIntensity, remote } = source
  const modifier = stage.sitting.sources.find(({ id }) => id === sourceId)!.modifier
  const { burnsOn } = modifierKind(modifier.kind)
  const probe = towardsLight(stage, source)
  const lux = stage.table.direct(source, probe, 'disc', false)
  if (remote || burnsOn || modifier.kind === 'dish' || !(lux > 0)) return []
  const d = distance(source.frame.origin, probe.point)
  const stops = stopsBetween(axialIntensity, lux * d * d)
  return [
    reading({
      id: `source.${letter}.loss`,
      value: stops,
      unit: 'stop',
      text: signed(stops),
      band: BANDS.ratio,
      place: { name: 'near cheek', at: probe.point },
      sentence: `against the head in its plain dish, both ${lengthPhrase(d, stage.units)} from the near cheek, counted from the middle of the lit face.`,
      why: {
        formula: 'log₂(E·d² / I of the 65° dish on its axis), nothing in the way',
        filled: `log₂(${figure(lux)} · ${figure(d, 2)}² / ${figure(axialIntensity)})`,
        source: 'emission of the modifier, computed',
      },
      sourceId,
    }),
  ]
}

/** Against the 65° dish: one stop more is twice the fill from the room. */
function spill(x: number): string {
  const stops = stopsBetween(STANDARD_FLUX, x)
  if (stops < 0.5) return 'no more than a plain dish'
  return `it fills the shadows ${figure(stops, 1)} stops more than a plain dish`
}

function falloffReading(stage: Stage, source: RigSource): Reading {
  const { letter, id: sourceId } = source
  const near = towardsLight(stage, source, nearCheekOf(stage, source))
  const far = towardsLight(stage, source, farCheekOf(stage, source))
  const [a, b] = [near, far].map((probe) => stage.table.direct(source, probe, 'disc', false))
  const id = `source.${letter}.falloff`
  const place = { name: 'far cheek', at: far.point }
  const formula = 'log₂(E far / E near), both facing the source, nothing in the way'
  if (!(a > 0 && b > 0))
    return absent({ id, place, formula, source: GEOMETRY, sourceId, sentence: `${letter} does not reach both cheeks.` })
  const stops = stopsBetween(a, b)
  const [da, db] = [near, far].map((probe) => distance(source.frame.origin, probe.point))
  return reading({
    id,
    value: stops,
    unit: 'stop',
    text: signed(stops),
    band: BANDS.falloff,
    place,
    sentence: `from near to far cheek, both facing ${letter}: ${shortPhrase(db - da, stage.units)} farther ${Math.abs(stops) < 0.3 ? 'matters little' : 'matters'} at ${lengthPhrase(da, stage.units)}.`,
    why: {
      formula,
      filled: `log₂(${figure(b, 1)} / ${figure(a, 1)}); from distance alone ${signed(-inverseSquareStops(da, db), 2)}`,
      source: 'inverse square law, with the size of the source',
    },
    sourceId,
  })
}
