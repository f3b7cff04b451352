import type { Rig } from '../rig'
import type { Accumulator } from './accumulator'
import { lookShift } from './coverage'
import { eyeBoxes } from './eye-boxes'
import { type GBuffer, jitterAt, worldToClip } from './g-buffer'
import type { LightLayer } from './light-layer'
import { eyesOf, FACETS_LIFT_M } from './objects'
import { type Grain, LOOK, type Piece } from './pace'
import type { ShadowAtlas } from './shadow-atlas'
import type { Table } from './table'

export interface Studio {
  readonly renderer: Parameters<GBuffer['draw']>[0]
  readonly gBuffer: GBuffer
  readonly accumulator: Accumulator
  readonly atlas: ShadowAtlas
  readonly objects: Table
  readonly rig: Rig
  readonly grain: Grain
  readonly antialias: boolean
  readonly width: number
  readonly height: number
}

const MIDDLE = [0, 0] as const

/** One look of the camera, shifted within the pixel, and one batch for each of these layers. */
export function* drawRound(layers: readonly LightLayer[], studio: Studio): Generator<Piece, void> {
  const { renderer, gBuffer, accumulator, atlas, objects, rig, grain, antialias, width, height } = studio
  const { view, sources } = rig
  if (gBuffer.prepare(renderer)) yield 'programs'
  // All have the same number of batches behind them, and each batch its place within the pixel.
  const jitter = antialias ? jitterAt(layers[0].batches) : MIDDLE
  const shift = antialias ? lookShift(layers[0].batches) : 0
  if (gBuffer.draw(renderer, view, objects.texture, jitter, shift)) yield LOOK
  // While the card looks.
  if (layers.map((layer) => accumulator.prepare(layer, atlas)).includes(true)) yield 'programs'
  const clip = worldToClip(view, width, height, jitter)
  const boxes = eyeBoxes(rig, clip, width, height)
  for (const layer of layers) {
    const scenery = {
      g: gBuffer.textures,
      objects: objects.texture,
      carried: { worldToClip: clip, eye: view.frame.origin, lookShift: shift, objects: objects.texture },
      eyes: eyesOf(rig),
      eyeBoxes: boxes,
      liftM: FACETS_LIFT_M,
      sourceIndex: sources.indexOf(layer.source),
    }
    yield* accumulator.batch(layer, scenery, atlas, grain)
  }
}
