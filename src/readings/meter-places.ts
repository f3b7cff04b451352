import { materialAt, type Probe } from '../meter'
import { fNumberFromLuminousExposure, INCIDENT_C, REFLECTED_K, stopsBetween } from '../photometry'
import { meterDirection, meterPoint, sitterAround } from '../rig'
import type { MeterPlace } from '../sitting'
import { addScaled, distance, normalize, subtract, type Vec3 } from '../space'
import { BANDS } from './bands'
import { counted, countedWords, isSteady, letterOf, modellingWords, sentOn, withModelling } from './counted'
import { absoluteBand, meterReading, scalesOf, tenthsText } from './metering'
import { absent, ISO_2720, PRACTICE, reading } from './reading'
import { CASING_M, constantOf, HELD_OFF_M, powerFactor, type Stage } from './stage'
import type { MeterScales, Reading } from './types'
import { figure, shutterText, signed } from './words'

const FORMULA = 'N² = H·S/C'

/** What the meter shows at each place of the document; the spread of those that are read together; the user's own dome. */
export function meterPlaceReadings(stage: Stage): readonly Reading[] {
  if (!stage.key) return []
  const read = stage.sitting.meterPlaces.map((place) => ({ place, reading: placeReading(stage, place) }))
  const grids = [...new Set(read.flatMap(({ place }) => place.grid ?? []))]
  return [
    ...read.map((entry) => entry.reading),
    ...grids.map((grid) =>
      spreadReading(
        grid,
        read.filter(({ place }) => place.grid === grid).map((r) => r.reading),
      ),
    ),
    ...domeReading(stage),
  ]
}

function placeReading(stage: Stage, place: MeterPlace): Reading {
  const { point: at, normal } = meterPoint(place, stage.scene.rig)
  const id = `place.${place.id}`
  const within = normal ? null : sitterAround(stage.scene.rig, at)
  if (within) return missing(id, place, at, `is inside ${within}: hold the meter in front of the skin.`)
  if (place.sourceIds?.length === 0)
    return missing(id, place, at, `counts no source at ${place.name}: choose whose light it is to read.`)
  if (place.receptor === 'spot') return spotReading(stage, id, place, at)
  const point = normal ? addScaled(at, normal, HELD_OFF_M) : at
  const probe: Probe = { point, normal: meterDirection(place, stage.scene.rig), casingM: CASING_M }
  const h = counted(stage, place, stage.table.at(id, probe, place.receptor))
  const { receptor } = place
  const read = meterReading(stage, { id, name: place.name, at, receptor }, h, '')
  const held = `at ${place.name}, ${receptor} ${facingWords(stage, place)}${countedWords(stage, place)}`
  if (!read.also) return { ...read, sentence: `no light arrives ${held}.${modellingWords(stage, place)}` }
  const also = isSteady(place.counts) ? withLux(stage, read.also) : read.also
  return {
    ...read,
    band: bandOf(stage, place),
    sentence: `${held}. ${scaleWords(stage, also)}${modellingWords(stage, place)}`,
    also,
    ...(also.lux === undefined
      ? {}
      : { why: { ...read.why, formula: 'N² = E·t·S/C', filled: steadyWords(stage, place, also) } }),
  }
}

/** Of what modelling lamps give nobody publishes more than watts. */
const bandOf = (stage: Stage, { counts, sourceIds }: MeterPlace) => {
  if (withModelling(counts) && counts !== 'all') return BANDS.modelling
  return absoluteBand(stage, sourceIds?.length === 1 ? sourceIds[0]! : (stage.key?.id ?? null))
}

const withLux = ({ sitting }: Stage, also: MeterScales): MeterScales => ({
  ...also,
  lux: also.luxSeconds / sitting.camera.shutterS,
})

const steadyWords = (stage: Stage, { receptor }: MeterPlace, { lux, luxSeconds }: MeterScales): string => {
  const { iso, shutterS } = stage.sitting.camera
  const c = constantOf(stage, receptor === 'spot' ? 'disc' : receptor)
  return `√(${figure(lux!, lux! < 10 ? 1 : 0)} lx · ${shutterText(shutterS)} · ${iso} / ${c}) = f/${figure(fNumberFromLuminousExposure(luxSeconds, iso, c), 2)}`
}

const missing = (id: string, { name }: MeterPlace, at: Vec3, sentence: string): Reading =>
  absent({ id, place: { name, at }, formula: FORMULA, source: ISO_2720, sentence })

/** 'Set f/9; EV 13.6 at ISO 100; 102 lx·s.'; of steady light 'Set f/2 at 1/60 s; EV 7.9 at ISO 100; 594 lx.' */
const scaleWords = ({ sitting }: Stage, { thirds, ev, luxSeconds, lux }: MeterScales): string =>
  lux === undefined
    ? `Set ${thirds}; EV ${figure(ev, 1)} at ISO ${sitting.camera.iso}; ${fine(luxSeconds)} lx·s.`
    : `Set ${thirds} at ${shutterText(sitting.camera.shutterS)}; EV ${figure(ev, 1)} at ISO ${sitting.camera.iso}; ${fine(lux)} lx.`
const fine = (light: number): string => figure(light, light < 10 ? 2 : light < 100 ? 1 : 0)

