import { type Texture, type WebGLRenderer, WebGLRenderTarget } from 'three'
import type { Mirror } from '../rig'
import { bindLayer, bindPoints, shadingUniforms } from './bindings'
import { Block } from './block'
import { CarriedPass, type Counts } from './carried-pass'
import { COARSE_SHARE, CoarseLook } from './coarse-look'
import { earlyOf, isEnsemble } from './ensemble'
import type { PixelBox } from './eye-boxes'
import { FLOAT_TARGET } from './g-buffer'
import {
  BATCH,
  EARLY_BATCHES,
  EMITTER,
  EVEN_ROWS,
  LENS,
  LIT_STRIDE,
  MAX_EMITTERS,
  MAX_LENSES,
  MAX_OCCLUDERS,
  MIRRORED_ROW,
  OCCLUDER,
  OPEN_ROWS,
  SAMPLE_STRIDE,
} from './layouts'
import { packLenses, type SeenLens } from './lenses'
import type { LightLayer } from './light-layer'
import { mirrorBall, mirroredBall, setMirror } from './mirror'
import { type Grain, LOOK, mapsInPieces, type Piece } from './pace'
import { newSamples, packEven, packLit, packMirrored, packSamples, packVirtual } from './pack'
import { PanelSum, SHOWING } from './panel-sum'
import { type Batch, ballOf, drawBatch, drawForMirror } from './samples'
import { isLook, type Scenery } from './scenery'
import { gatesOf, type Kind, kindsOf, type Shading, Shadings, shadeRows } from './shading'
import type { ShadowAtlas } from './shadow-atlas'
import { isSoftware } from './support'

/**
 * Adds batches of sixteen samples to light layers. A layer is read and written in turn with a spare target rather than
 * blended: that needs no float blending, costs one texture read, and leaves the layer whole while a batch is under way.
 */
export class Accumulator {
  private readonly uniforms = shadingUniforms()
  private readonly shadings: Shadings
  private readonly records = newSamples()
  readonly samples = new Block('Samples', SAMPLE_STRIDE, BATCH)
  readonly open = new Block('Open', LIT_STRIDE, OPEN_ROWS)
  private readonly even = new Block('Even', LIT_STRIDE, EVEN_ROWS)
  readonly emitters = new Block('Emitters', EMITTER.columns, MAX_EMITTERS)
  readonly occluders = new Block('Occluders', OCCLUDER.columns, MAX_OCCLUDERS)
  readonly lenses = new Block('Lenses', LENS.columns, MAX_LENSES)
  private spare: WebGLRenderTarget
  private secondSpare: WebGLRenderTarget | null = null
  private readonly coarse: CoarseLook
  readonly carriedPass: CarriedPass
  /** null: a processor that draws would take longer over it than over all the rest. */
  private readonly panelSum: PanelSum | null
  /** Drawn into last: reading a pixel of it waits for the work so far. */
  latest: WebGLRenderTarget

  constructor(
    private readonly renderer: WebGLRenderer,
    private width: number,
    private height: number,
    private readonly seed: number,
    private readonly earlyBatches = EARLY_BATCHES,
    sumsPanels?: boolean,
  ) {
    const isSlow = isSoftware(renderer.getContext())
    this.shadings = new Shadings(this.uniforms, this, !isSlow)
    this.panelSum = (sumsPanels ?? !isSlow) ? new PanelSum() : null
    this.carriedPass = new CarriedPass(width, height, [this.even, this.emitters])
    this.spare = new WebGLRenderTarget(width, height, FLOAT_TARGET)
    this.coarse = new CoarseLook(width, height, this.uniforms)
    this.latest = this.spare
    renderer.initRenderTarget(this.spare)
  }

  /** The sitters' glasses, nearest to the eye first. */
  setLenses(lenses: readonly SeenLens[]): void {
    this.shadings.hasLenses = lenses.length > 0
    this.uniforms.lensCount.value = lenses.length
    this.lenses.fill(packLenses(lenses))
  }

  /** Hands over the programs of a layer's next batch that are not yet compiled. True: there were some. */
  prepare(layer: LightLayer, atlas: ShadowAtlas): boolean {
    const { renderer, spare } = this
    layer.ready()
    const isEarly = this.isEarly(layer)
    const shadings = [this.shading(layer, isEarly)]
    if (layer.points.length > 0) shadings.push(this.virtualShading(layer, isEarly))
    if (layer.standing.mirror) shadings.push(this.mirrorShading(layer, isEarly))
    const passes = shadings.flatMap(({ most, eyes }) => [most, eyes])
    const others = [
      this.panelSum?.prepare(renderer, layer),
      atlas.prepare(renderer, this.samples),
      this.carriedPass.prepare(renderer, layer),
    ]
    return [...others, ...passes.map((pass) => pass.prepare(renderer, spare))].includes(true)
  }

