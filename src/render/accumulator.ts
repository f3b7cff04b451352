import { type IUniform, type Texture, Vector3, type WebGLRenderer, WebGLRenderTarget } from 'three'
import type { Vec3 } from '../space'
import { Block } from './block'
import { FLOAT_TARGET, type GTextures } from './g-buffer'
import {
  BATCH,
  EARLY_BATCHES,
  EMITTER,
  MAX_EMITTERS,
  MAX_OCCLUDERS,
  OCCLUDER,
  SAMPLE_STRIDE,
  STEADY_ROWS,
  STEADY_STRIDE,
} from './layouts'
import { type LightLayer, pointsInTurn } from './light-layer'
import type { Piece } from './pace'
import { newSamples, packSamples, packSteady, packVirtual } from './pack'
import { FullScreenPass } from './programs'
import { drawBatch } from './samples'
import fragment from './shaders/shade.frag.glsl?raw'
import type { ShadowAtlas } from './shadow-atlas'

/** What a batch is shaded over. figureBounce: bounced irradiance of this source on the pixels of sitters. */
export interface Scenery {
  readonly g: GTextures
  readonly objects: Texture
  readonly figureBounce: Texture | null
  readonly sourceIndex: number
  /** Midpoints of the sitters' eyes. */
  readonly eyes: readonly Vec3[]
}

/** How much a piece of work may draw at most, asked anew before each. */
export interface Grain {
  readonly rows: number
  readonly maps: number
}

/**
 * Adds batches of sixteen samples to light layers. A layer is read and written in turn with a spare target rather than
 * blended: that needs no float blending, costs one texture read, and leaves the layer whole while a batch is under way.
 */
export class Accumulator {
  private readonly uniforms: Record<string, IUniform> = {}
  private readonly programs: Readonly<Record<'direct' | 'directEarly' | 'virtual' | 'virtualEarly', FullScreenPass>>
  private readonly records = newSamples()
  private readonly samples = new Block('Samples', SAMPLE_STRIDE, BATCH)
  private readonly steady = new Block('Steady', STEADY_STRIDE, STEADY_ROWS)
  private readonly emitters = new Block('Emitters', EMITTER.columns, MAX_EMITTERS)
  private readonly occluders = new Block('Occluders', OCCLUDER.columns, MAX_OCCLUDERS)
  private spare: WebGLRenderTarget
  private secondSpare: WebGLRenderTarget | null = null
  /** Drawn into last: reading a pixel of it waits for the work so far. */
  latest: WebGLRenderTarget

  constructor(
    private readonly renderer: WebGLRenderer,
    private width: number,
    private height: number,
    private readonly seed: number,
    private readonly earlyBatches = EARLY_BATCHES,
  ) {
    for (const name of UNIFORMS) this.uniforms[name] = { value: null }
    this.uniforms.eye.value = new Vector3()
    const blocks = [this.samples, this.steady, this.emitters, this.occluders]
    const pass = (defines: Record<string, number>) =>
      new FullScreenPass({ fragment, uniforms: this.uniforms, blocks, defines })
    this.programs = {
      direct: pass({}),
      directEarly: pass({ EARLY: 1 }),
      virtual: pass({ VIRTUAL_POINTS: 1 }),
      virtualEarly: pass({ VIRTUAL_POINTS: 1, EARLY: 1 }),
    }
    this.spare = new WebGLRenderTarget(width, height, FLOAT_TARGET)
    this.latest = this.spare
  }

  /** One batch in pieces: yields after each bounded piece of GPU work. */
  *batch(layer: LightLayer, scenery: Scenery, atlas: ShadowAtlas, grain: Grain): Generator<Piece, void> {
    if (layer.batches === 0) layer.prepareFaces(scenery.eyes)
    const samples = drawBatch(layer.source, layer.batches, this.seed)
    packSamples(this.records, samples, atlas.casters)
    this.samples.fill(this.records)
    yield* this.drawMaps(atlas, samples.length, grain)
    this.bind(layer, scenery, atlas)
    this.uniforms.sampleCount.value = samples.length
    const isEarly = layer.batches < this.earlyBatches
    if (isEarly) this.bindSteady(layer)
    this.uniforms.accumulated.value = layer.target.texture
    yield* this.shade(isEarly ? this.programs.directEarly : this.programs.direct, this.spare, grain)
    if (layer.points.length > 0) yield* this.addVirtual(layer, atlas, grain, isEarly)
    const done = this.spare
    this.spare = layer.target
    layer.target = done
    layer.batches++
  }

