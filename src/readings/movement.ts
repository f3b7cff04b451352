import { fieldHeightAt } from '../camera'
import { feetFromMetres, pulseTimeRatio, stopsBetween, travelDuring } from '../photometry'
import type { RigSource } from '../rig'
import type { Head } from '../sitting'
import { distance } from '../space'
import { durationBand } from './bands'
import { burnsOn } from './burns-on'
import { sumOf } from './light-table'
import { PRACTICE, reading } from './reading'
import { type Stage, towardsLight, whereabouts } from './stage'
import type { Reading } from './types'
import { dialOf, figure, signed } from './words'

/** A quick turn of the head: common practice, no source. Hands go 2 to 3 m/s, a jump some 5. */
const USUAL_MPS = 1
/** Long side of a picture of 24 megapixels: common practice, no source. */
const LONG_SIDE_PX = 6000
/** t0.5 of studio heads, 1/300 to 1/2000 s, by its middle: trade habit, no source. */
const USUAL_T05_S = 1 / 800
/** Light that burns on so far under the flash leaves no ghost: +0.04 stop, trade habit. */
const UNSEEN_STOPS = -5

/** How far what moves is smeared: while each flash burns, and while the shutter is open to what burns on beside it. */
export function movementReadings(stage: Stage): readonly Reading[] {
  const flashes = stage.table.sources.filter(({ id }) => !burnsOn(stage, id))
  return [...flashes.map((source) => movementReading(stage, source)), ...ghostReading(stage)]
}

function movementReading(stage: Stage, source: RigSource): Reading {
  const { sitting, exposure } = stage
  const { head } = sitting.sources.find(({ id }) => id === source.id)!
  const dial = exposure.perSourceStops[source.id]!
  const { seconds, basis } = durationOf(head, dial)
  const speed = sitting.camera.moverMps ?? USUAL_MPS
  const mm = 1000 * travelDuring(speed, seconds)
  const said = {
    'not known': ', which its head does not say',
    'at full':
      dial < -DIAL_EASE
        ? ` at full power; what it is at ${dialOf(head, dial)} its head does not say`
        : ' at full power',
    'at the dial': ` at ${dialOf(head, dial)}`,
  }[basis]
  return reading({
    id: `source.${source.letter}.movement`,
    value: mm,
    unit: 'mm',
    text: figure(mm, mm < 10 ? 1 : 0),
    band: durationBand(mm, basis),
    place: { name: `flash of ${source.letter}`, at: whereabouts(stage, source) },
    sentence: `is how far what moves at ${speedPhrase(stage, speed)} goes while ${source.letter} burns, t0.1 1/${figure(1 / seconds)} s${said}: ${pixelWords(stage, mm)}.`,
    why: {
      formula:
        basis === 'at the dial'
          ? 'v · t0.1; t0.1 = t full · (t lowest / t full)^(dial / lowest)'
          : 'v · t0.1; t0.1 = ln 10/ln 2 · t0.5',
      filled: `${figure(speed, 1)} m/s · ${figure(1000 * seconds, 2)} ms`,
      source: {
        'not known': 'ISO 2827:1988 for the times; t0.5 1/800 s is common practice, no source',
        'at full': 'ISO 2827:1988 for the times',
        'at the dial': 'ISO 2827:1988 for the times at full and lowest; between them a power law is assumed',
      }[basis],
    },
    sourceId: source.id,
  })
}

const DIAL_EASE = 0.05

const speedPhrase = ({ units }: Stage, speed: number): string =>
  units === 'metres' ? `${figure(speed, 1)} m/s` : `${figure(feetFromMetres(speed), 1)} ft/s`

interface Duration {
  readonly seconds: number
  /** Where only full power is known, the seconds are those: how a head shortens or lengthens its flash is its maker's affair. */
  readonly basis: 'not known' | 'at full' | 'at the dial'
}

/**
 * While nine tenths of its height are past, t0.1, at a dial in stops under full: from t0.5 by an exponential fall where only that is
 * known. Between full and lowest, both as published, each stop changes it by the same factor.
 */
export function durationOf(head: Head, dial: number): Duration {
  const full = tenthOf(head.t01S, head.t05S)
  const lowest = tenthOf(head.t01LowestS, head.t05LowestS)
  if (full === null) return { seconds: USUAL_T05_S * HALF_TO_TENTH, basis: 'not known' }
  if (lowest === null || !(head.lowestStops < 0)) return { seconds: full, basis: 'at full' }
  const down = Math.min(1, Math.max(0, dial / head.lowestStops))
  return { seconds: full * (lowest / full) ** down, basis: 'at the dial' }
}

const HALF_TO_TENTH = pulseTimeRatio(0.1, 0.5)
const tenthOf = (t01S: number | undefined, t05S: number | undefined): number | null =>
  t01S ?? (t05S === undefined ? null : t05S * HALF_TO_TENTH)

/** A length across the lens axis at the eyes, in pixels of a picture. */
function pixelsOf({ sitting, marks }: Stage, mm: number): number {
  const { positionM, focalLengthMm, sensorWidthMm, sensorHeightMm } = sitting.camera
  const long = Math.max(sensorWidthMm, sensorHeightMm)
  return (mm / 1000 / fieldHeightAt(distance(positionM, marks.eyePoint), focalLengthMm, long)) * LONG_SIDE_PX
}

const pixelWords = (stage: Stage, mm: number): string => {
  const pixels = pixelsOf(stage, mm)
  return `${figure(pixels, pixels < 10 ? 1 : 0)} pixels of a picture ${LONG_SIDE_PX} long`
}

/** The second picture that light which burns on draws of what moves. */
function ghostReading(stage: Stage): readonly Reading[] {
  const { key, sitting, table } = stage
  if (!key) return []
  const probe = towardsLight(stage, key)
  const lights = table.at('nearCheek.disc.light', probe, 'disc')
  const [steady, flash] = [true, false].map((on) =>
    sumOf(lights.filter(({ source }) => burnsOn(stage, source.id) === on)),
  )
  if (!(steady! > 0 && flash! > 0)) return []
  const speed = sitting.camera.moverMps ?? USUAL_MPS
  const { shutterS } = sitting.camera
  const mm = 1000 * travelDuring(speed, shutterS)
  const stops = stopsBetween(flash!, steady!)
  const advice = stops > UNSEEN_STOPS ? 'it shows: a shorter shutter, or less of it' : 'it does not show'
  return [
    reading({
      id: 'camera.ghost',
      value: mm,
      unit: 'mm',
      text: figure(mm, mm < 10 ? 1 : 0),
      place: { name: 'near cheek', at: probe.point },
      sentence: `is how far what moves at ${speedPhrase(stage, speed)} smears in the light that burns on, ${signed(stops)} stops to the flash, ${pixelWords(stage, mm)}: ${advice}.`,
      why: { formula: 'v · t', filled: `${figure(speed, 1)} m/s · ${figure(1000 * shutterS, 2)} ms`, source: PRACTICE },
    }),
  ]
}