function facingWords(stage: Stage, { facing, at }: MeterPlace): string {
  if (facing === 'square') return 'acrossShare' in at ? 'flat on the paper' : 'flat on the skin'
  if (typeof facing === 'string') return `to the ${facing}`
  return 'sourceId' in facing ? `to ${letterOf(stage, facing.sourceId)}` : 'aimed freely'
}

/** Luminance in the middle of a spot, through the lens: matt body only, as gloss is the camera's. */
function spotReading(stage: Stage, id: string, place: MeterPlace, at: Vec3): Reading {
  const { scene, table, sitting } = stage
  const lens = scene.rig.view.frame.origin
  const direction = normalize(subtract(at, lens))
  const hit = scene.caster.nearest(lens, direction)
  const meaning = hit && scene.bodies.meanings[hit.bodyIndex]
  if (!hit || !meaning) return missing(id, place, at, `nothing stands behind ${place.name} for a spot to read.`)
  const material = materialAt(meaning, hit, direction)
  if (material?.kind !== 'matt')
    return missing(id, place, at, 'the lens sees a mirroring cloth or gear there: read a matt place.')
  // A caster's normal stands against the ray.
  const point = addScaled(addScaled(lens, direction, hit.distance), hit.normal, HELD_OFF_M)
  const lights = table.at(id, { point, normal: hit.normal }, 'disc')
  const nits = powerFactor(stage) * sentOn(stage, place, lights, material.albedo)
  const h = powerFactor(stage) * counted(stage, place, lights)
  if (!(nits > 0)) return missing(id, place, at, `no light leaves ${place.name} for the lens.`)
  const { iso, shutterS } = sitting.camera
  const fNumber = fNumberFromLuminousExposure(nits, iso, REFLECTED_K)
  const flashed = scalesOf(stage, fNumber, h)
  const also = isSteady(place.counts) ? withLux(stage, flashed) : flashed
  const shone = also.lux === undefined ? `${figure(nits, 1)} cd·s/m²` : `${fine(nits / shutterS)} cd/m²`
  const beside = signed(2 * Math.log2(fNumber / fNumberFromLuminousExposure(h, iso)), 2)
  const before = hit.distance < distance(lens, at) - 0.02 ? ` (something stands before ${place.name})` : ''
  return reading({
    id,
    value: fNumber,
    unit: '',
    text: tenthsText(fNumber),
    band: bandOf(stage, place),
    place: { name: place.name, at },
    sentence: `is a spot on ${place.name}${countedWords(stage, place)}${before}: ${shone}, ${beside} stop against an incident disc there (an 18 % card: +0.20). ${scaleWords(stage, also)}${modellingWords(stage, place)}`,
    why: {
      formula: 'N² = L·t·S/K',
      filled: `√(${figure(nits, 2)} cd·s/m² · ${iso} / ${REFLECTED_K}) = f/${figure(fNumber, 2)}`,
      source: 'ISO 2720:1974, K = 12.5 cd·s/m²',
    },
    also,
  })
}

/** From the lightest to the darkest of places that are read together. */
function spreadReading(grid: string, read: readonly Reading[]): Reading {
  const lit = read.filter((r): r is Reading & { value: number } => typeof r.value === 'number')
  const id = `grid.${grid}.spread`
  const formula = '2·log₂(largest f-number / smallest)'
  const first = read[0].place
  if (lit.length < read.length || lit.length < 2) {
    const dark = read.length - lit.length
    return absent({
      id,
      place: { name: grid, at: first.at },
      formula,
      source: PRACTICE,
      sentence:
        dark > 0
          ? `${dark} of ${read.length} places, ${grid}, ${dark === 1 ? 'gets' : 'get'} no light: the spread has no end.`
          : `one place is left, ${grid}: two have a spread.`,
    })
  }
  const sorted = [...lit].sort((a, b) => a.value - b.value)
  const [low, high] = [sorted[0], sorted[sorted.length - 1]]
  const stops = stopsBetween(low.value ** 2, high.value ** 2)
  return reading({
    id,
    value: stops,
    unit: 'stop',
    text: figure(stops, 1),
    band: BANDS.ratio,
    place: { name: grid, at: low.place.at },
    sentence: `between ${high.place.name} (${high.text}) and ${low.place.name} (${low.text}), ${grid}.`,
    why: { formula, filled: `2·log₂(${figure(high.value, 2)} / ${figure(low.value, 2)})`, source: ISO_2720 },
  })
}

/** What the user's own dome shows against one that agrees with the disc. */
function domeReading(stage: Stage): readonly Reading[] {
  const c = constantOf(stage, 'dome')
  if (c === INCIDENT_C) return []
  const stops = stopsBetween(c, INCIDENT_C)
  return [
    reading({
      id: 'meter.dome',
      value: stops,
      unit: 'stop',
      text: signed(stops, 2),
      place: { name: 'your meter', at: null },
      sentence: `is what the dome of your meter (C = ${c}) shows against one with ${INCIDENT_C}. Powers are still solved for ${INCIDENT_C}.`,
      why: { formula: 'log₂(250 / C)', filled: `log₂(${INCIDENT_C} / ${c})`, source: ISO_2720 },
    }),
  ]
}
