import { formatFNumber } from '../camera'
import type { Probe } from '../meter'
import { exposureValue, type Receptor, ratioFromStops, stopsBetween } from '../photometry'
import type { RigSource } from '../rig'
import type { Vec3 } from '../space'
import { BANDS } from './bands'
import { aloneOf, type PlaceLight, sumOf } from './light-table'
import { absent, ISO_2720, reading } from './reading'
import { constantOf, fNumberOf, nearCheekOf, powerFactor, type Stage, towardsLens, towardsLight } from './stage'
import type { MeterScales, Reading } from './types'
import { dialStop, figure, signed } from './words'

const FORMULA = 'N² = H·S/C'

/** What a flash meter shows at the near cheek, all together and each source alone. */
export function meteringReadings(stage: Stage): readonly Reading[] {
  const { key } = stage
  if (!key) return [noLight('exposure.nearCheek.disc.light', 'near cheek')]
  return [...nearCheekReadings(stage, key), ...stage.table.sources.flatMap((source) => aloneReadings(stage, source))]
}

const noLight = (id: string, name: string): Reading =>
  absent({
    id,
    place: { name, at: null },
    formula: FORMULA,
    source: ISO_2720,
    sentence: 'no source is on: there is nothing to meter.',
  })

type Aim = 'light' | 'lens'

function nearCheekReadings(stage: Stage, key: RigSource): readonly Reading[] {
  const probes: Readonly<Record<Aim, Probe>> = { light: towardsLight(stage, key), lens: towardsLens(stage, key) }
  const of = (receptor: Receptor, aim: Aim) =>
    sumOf(stage.table.at(`nearCheek.${receptor}.${aim}`, probes[aim], receptor))
  const main = of('disc', 'light')
  return (['disc', 'dome'] as const).flatMap((receptor) =>
    (['light', 'lens'] as const).map((aim) => {
      const h = of(receptor, aim)
      const sentence =
        receptor === 'disc' && aim === 'light'
          ? `${stage.sitting.reExpose === 'powers' ? 'kept by equal exposure, ' : ''}at the near cheek, disc to the light. Set ${dialStop(fNumberOf(stage, h))}; ${lensDome(of('dome', 'lens'), main)}.`
          : `at the near cheek, ${receptor} to the ${aim}: ${against(h, main)}.`
      const id = `exposure.nearCheek.${receptor}.${aim}`
      return meterReading(stage, { id, name: 'near cheek', at: probes[aim].point, receptor }, h, sentence)
    }),
  )
}

const lensDome = (dome: number, main: number): string => {
  if (!(dome > 0)) return 'a dome to the lens gets no light'
  const stops = stopsBetween(main, dome)
  return Math.abs(stops) < 0.05 ? 'a dome to the lens agrees' : `a dome to the lens reads ${signed(stops)}`
}
const against = (h: number, main: number): string => {
  if (!(h > 0)) return 'no light from that side'
  const stops = stopsBetween(main, h)
  return Math.abs(stops) < 0.05
    ? 'the same as the disc to the light'
    : `${signed(stops)} stop against the disc to the light`
}

/** What is read, where and with what; sourceId: of the source that is read alone. */
export interface Metered {
  readonly id: string
  readonly name: string
  readonly at: Vec3
  readonly receptor: Receptor
  readonly sourceId?: string | null
}

/** A meter's reading of a luminous exposure at the document's powers, on every scale that a meter has. */
export function meterReading(
  stage: Stage,
  { id, name, at, receptor, sourceId = null }: Metered,
  h: number,
  sentence: string,
): Reading {
  const place = { name, at }
  if (!(h > 0))
    return absent({ id, place, formula: FORMULA, source: ISO_2720, sourceId, sentence: 'no light arrives here.' })
  const fNumber = fNumberOf(stage, h, receptor)
  const { iso } = stage.sitting.camera
  return reading({
    id,
    value: fNumber,
    unit: '',
    text: tenthsText(fNumber),
    band: absoluteBand(stage, sourceId ?? stage.key?.id ?? null),
    place,
    sentence,
    why: {
      formula: FORMULA,
      filled: `√(${figure(h * powerFactor(stage), 1)} lx·s · ${iso} / ${constantOf(stage, receptor)}) = f/${figure(fNumber, 2)}`,
      source: ISO_2720,
    },
    sourceId,
    also: scalesOf(stage, fNumber, h * powerFactor(stage)),
  })
}

export const scalesOf = ({ sitting }: Stage, fNumber: number, luxSeconds: number): MeterScales => ({
  thirds: dialStop(fNumber),
  ev: exposureValue(fNumber, sitting.camera.shutterS),
  luxSeconds,
})

/** 'f/8 + 0.0': the tenths always, so that the number keeps its width. */
export const tenthsText = (fNumber: number): string => {
  const text = formatFNumber(fNumber)
  return /^f\/[\d.]+$/.test(text) ? `${text} + 0.0` : text
}

export function absoluteBand({ sitting }: Stage, sourceId: string | null) {
  const source = sitting.sources.find(({ id }) => id === sourceId)
  return source?.calibration ? BANDS.exposureMeasured : uncalibratedBand({ sitting }, sourceId)
}

const uncalibratedBand = ({ sitting }: Pick<Stage, 'sitting'>, sourceId: string | null) => {
  const source = sitting.sources.find(({ id }) => id === sourceId)
  return source?.head.guideNumberM != null ? BANDS.exposurePublished : BANDS.exposure
}

/** Light of one source alone at its own near cheek, disc to it: its direct light and what of it the room sends back. */
export const aloneLight = (stage: Stage, source: RigSource): number => aloneOf(aloneTable(stage, source), source.id)
export const aloneTable = (stage: Stage, source: RigSource): readonly PlaceLight[] =>
  stage.table.at(
    source === stage.key ? 'nearCheek.disc.light' : `alone.${source.id}`,
    towardsLight(stage, source),
    'disc',
  )

/** As it is; and as it was worked out before a calibration. */
function aloneReadings(stage: Stage, source: RigSource): readonly Reading[] {
  const calibration = stage.sitting.sources.find(({ id }) => id === source.id)?.calibration
  const alone = aloneReading(stage, source)
  if (!calibration || typeof alone.value !== 'number') return [alone]
  const before = alone.value / Math.sqrt(ratioFromStops(calibration.stops))
  const { letter } = source
  const uncalibrated = reading({
    id: `source.${letter}.uncalibrated`,
    value: before,
    unit: '',
    text: tenthsText(before),
    band: uncalibratedBand(stage, source.id),
    place: alone.place,
    sentence: `was worked out for ${letter} alone before it was calibrated (${calibration.date}): ${signed(calibration.stops)} stop since.`,
    why: {
      formula: 'N · 2^(−stops/2)',
      filled: `${figure(alone.value, 2)} · 2^(${figure(-calibration.stops / 2, 2)})`,
      source: `one real reading, f/${figure(calibration.readFNumber, 1)}`,
    },
    sourceId: source.id,
  })
  return [alone, uncalibrated]
}

function aloneReading(stage: Stage, source: RigSource): Reading {
  const { point } = towardsLight(stage, source, nearCheekOf(stage, source))
  const h = aloneLight(stage, source)
  const sentence = `is what the meter shows for ${source.letter} alone, disc to it at its near cheek.`
  const metered: Metered = {
    ...{ id: `source.${source.letter}.alone`, name: 'near cheek', at: point, receptor: 'disc' },
    sourceId: source.id,
  }
  return meterReading(stage, metered, h, sentence)
}
