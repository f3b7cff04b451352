import { fieldHeightAt } from '../camera'
import { feetFromMetres, pulseTimeRatio, stopsBetween, travelDuring } from '../photometry'
import type { Head } from '../sitting'
import { distance } from '../space'
import { burnsOn } from './burns-on'
import { sumOf } from './light-table'
import { PRACTICE, reading } from './reading'
import { type Stage, towardsLight, whereabouts } from './stage'
import type { Reading } from './types'
import { figure, signed } from './words'

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
  const { table, sitting } = stage
  const flashes = table.sources.filter(({ id }) => !burnsOn(stage, id))
  return [
    ...flashes.map((source) => {
      const { head } = sitting.sources.find(({ id }) => id === source.id)!
      const { seconds, known } = durationOf(head)
      const speed = sitting.camera.moverMps ?? USUAL_MPS
      const mm = 1000 * travelDuring(speed, seconds)
      return reading({
        id: `source.${source.letter}.movement`,
        value: mm,
        unit: 'mm',
        text: figure(mm, mm < 10 ? 1 : 0),
        place: { name: `flash of ${source.letter}`, at: whereabouts(stage, source) },
        sentence: `is how far what moves at ${speedPhrase(stage, speed)} goes while ${source.letter} burns, t0.1 1/${figure(1 / seconds)} s${known ? ' at full power' : ', which its head does not say'}: ${pixelWords(stage, mm)}.`,
        why: {
          formula: 'v · t0.1; t0.1 = ln 10/ln 2 · t0.5',
          filled: `${figure(speed, 1)} m/s · ${figure(1000 * seconds, 2)} ms`,
          source: known
            ? 'ISO 2827:1988 for the times'
            : 'ISO 2827:1988 for the times; t0.5 1/800 s is common practice, no source',
        },
        sourceId: source.id,
      })
    }),
    ...ghostReading(stage),
  ]
}

const speedPhrase = ({ units }: Stage, speed: number): string =>
  units === 'metres' ? `${figure(speed, 1)} m/s` : `${figure(feetFromMetres(speed), 1)} ft/s`

/** While nine tenths of its height are past: t0.1, from t0.5 by an exponential fall where only that is known. */
export function durationOf({ t01S, t05S }: Head): { readonly seconds: number; readonly known: boolean } {
  if (t01S !== undefined) return { seconds: t01S, known: true }
  return { seconds: (t05S ?? USUAL_T05_S) * pulseTimeRatio(0.1, 0.5), known: t05S !== undefined }
}

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
