import {
  ambientBelowFlash,
  circleOfConfusionMm,
  darkShare,
  depthOfField,
  fieldHeightAt,
  framingNamed,
  USUAL_SYNC_S,
} from '../camera'
import { exposureValue, stopsBetween } from '../photometry'
import type { Sitting } from '../sitting'
import { distance, dot, subtract, type Vec3 } from '../space'
import { BANDS, tapeBand } from './bands'
import { burnsOn } from './burns-on'
import { sumOf } from './light-table'
import { absent, GEOMETRY, PRACTICE, reading } from './reading'
import { powerFactor, type Stage, towardsLight } from './stage'
import type { Caution, Reading } from './types'
import { figure, inTape, lengthPhrase, lengthText, lengthUnit, shortPhrase, shutterText, signed } from './words'

/** What the camera makes of the sitter: framing, perspective, depth in focus, and of light that burns on beside the flash. */
export function cameraReadings(stage: Stage): readonly Reading[] {
  const focus = depthTo(stage, stage.marks.eyePoint)
  if (!(focus > 0.05)) return []
  return [
    framingReading(stage, focus),
    perspectiveReading(stage),
    depthReading(stage, focus),
    ...ambientReadings(stage),
  ]
}

/** Along the lens axis, metres. */
const depthTo = ({ scene }: Stage, point: Vec3): number => {
  const { origin, z } = scene.rig.view.frame
  return dot(subtract(point, origin), z)
}

function framingReading(stage: Stage, focus: number): Reading {
  const { focalLengthMm, sensorHeightMm } = stage.sitting.camera
  const field = fieldHeightAt(focus, focalLengthMm, sensorHeightMm)
  const name = framingNamed(field)
  return reading({
    id: 'camera.field',
    value: field,
    unit: lengthUnit(stage.units),
    text: lengthText(field, stage.units),
    band: inTape(tapeBand(field, focus, 'm'), stage.units),
    place: { name: 'plane of the eyes', at: stage.marks.eyePoint },
    sentence: `is how high the frame is at the eyes, ${lengthPhrase(focus, stage.units)} from the lens: ${name ?? 'between two framings'}.`,
    why: {
      formula: 's·u/f',
      filled: `${sensorHeightMm} mm · ${figure(1000 * focus)} / ${focalLengthMm}`,
      source: GEOMETRY,
    },
  })
}

function perspectiveReading(stage: Stage): Reading {
  const { noseTip, earLeft, earRight } = stage.figure.posed.landmarks
  const nose = depthTo(stage, noseTip.position)
  const ear = Math.max(depthTo(stage, earLeft.position), depthTo(stage, earRight.position))
  const percent = 100 * (ear / nose - 1)
  return reading({
    id: 'camera.perspective',
    value: percent,
    unit: '%',
    text: figure(percent),
    band: tapeBand(percent, nose, '%'),
    place: { name: 'nose', at: noseTip.position },
    sentence: `larger does the nose look than the farther ear from here${percent > 10 ? ': step back and take a longer lens' : ''}.`,
    why: { formula: 'u ear / u nose − 1', filled: `${figure(ear, 3)} / ${figure(nose, 3)} − 1`, source: GEOMETRY },
  })
}

/**
 * Limits of what counts as sharp, metres from the lens along its axis, focused at a distance longer than the focal length; far is
 * Infinity from the hyperfocal distance on. The f-number is what the camera is set to, which is not the document's where it gives way.
 */
export function sharpFrom(
  { focalLengthMm, sensorWidthMm, sensorHeightMm }: Sitting['camera'],
  fNumber: number,
  focusM: number,
): { readonly near: number; readonly far: number } {
  const circle = circleOfConfusionMm(sensorWidthMm, sensorHeightMm)
  const { near, far } = depthOfField(focalLengthMm, fNumber, circle, 1000 * focusM)
  return { near: near / 1000, far: far / 1000 }
}

function depthReading(stage: Stage, focus: number): Reading {
  const { units, exposure } = stage
  const { camera } = stage.sitting
  const { near, far } = sharpFrom(camera, exposure.fNumber, focus)
  const total = far - near
  const place = { name: 'eyes, in focus', at: stage.marks.eyePoint }
  const why = {
    formula: 's(H − f)/(H + s − 2f), s(H − f)/(H − s), c = diagonal/1500',
    filled: `s ${figure(focus, 2)} m, f ${camera.focalLengthMm} mm, f/${figure(exposure.fNumber, 1)}`,
    source: 'thin lens; the circle is common practice',
  }
  const whole = `from ${lengthPhrase(near, units)} ${Number.isFinite(far) ? `to ${lengthPhrase(far, units)} from the lens` : 'on'}`
  const sentence = `is sharp, ${whole}, focused on the eyes: ${outOfFocus(stage, near, far)}.`
  if (!Number.isFinite(total))
    return reading({ id: 'camera.depth', value: 'all', unit: '', text: 'All behind', place, sentence, why })
  return reading({
    id: 'camera.depth',
    value: total,
    unit: lengthUnit(units),
    text: lengthText(total, units),
    band: inTape(tapeBand(total, focus, 'm', 2), units),
    place,
    sentence,
    why,
  })
}

const MARKS = {
  noseTip: 'the nose',
  earLeft: 'an ear',
  earRight: 'an ear',
  shoulderLeft: 'a shoulder',
  shoulderRight: 'a shoulder',
} as const

