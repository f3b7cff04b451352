import { formatFNumber } from '../camera'
import type { Probe } from '../meter'
import { INCIDENT_C, type Receptor, stopsBetween } from '../photometry'
import { type MeterPoint, meterPoint, type RigSource } from '../rig'
import type { MeterPlace } from '../sitting'
import { addScaled, normalize, subtract } from '../space'
import { BANDS } from './bands'
import { aloneOf, type PlaceLight, sumOf } from './light-table'
import { absent, ISO_2720, reading } from './reading'
import {
  CASING_M,
  fNumberOf,
  HELD_OFF_M,
  nearCheekOf,
  powerFactor,
  type Stage,
  towardsLens,
  towardsLight,
} from './stage'
import type { Reading } from './types'
import { dialStop, figure, signed } from './words'

const FORMULA = 'N² = H·S/C'

/** What a flash meter shows at the near cheek, and at the places that the document names. */
export function meteringReadings(stage: Stage): readonly Reading[] {
  const { key } = stage
  if (!key) return [noLight('exposure.nearCheek.disc.light', 'near cheek')]
  return [
    ...nearCheekReadings(stage, key),
    ...stage.table.sources.map((source) => aloneReading(stage, source)),
    ...stage.sitting.meterPlaces.map((place) => placeReading(stage, key, place)),
  ]
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
          ? `at the near cheek, disc to the light. Set ${dialStop(fNumberOf(stage, h))}; ${lensDome(of('dome', 'lens'), main)}.`
          : `at the near cheek, ${receptor} to the ${aim}: ${against(h, main)}.`
      return meterReading(stage, `exposure.nearCheek.${receptor}.${aim}`, 'near cheek', probes[aim], h, sentence)
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

function meterReading(
  stage: Stage,
  id: string,
  name: string,
  { point }: Probe,
  h: number,
  sentence: string,
  sourceId: string | null = null,
): Reading {
  const place = { name, at: point }
  if (!(h > 0))
    return absent({ id, place, formula: FORMULA, source: ISO_2720, sourceId, sentence: 'no light arrives here.' })
  const fNumber = fNumberOf(stage, h)
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
      filled: `√(${figure(h * powerFactor(stage), 1)} lx·s · ${iso} / ${INCIDENT_C}) = f/${figure(fNumber, 2)}`,
      source: ISO_2720,
    },
    sourceId,
  })
}

/** 'f/8 + 0.0': the tenths always, so that the number keeps its width. */
const tenthsText = (fNumber: number): string => {
  const text = formatFNumber(fNumber)
  return /^f\/[\d.]+$/.test(text) ? `${text} + 0.0` : text
}

export function absoluteBand({ sitting }: Stage, sourceId: string | null) {
  const published = sitting.sources.find(({ id }) => id === sourceId)?.head.guideNumberM != null
  return published ? BANDS.exposurePublished : BANDS.exposure
}

/** Light of one source alone at its own near cheek, disc to it: its direct light and what of it the room sends back. */
export const aloneLight = (stage: Stage, source: RigSource): number => aloneOf(aloneTable(stage, source), source.id)
export const aloneTable = (stage: Stage, source: RigSource): readonly PlaceLight[] =>
  stage.table.at(
    source === stage.key ? 'nearCheek.disc.light' : `alone.${source.id}`,
    towardsLight(stage, source),
    'disc',
  )

function aloneReading(stage: Stage, source: RigSource): Reading {
  const probe = towardsLight(stage, source, nearCheekOf(stage, source))
  const h = aloneLight(stage, source)
  const sentence = `is what the meter shows for ${source.letter} alone, disc to it at its near cheek.`
  return meterReading(stage, `source.${source.letter}.alone`, 'near cheek', probe, h, sentence, source.id)
}

function placeReading(stage: Stage, key: RigSource, place: MeterPlace): Reading {
  const probe = placeProbe(stage, key, place)
  const h = sumOf(stage.table.at(`place.${place.id}`, probe, place.receptor))
  const sentence = `at ${place.name}, ${place.receptor} to the ${place.facing}.`
  return meterReading(stage, `place.${place.id}`, place.name, probe, h, sentence)
}

/** Where the document holds its meter: off the skin at a landmark, in free air at a point. */
function placeProbe({ scene, sitting }: Stage, key: RigSource, place: MeterPlace): Probe {
  const { point: at, normal }: MeterPoint = meterPoint(place, scene.rig)
  const point = normal ? addScaled(at, normal, HELD_OFF_M) : at
  const target = place.facing === 'light' ? key.frame.origin : sitting.camera.positionM
  return { point, normal: normalize(subtract(target, point)), casingM: CASING_M }
}