  private bindSteady(layer: LightLayer): void {
    const partners = layer.partners(this.seed)
    this.steady.fill(packSteady(partners))
    this.uniforms.steadyCount.value = partners.length
  }

  /** Up to sixteen of the metal panels' virtual points, weighted to stand for all. */
  private *addVirtual(layer: LightLayer, atlas: ShadowAtlas, grain: Grain, isEarly: boolean): Generator<Piece, void> {
    const points = pointsInTurn(layer.points, layer.batches)
    const weight = (layer.points.length / points.length) * BATCH
    packVirtual(this.records, points, weight, layer.whiteGain, atlas.casters)
    this.samples.fill(this.records)
    yield* this.drawMaps(atlas, points.length, grain)
    this.secondSpare ??= new WebGLRenderTarget(this.width, this.height, FLOAT_TARGET)
    this.uniforms.sampleCount.value = points.length
    this.occluders.fill(layer.pointOccluders)
    this.uniforms.occluderCount.value = layer.pointOccluderCount
    this.uniforms.isFirst.value = false
    this.uniforms.accumulated.value = this.spare.texture
    yield* this.shade(isEarly ? this.programs.virtualEarly : this.programs.virtual, this.secondSpare, grain)
    const done = this.secondSpare
    this.secondSpare = this.spare
    this.spare = done
  }

  private bind(layer: LightLayer, { g, objects, figureBounce, sourceIndex }: Scenery, atlas: ShadowAtlas): void {
    this.emitters.fill(layer.emitters)
    this.occluders.fill(layer.occluders)
    const u = this.uniforms
    u.gPosition.value = g.position
    u.gNormals.value = g.normals
    u.gCoat.value = g.coat
    u.eye.value.set(...g.eye)
    u.objects.value = objects
    u.emitterCount.value = layer.faces ? layer.source.emitters.length : 0
    u.faceMaps.value = layer.faces?.texture ?? null
    u.occluderCount.value = layer.occluderCount
    u.shadowMap.value = atlas.target.depthTexture
    u.tileSize.value = atlas.tileSize
    u.source.value = sourceIndex
    u.isFirst.value = layer.batches === 0
    u.hasBounce.value = layer.bounce !== null
    u.figureBounce.value = figureBounce
    u.patchBounce.value = layer.bounce?.patches ?? null
  }

  private *drawMaps(atlas: ShadowAtlas, samples: number, grain: Grain): Generator<Piece, void> {
    const total = atlas.casters ? samples : 0
    for (let first = 0; first < total; ) {
      const count = Math.min(grain.maps, total - first)
      atlas.draw(this.renderer, this.samples, first, count)
      first += count
      yield { kind: 'maps', count }
    }
  }

  private *shade(pass: FullScreenPass, target: WebGLRenderTarget, grain: Grain): Generator<Piece, void> {
    target.scissorTest = true
    for (let y = 0; y < this.height; ) {
      const count = Math.min(grain.rows, this.height - y)
      target.scissor.set(0, y, this.width, count)
      pass.draw(this.renderer, target)
      this.latest = target
      y += count
      yield { kind: 'rows', count }
    }
  }

  setSize(width: number, height: number): void {
    this.width = width
    this.height = height
    this.spare.setSize(width, height)
    this.secondSpare?.setSize(width, height)
  }

  dispose(): void {
    this.spare.dispose()
    this.secondSpare?.dispose()
    for (const block of [this.samples, this.steady, this.emitters, this.occluders]) block.dispose()
    for (const pass of Object.values(this.programs)) pass.dispose()
  }
}

const UNIFORMS = [
  'gPosition',
  'gNormals',
  'gCoat',
  'objects',
  'faceMaps',
  'shadowMap',
  'accumulated',
  'figureBounce',
  'patchBounce',
  'eye',
  'sampleCount',
  'steadyCount',
  'occluderCount',
  'emitterCount',
  'tileSize',
  'source',
  'isFirst',
  'hasBounce',
] as const