  private isEarly({ source, batches }: LightLayer): boolean {
    return batches < earlyOf(source, this.earlyBatches)
  }

  /** One batch in pieces: yields after each bounded piece of GPU work. */
  *batch(layer: LightLayer, scenery: Scenery, atlas: ShadowAtlas, grain: Grain): Generator<Piece, void> {
    layer.ready()
    const isEarly = this.isEarly(layer)
    const trust = this.trustIn(layer, scenery)
    const batch = drawBatch(layer, this.seed, trust > 0)
    packSamples(this.records, batch.mapped, atlas.casters, isEarly ? this.carriedPass.sitters : [], layer)
    this.samples.fill(this.records)
    yield* this.drawMaps(atlas, batch.mapped.length, grain)
    // While the card draws the maps.
    layer.prepareFaces(scenery.eyes)
    this.bind(layer, scenery, atlas)
    const open = batch.open()
    this.open.fill(packLit(open))
    bindPoints(this.uniforms, layer, batch.mapped)
    this.uniforms.openCount.value = open.length
    this.uniforms.carried.value = this.carry(layer, scenery, batch, { isOwnCounted: !isEarly, trust })
    yield LOOK
    this.uniforms.accumulated.value = layer.target.texture
    const shading = this.shading(layer, isEarly)
    if (isEarly && (layer.batches === 0 || isEnsemble(layer.source)) && !this.shadings.hasLenses) {
      this.coarse.begin()
      this.uniforms.isFirst.value = true
      yield* this.shade(shading, this.coarse.target, [], grain, COARSE_SHARE)
      this.coarse.use()
      this.uniforms.isFirst.value = layer.batches === 0
    }
    yield* this.shade(shading, this.spare, scenery.eyeBoxes, grain)
    this.coarse.leave()
    const { mirror } = layer.standing
    if (mirror) yield* this.addMirrored(layer, mirror, scenery.eyeBoxes, atlas, grain)
    if (layer.points.length > 0) yield* this.addVirtual(layer, scenery, atlas, grain)
    const done = this.spare
    this.spare = layer.target
    layer.target = done
    layer.batches++
  }

  private shading({ source, standing }: LightLayer, isEarly: boolean): Shading {
    return this.shadings.of([...early(isEarly), ...kindsOf(source)], standing.direct.count)
  }

  private virtualShading(layer: LightLayer, isEarly: boolean): Shading {
    const summed = this.panelSum?.sums(layer) ? (['SUMMED'] as const) : []
    return this.shadings.of(['VIRTUAL_POINTS', ...summed, ...early(isEarly)], layer.standing.points.count)
  }

  private mirrorShading({ source, standing }: LightLayer, isEarly: boolean): Shading {
    return this.shadings.of(['OVER_MIRROR', ...early(isEarly), ...gatesOf(source)], standing.mirrored.count)
  }

  /** How far the evenness of a layer's next batch counts. */
  private trustIn(layer: LightLayer, { carried }: Scenery): number {
    const trust = isLook(carried) ? Math.min(1, earlyOf(layer.source, this.earlyBatches) / (layer.batches + 1)) : 0
    // Less is not worth its time.
    return trust < 0.1 ? 0 : trust
  }

  private carry(
    layer: LightLayer,
    { carried }: Scenery,
    { mapped, even }: Batch,
    how: Pick<Counts, 'isOwnCounted' | 'trust'>,
  ): Texture | null {
    this.uniforms.isCarried.value = isLook(carried)
    if (!isLook(carried)) return carried
    const many = even()
    this.even.fill(packEven(this.records, mapped.length, many))
    return this.carriedPass.draw(this.renderer, carried, layer, { few: mapped.length, many: many.length, ...how })
  }

  /** Up to sixteen of the metal panels' virtual points, weighted to stand for all. */
  private *addVirtual(
    layer: LightLayer,
    { carried, eyeBoxes }: Scenery,
    atlas: ShadowAtlas,
    grain: Grain,
  ): Generator<Piece, void> {
    const look = this.panelSum?.sums(layer) && isLook(carried) ? carried : null
    const drawn = layer.nextPoints(look ? SHOWING : BATCH)
    packVirtual(this.records, drawn, layer.whiteGain, atlas.casters, layer.standing)
    this.uniforms.beforeSitters.value = 1
    this.samples.fill(this.records)
    yield* this.drawMaps(atlas, drawn.length, grain)
    this.uniforms.sampleCount.value = drawn.length
    this.uniforms.ball.value = ballOf(
      drawn.map(({ point: { point, areaM2 } }) => ({ point, reachM: Math.sqrt(areaM2) })),
    )
    this.occluders.fill(layer.standing.points.records)
    this.uniforms.occluderCount.value = layer.standing.points.count
    if (look) {
      this.uniforms.carried.value = this.carriedPass.drawPanels(this.renderer, look, this.panelSum!, layer)
      yield LOOK
    }
    yield* this.shadeOnto(this.virtualShading(layer, this.isEarly(layer)), eyeBoxes, grain)
  }

