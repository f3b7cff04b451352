import { codeFromLinear, directionThrough, pictureValueFromLuminance } from '../camera'
import type { Probe } from '../meter'
import { GREY_CARD, luminanceFromIlluminance, luminanceFromSrgb, stopsBetween } from '../photometry'
import { addScaled, cross, dot, normalize, scale, type Vec3 } from '../space'
import { BANDS } from './bands'
import { sumOf } from './light-table'
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
  const lights = probes.map((probe, i) => sumOf(stage.table.at(`backdrop.${i}`, probe, 'disc')))
  const mean = lights.reduce((sum, h) => sum + h, 0) / lights.length
  if (!(face > 0 && mean > 0)) return missing('no light reaches the backdrop or the face.')
  return [
    stopsReading(stage, probes[0], mean, face, formula),
    ...(lights.length > 1 ? [spreadReading(probes, lights)] : []),
    ...toneReadings(stage, probes[0], mean),
    veilReading(stage, mean, face),
  ]
}

/** Nine places of the frame, as far as they fall on the backdrop and nothing stands before them. */
export function seenPlaces({ scene }: Stage): readonly Probe[] {
  const { view } = scene.rig
  return THIRDS.flatMap((y) => THIRDS.map((x) => directionThrough(x, y, view.frame, view))).flatMap((direction) => {
    const hit = scene.caster.nearest(view.frame.origin, direction)
    const meaning = hit && scene.bodies.meanings[hit.bodyIndex]
    if (!hit || meaning?.kind !== 'surface' || meaning.surface.kind !== 'backdrop') return []
    const { halfU, halfV } = meaning.surface.rect
    const front = normalize(cross(halfU, halfV))
    const normal: Vec3 = dot(front, direction) < 0 ? front : scale(front, -1)
    return [{ point: addScaled(addScaled(view.frame.origin, direction, hit.distance), normal, 1e-3), normal }]
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

/** A matt paper in light that reads N_b records as ρ·(N_b/N)², then through sRGB. */
function codeOf(stage: Stage, h: number, reflectance: number): number {
  const luminance = luminanceFromIlluminance(h * powerFactor(stage), reflectance)
  return codeFromLinear(pictureValueFromLuminance(luminance, stage.sitting.camera.iso, stage.exposure.fNumber), 'plain')
}

function toneReadings(stage: Stage, { point }: Probe, mean: number): readonly Reading[] {
  const own = luminanceFromSrgb(stage.sitting.backdrop!.reflectance)
  const papers = [{ id: 'paper', words: `your ${figure(100 * own)} % paper`, reflectance: own }, ...PAPERS]
  return papers.map(({ id, words, reflectance }) => {
    const code = codeOf(stage, mean, reflectance)
    return reading({
      id: `backdrop.tone.${id}`,
      value: code,
      unit: 'of 255',
      text: figure(code),
      place: { name: 'backdrop', at: point },
      sentence: `is what ${words} records as there, without a contrast curve.`,
      why: {
        formula: 'sRGB(ρ·N_b² / N²)',
        filled: `sRGB(${figure(reflectance, 2)} · ${figure(fNumberOf(stage, mean), 2)}² / ${figure(stage.exposure.fNumber, 2)}²)`,
        source: 'IEC 61966-2-1',
      },
    })
  })
}