function outOfFocus(stage: Stage, near: number, far: number): string {
  const { landmarks } = stage.figure.posed
  const out = (Object.keys(MARKS) as (keyof typeof MARKS)[]).filter((mark) => {
    const at = depthTo(stage, landmarks[mark].position)
    return at < near || at > far
  })
  const words = [...new Set(out.map((mark) => MARKS[mark]))]
  const backdrop = stage.sitting.backdrop
  const paper = backdrop ? backdropBlur(stage, backdrop.distanceM) : ''
  return `${words.length === 0 ? 'nose, ears and shoulders are in' : `${words.join(' and ')} ${words.length > 1 ? 'are' : 'is'} out`}${paper}`
}

/** How far a point of the backdrop is spread, as a length on it: the cone from the entrance pupil f/N, behind its point at the eyes. */
function backdropBlur(stage: Stage, behindM: number): string {
  const pupilM = stage.sitting.camera.focalLengthMm / stage.exposure.fNumber / 1000
  const focus = depthTo(stage, stage.marks.eyePoint)
  const paper = depthTo(stage, [0, stage.marks.eyePoint[1], -behindM])
  if (!(paper > focus)) return ''
  return `; a crease of the backdrop spreads over ${shortPhrase((pupilM * (paper - focus)) / focus, stage.units)}`
}

/** Reads what burns on beside the flash, at the near cheek; and how far an ordinary room's own light lies under the setting. */
function ambientReadings(stage: Stage): readonly Reading[] {
  const { key, sitting, table } = stage
  if (!key) return []
  const probe = towardsLight(stage, key)
  const lights = table.at('nearCheek.disc.light', probe, 'disc')
  const steady = lights.filter(({ source }) => burnsOn(stage, source.id))
  const flash = lights.filter(({ source }) => !burnsOn(stage, source.id))
  const place = { name: 'near cheek', at: probe.point }
  const room = roomReadings(stage, place)
  if (steady.length === 0 || flash.length === 0) return room
  const [s, f] = [sumOf(steady) * powerFactor(stage), sumOf(flash) * powerFactor(stage)]
  const formula = 'log₂(H steady / H flash), at the set shutter'
  const id = 'camera.blackFrame'
  if (!(s > 0 && f > 0))
    return [
      absent({
        id,
        place,
        formula,
        source: PRACTICE,
        sentence: 'flash or steady light does not reach the near cheek.',
      }),
      ...room,
    ]
  const stops = stopsBetween(f, s)
  const kelvin = steady.map(({ source }) => {
    const { letter, head } = sitting.sources.find(({ id: other }) => other === source.id)!
    return `${letter} at ${head.colourTemperatureK} K`
  })
  return [
    reading({
      id,
      value: stops,
      unit: 'stop',
      text: signed(stops),
      band: BANDS.ratio,
      place,
      sentence: `is what a frame without flash would show against the flash (black-frame test): ${kelvin.join(', ')} ${kelvin.length > 1 ? 'add' : 'adds'} ${signed(Math.log2(1 + s / f), 2)} stop and, where little flash falls, its own colour.`,
      why: { formula, filled: `log₂(${figure(s, 2)} / ${figure(f, 2)})`, source: PRACTICE },
    }),
    ...room,
  ]
}

/** EV at ISO 100 of a room lit to live in: trade habit, no source. */
const ROOM_EV100 = 6.5

function roomReadings({ sitting, exposure }: Stage, place: Reading['place']): readonly Reading[] {
  // There are no lamps of a room out of doors.
  if (sitting.room.outdoors) return []
  const { shutterS, iso } = sitting.camera
  const setting = exposureValue(exposure.fNumber, shutterS)
  const below = ambientBelowFlash(setting, ROOM_EV100 + Math.log2(iso / 100))
  const adds = Math.log2(1 + 2 ** -below)
  return [
    reading({
      id: 'camera.roomLight',
      value: -below,
      unit: 'stop',
      text: signed(-below),
      band: BANDS.roomLight,
      place,
      sentence: `is where an ordinary room's own lamps (EV 6 to 7) would lie to this setting, EV ${figure(setting, 1)}: they add ${figure(adds, 2)} stop${adds > 0.15 ? ' and their colour' : ''}.`,
      why: {
        formula: 'EV room + log₂(ISO/100) − log₂(N²/t)',
        filled: `${ROOM_EV100} + log₂(${iso}/100) − ${figure(setting, 1)}`,
        source: PRACTICE,
      },
    }),
  ]
}

/** A shutter too short for flash; a camera on the far side of a wall. */
export function cameraCautions(stage: Stage): readonly Caution[] {
  const { camera, room } = stage.sitting
  const at = camera.positionM
  const sync = camera.syncS ?? USUAL_SYNC_S
  const dark = darkShare(camera.shutterS, sync)
  const flashes = stage.table.sources.some(({ id }) => !burnsOn(stage, id))
  const outside =
    !room.outdoors && (Math.abs(at[0] - room.xM) > room.widthM / 2 || Math.abs(at[2] - room.zM) > room.depthM / 2)
  return [
    ...(dark > 1e-6 && flashes
      ? [
          {
            id: 'caution.camera.sync',
            at,
            sentence: `${shutterText(camera.shutterS)} is shorter than the sync time, ${shutterText(sync)}: up to ${figure(100 * dark)} % of the frame stays dark to the flash.`,
          },
        ]
      : []),
    ...(outside
      ? [
          {
            id: 'caution.camera.room',
            at,
            sentence: `The camera stands ${lengthPhrase(distance(at, stage.marks.eyePoint), stage.units)} off, beyond a wall: take a shorter lens, or a tighter framing.`,
          },
        ]
      : []),
  ]
}