  /** Light of the source by way of the mirror, from so many points at a time as have room for both of their maps. */
  private *addMirrored(
    layer: LightLayer,
    mirror: Mirror,
    eyeBoxes: readonly PixelBox[],
    atlas: ShadowAtlas,
    grain: Grain,
  ): Generator<Piece, void> {
    const points = drawForMirror(layer, mirrorBall(mirror), this.seed)
    setMirror(this.uniforms, mirror)
    this.occluders.fill(layer.standing.mirrored.records)
    this.uniforms.occluderCount.value = layer.standing.mirrored.count
    this.uniforms.otherOccluders.value = layer.standing.others
    for (let first = 0; first < points.length; first += MIRRORED_ROW) {
      const some = points.slice(first, first + MIRRORED_ROW)
      packMirrored(this.records, some, atlas.casters, atlas.casters && mirroredBall(mirror, atlas.casters))
      this.samples.fill(this.records)
      yield* this.drawMaps(atlas, some.length, grain)
      yield* mapsInPieces(atlas.casters ? some.length : 0, grain, (first, count) =>
        atlas.drawMirrored(this.renderer, this.samples, mirror, first, count),
      )
      this.uniforms.sampleCount.value = some.length
      yield* this.shadeOnto(this.mirrorShading(layer, this.isEarly(layer)), eyeBoxes, grain)
    }
  }

  /** Adds to what the batch has so far. */
  private *shadeOnto(shading: Shading, eyeBoxes: readonly PixelBox[], grain: Grain): Generator<Piece, void> {
    this.secondSpare ??= new WebGLRenderTarget(this.width, this.height, FLOAT_TARGET)
    const target = this.secondSpare
    this.uniforms.isFirst.value = false
    this.uniforms.accumulated.value = this.spare.texture
    yield* this.shade(shading, target, eyeBoxes, grain)
    this.secondSpare = this.spare
    this.spare = target
  }

  private bind(layer: LightLayer, scenery: Scenery, atlas: ShadowAtlas): void {
    this.emitters.fill(layer.emitters)
    this.occluders.fill(layer.standing.direct.records)
    // One that was given up may have left off anywhere.
    this.coarse.leave()
    bindLayer(this.uniforms, layer, scenery, atlas)
  }

  private drawMaps(atlas: ShadowAtlas, samples: number, grain: Grain): Generator<Piece, void> {
    return mapsInPieces(atlas.casters ? samples : 0, grain, (first, count) =>
      atlas.draw(this.renderer, this.samples, first, count),
    )
  }

  /** share: what a row of the target costs, of one of the picture's. */
  private *shade(
    shading: Shading,
    target: WebGLRenderTarget,
    eyeBoxes: readonly PixelBox[],
    grain: Grain,
    share = 1,
  ): Generator<Piece, void> {
    for (let y = 0; y < target.height; ) {
      const count = Math.min(Math.ceil(grain.rows / share), target.height - y)
      shadeRows(this.renderer, shading, target, { y, count }, eyeBoxes)
      this.latest = target
      y += count
      yield { kind: 'rows', count: count * share }
    }
  }

  /** Layers are gone: nothing of theirs is waited for. */
  forgetLayers(): void {
    this.latest = this.spare
  }

  setSize(width: number, height: number): void {
    this.width = width
    this.height = height
    this.spare.setSize(width, height)
    this.renderer.initRenderTarget(this.spare)
    this.coarse.setSize(width, height)
    this.latest = this.spare
    this.secondSpare?.setSize(width, height)
    this.carriedPass.setSize(width, height)
  }

  dispose(): void {
    this.spare.dispose()
    this.coarse.dispose()
    this.secondSpare?.dispose()
    this.carriedPass.dispose()
    this.panelSum?.dispose()
    for (const block of [this.samples, this.open, this.even, this.emitters, this.occluders, this.lenses])
      block.dispose()
    this.shadings.dispose()
  }
}

const early = (isEarly: boolean): readonly Kind[] => (isEarly ? ['EARLY'] : [])
