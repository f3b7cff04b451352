import { codeFromLinear, directionThrough, pictureValueFromLuminance } from '../camera'
import type { Probe } from '../meter'
import {
  GREY_CARD,
  luminanceFromIlluminance,
  luminanceFromSrgb,
  type Rgb,
  ratioFromStops,
  stopsBetween,
} from '../photometry'
import { addScaled, cross, dot, normalize, scale, type Vec3 } from '../space'
import { shadowReadings } from './backdrop-shadow'
import { wrapReading } from './backdrop-wrap'
import { BANDS, codeBand } from './bands'
import { type PlaceLight, sumOf } from './light-table'
import { absent, reading } from './reading'
import { fNumberOf, powerFactor, type Stage, towardsLight } from './stage'
import type { Reading } from './types'
import { veilReading } from './veil'
import { figure, signed } from './words'

/** Middles of nine equal fields of the frame. */
const THIRDS = [-2 / 3, 0, 2 / 3]
/** Papers by which a backdrop's tone is spoken of: reflectance, common practice. */
const PAPERS = [
  { id: 'white', words: 'white 88 % paper', reflectance: 0.88 },
  { id: 'grey', words: 'grey 18 % paper', reflectance: GREY_CARD },
  { id: 'charcoal', words: 'charcoal 6 % paper', reflectance: 0.06 },
  { id: 'black', words: 'black 4 % paper', reflectance: 0.04 },
] as const
const ENOUGH_EVEN = 0.3

/** Light on the backdrop where the camera sees it, against the face, and what any paper there records as. */
export function backdropReadings(stage: Stage): readonly Reading[] {
  const { sitting, key } = stage
  const formula = 'log₂(H backdrop / H near cheek), disc on the paper, disc to the light'
  const missing = (sentence: string) => [
    absent({ id: 'backdrop.stops', place: { name: 'backdrop', at: null }, formula, source: 'the meter', sentence }),
  ]
  if (!sitting.backdrop) return missing('no backdrop hangs behind the sitter.')
  if (!key) return missing('no source is on.')
  const probes = seenPlaces(stage)
  if (probes.length === 0) return missing('the camera sees nothing of the backdrop.')
  const face = sumOf(stage.table.at('nearCheek.disc.light', towardsLight(stage, key), 'disc'))
  const bySource = probes.map((probe, i) => stage.table.at(`backdrop.${i}`, probe, 'disc'))
  const lights = bySource.map(sumOf)
  const mean = lights.reduce((sum, h) => sum + h, 0) / lights.length
  if (!(face > 0 && mean > 0)) return missing('no light reaches the backdrop or the face.')
  return [
    stopsReading(stage, probes[0], mean, face, formula),
    ...(lights.length > 1 ? [spreadReading(probes, lights)] : []),
    ...toneReadings(stage, probes[0], mean, colourOf(stage, bySource)),
    ...probes.map((probe, i) => placeReading(stage, probe, lights[i]!, face)),
    ...shadowReadings(stage, bySource),
    wrapReading(stage, mean, face),
    veilReading(stage, mean, face),
  ]
}

/** A place of the backdrop, by where it stands in the frame. */
export interface SeenPlace extends Probe {
  readonly id: string
  readonly name: string
}

const UP = ['lower', 'middle', 'upper'] as const
const ACROSS = ['left', 'middle', 'right'] as const

/** Nine places of the frame, as far as they fall on the backdrop and nothing stands before them. */
export function seenPlaces({ scene }: Stage): readonly SeenPlace[] {
  const { view } = scene.rig
  const places = THIRDS.flatMap((y, row) =>
    THIRDS.map((x, column) => ({
      direction: directionThrough(x, y, view.frame, view),
      id: `${UP[row]}.${ACROSS[column]}`,
      name: row === 1 && column === 1 ? 'middle of the frame' : `${UP[row]} ${ACROSS[column]} of the frame`,
    })),
  )
  return places.flatMap(({ direction, id, name }) => {
    const hit = scene.caster.nearest(view.frame.origin, direction)
    const meaning = hit && scene.bodies.meanings[hit.bodyIndex]
    if (!hit || meaning?.kind !== 'surface' || meaning.surface.kind !== 'backdrop') return []
    const { halfU, halfV } = meaning.surface.rect
    const front = normalize(cross(halfU, halfV))
    const normal: Vec3 = dot(front, direction) < 0 ? front : scale(front, -1)
    return [{ point: addScaled(addScaled(view.frame.origin, direction, hit.distance), normal, 1e-3), normal, id, name }]
  })
}

function stopsReading(stage: Stage, { point }: Probe, mean: number, face: number, formula: string): Reading {
  const stops = stopsBetween(face, mean)
  const paper = luminanceFromSrgb(stage.sitting.backdrop!.reflectance)
  const code = (reflectance: number) => figure(codeOf(stage, mean, reflectance))
  return reading({
    id: 'backdrop.stops',
    value: stops,
    unit: 'stop',
    text: signed(stops),
    band: BANDS.backdrop,
    place: { name: 'backdrop', at: point },
    sentence: `on the backdrop, so ${figure(100 * paper)} % paper records as ${code(paper)}; white would be ${code(0.88)}.`,
    why: {
      formula,
      filled: `log₂(${figure(mean, 1)} / ${figure(face, 1)})`,
      source: 'the meter; mean of the places that the camera sees',
    },
  })
}

