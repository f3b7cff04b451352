import { directionThrough } from '../camera'
import { materialAt } from '../meter'
import { luminanceFromSrgb } from '../photometry'
import { reading } from './reading'
import type { Stage } from './stage'
import type { Reading } from './types'
import { figure } from './words'

/**
 * Share of the frame's mean luminance that a lens spreads over all of it, its veiling glare index (ISO 9358). Guessed; from
 * memory, lenses have 1 to 4 %.
 */
const VEIL = 0.02
/** Off by half and by double. */
const BAND_STOPS = 0.4
/** Of a black cloth in the face's light: common practice, no source. */
const BLACK = 0.04
/** Rays along each side of the frame. */
const SIDE = 12

/**
 * By how many stops a bright frame lifts its blacks: an estimate, as every lens is another.
 * @param backdrop light on the backdrop, lx·s @param face at the near cheek, lx·s
 */
export function veilReading(stage: Stage, backdrop: number, face: number): Reading {
  const mean = frameMean(stage, backdrop / face)
  const stops = Math.log2(1 + (VEIL * mean) / BLACK)
  return reading({
    id: 'backdrop.veil',
    value: stops,
    unit: 'stop',
    text: figure(stops, 1),
    band: {
      plusMinus: Math.max(0.1, Math.min(BAND_STOPS, Math.round(stops * 10) / 10)),
      unit: 'stop',
      basis: 'guessed',
    },
    place: { name: 'blacks of the picture', at: null },
    sentence: `is by how much the bright parts of the frame lift its blacks inside an average lens${stops >= SEEN ? ': they turn grey; less backdrop in the frame, or less light on it, keeps them' : ''}.`,
    why: {
      formula: 'log₂(1 + v·L̄ / L of black cloth), sitter as if all in the face’s light',
      filled: `log₂(1 + ${figure(VEIL, 2)} · ${figure(mean, 2)} / ${figure(BLACK, 2)})`,
      source: 'veiling glare index as in ISO 9358, 2 % guessed; ghosts of lamps are not in it',
    },
  })
}

/** Common practice, no source. */
const SEEN = 0.5

/** Of the frame: mean luminance against a white in the face's light. Only sitters and backdrop count. */
function frameMean({ scene: { rig, bodies, caster } }: Stage, backdrop: number): number {
  const places = Array.from({ length: SIDE }, (_, i) => (2 * i + 1) / SIDE - 1)
  const seen = places.flatMap((y) =>
    places.map((x) => {
      const direction = directionThrough(x, y, rig.view.frame, rig.view)
      const hit = caster.nearest(rig.view.frame.origin, direction)
      const meaning = hit && bodies.meanings[hit.bodyIndex]
      const material = meaning && materialAt(meaning, hit, direction)
      if (material?.kind !== 'matt') return 0
      const reflectance = luminanceFromSrgb(material.albedo)
      if (meaning?.kind === 'figure') return reflectance
      return meaning?.kind === 'surface' && meaning.surface.kind === 'backdrop' ? reflectance * backdrop : 0
    }),
  )
  return seen.reduce((sum, luminance) => sum + luminance, 0) / seen.length
}