function spreadReading(probes: readonly Probe[], lights: readonly number[]): Reading {
  const darkest = probes[lights.indexOf(Math.min(...lights))]
  const formula = 'log₂(largest / smallest) of up to nine places in the frame'
  if (!(Math.min(...lights) > 0))
    return absent({
      id: 'backdrop.spread',
      place: { name: 'darkest seen place of the backdrop', at: darkest.point },
      formula,
      source: 'the meter',
      sentence: 'part of the backdrop gets no light at all, so the spread has no end.',
    })
  const spread = stopsBetween(Math.min(...lights), Math.max(...lights))
  return reading({
    id: 'backdrop.spread',
    value: spread,
    unit: 'stop',
    text: figure(spread, 1),
    band: BANDS.backdrop,
    place: { name: 'darkest seen place of the backdrop', at: darkest.point },
    sentence: `from the lightest to the darkest place of the backdrop in the frame: ${spread <= ENOUGH_EVEN ? 'even enough for white' : 'a gradient'}.`,
    why: {
      formula,
      filled: `log₂(${figure(Math.max(...lights), 1)} / ${figure(Math.min(...lights), 1)})`,
      source: '0.3 stop for white: common practice, no source',
    },
  })
}

/** One of the nine places. */
function placeReading(stage: Stage, { id, name, point }: SeenPlace, h: number, face: number): Reading {
  const place = { name: `backdrop, ${name}`, at: point }
  const formula = 'log₂(H there / H near cheek), disc on the paper, disc to the light'
  if (!(h > 0))
    return absent({
      id: `backdrop.at.${id}`,
      place,
      formula,
      source: 'the meter',
      sentence: 'no light reaches this place.',
    })
  const paper = luminanceFromSrgb(stage.sitting.backdrop!.reflectance)
  const stops = stopsBetween(face, h)
  return reading({
    id: `backdrop.at.${id}`,
    value: stops,
    unit: 'stop',
    text: signed(stops),
    band: BANDS.backdrop,
    code: codeOf(stage, h, paper),
    place,
    sentence: `on the backdrop at the ${name}: your paper records as ${figure(codeOf(stage, h, paper))} there, white as ${figure(codeOf(stage, h, 0.88))}.`,
    why: { formula, filled: `log₂(${figure(h, 1)} / ${figure(face, 1)})`, source: 'the meter' },
  })
}

/** Codes of the paper's three bands in the light of all its seen places; bounced light is taken in its source's colour. */
function colourOf(stage: Stage, bySource: readonly (readonly PlaceLight[])[]): Rgb {
  const { reflectance } = stage.sitting.backdrop!
  const code = (band: 0 | 1 | 2): number => {
    const h = bySource.flat().reduce((sum, light) => sum + sumOf([light]) * light.source.colour[band], 0)
    return Math.round(codeOf(stage, h / bySource.length, reflectance[band]))
  }
  return [code(0), code(1), code(2)]
}

/** A matt paper in light that reads N_b records as ρ·(N_b/N)², then through sRGB. */
function codeOf(stage: Stage, h: number, reflectance: number): number {
  const luminance = luminanceFromIlluminance(h * powerFactor(stage), reflectance)
  return codeFromLinear(pictureValueFromLuminance(luminance, stage.sitting.camera.iso, stage.exposure.fNumber), 'plain')
}

function toneReadings(stage: Stage, { point }: Probe, mean: number, [r, g, b]: Rgb): readonly Reading[] {
  const own = luminanceFromSrgb(stage.sitting.backdrop!.reflectance)
  const papers = [{ id: 'paper', words: `your ${figure(100 * own)} % paper`, reflectance: own }, ...PAPERS]
  return papers.map(({ id, words, reflectance }) => {
    const code = codeOf(stage, mean, reflectance)
    return reading({
      id: `backdrop.tone.${id}`,
      value: code,
      unit: 'of 255',
      text: figure(code),
      band: codeBand((stops) => codeOf(stage, mean * ratioFromStops(stops), reflectance)),
      place: { name: 'backdrop', at: point },
      sentence: `is what ${words} records as there, without a contrast curve${id === 'paper' && (r !== g || g !== b) ? `; in colour sRGB ${r} ${g} ${b}` : ''}.`,
      why: {
        formula: 'sRGB(ρ·N_b² / N²)',
        filled: `sRGB(${figure(reflectance, 2)} · ${figure(fNumberOf(stage, mean), 2)}² / ${figure(stage.exposure.fNumber, 2)}²)`,
        source: 'IEC 61966-2-1',
      },
    })
  })
}
