import type { WebGLRenderer } from 'three'
import type { IndirectLight, Receivers } from '../bounce'
import type { Rig } from '../rig'
import { Accumulator } from './accumulator'
import { type Changes, changesBetween } from './changes'
import { Convergence, errorOf } from './convergence'
import type { CrowdSet } from './crowd'
import { GBuffer } from './g-buffer'
import { LayerSet } from './layer-set'
import { MAX_SOURCES } from './layouts'
import { lensesSeen } from './lenses'
import { newRenderer } from './new-renderer'
import { listObjects, packObjects, sitterPixels } from './objects'
import { Pace, type Piece } from './pace'
import type { PictureOptions, Progress } from './picture-options'
import { PosePass } from './pose-pass'
import { measureProbes, type ProbeReading } from './probe-pass'
import type { Probe } from './probes'
import { type Recombination, Recombiner, readDisplayed, readLinear, readRows } from './recombine'
import { drawRound } from './round'
import { disposeScene, nextScene, partsOf, placesOf, type SceneGeometry, sameGeometry } from './scene'
import { ShadowAtlas } from './shadow-atlas'
import type { Table } from './table'

/**
 * The picture, built up sixteen samples at a time in one layer a source. Call setRig whenever the rig changes, step as
 * often as time allows, and recombine to see what there is; power, colour and on/off need recombine alone.
 */
export class PictureRenderer {
  readonly renderer: WebGLRenderer
  private readonly ownsRenderer: boolean
  private readonly seed: number
  private readonly target: number
  private readonly antialias: boolean
  private readonly atlas: ShadowAtlas
  private readonly recombiner = new Recombiner()
  private readonly convergence = new Convergence()
  private readonly pace: Pace
  private width: number
  private height: number
  private readonly posePass: PosePass
  private readonly gBuffer: GBuffer
  private readonly accumulator: Accumulator
  private readonly layers = new LayerSet()
  /** As it is shown; null: nobody told. */
  private how: Recombination | null = null
  private rig: Rig | null = null
  private geometry: SceneGeometry | null = null
  private objects: Table | null = null
  private lights: readonly IndirectLight[] = []
  private receivers: Receivers | null = null
  private round: Generator<Piece, void> | null = null

  constructor({
    canvas,
    renderer,
    width,
    height,
    seed = 1,
    target = 1024,
    tileSize = 512,
    antialias = true,
    patient = false,
    sumsPanels,
  }: PictureOptions) {
    this.ownsRenderer = !renderer
    this.renderer = renderer ?? newRenderer(canvas!, width, height)
    this.width = width
    this.height = height
    this.seed = seed
    this.target = target
    this.antialias = antialias
    this.atlas = new ShadowAtlas(tileSize)
    this.pace = new Pace(this.renderer, patient)
    this.posePass = new PosePass(this.renderer)
    this.gBuffer = new GBuffer(width, height)
    this.accumulator = new Accumulator(this.renderer, width, height, seed, undefined, sumsPanels)
  }

  /**
   * Takes what changed by identity: a moved source restarts alone, a changed view, sitter or set restarts all. Those in whose
   * light its gear was moved do too; under a moving hand they wait for catchUp. how: as it will be shown; many sources that start
   * together are then drawn as one first (Crowd).
   */
  setRig(rig: Rig, isMoving = false, how: Recombination | null = null): void {
    if (rig.sources.length > MAX_SOURCES)
      throw new Error(
        `sources: expected at most ${MAX_SOURCES} in one picture, got ${rig.sources.length}. Remove some.`,
      )
    const before = this.rig
    const changes = changesBetween(before, rig)
    this.rig = rig
    this.how = how
    this.recombiner.look = { places: this.gBuffer.places.texture, frame: rig.view.frame }
    this.rebuild(before, rig, changes)
    if (this.layers.take(this.crowdSet(rig), changes, isMoving, how)) this.accumulator.forgetLayers()
  }

  /** It will be shown otherwise. What is drawn as one gives way to the sources' own layers, unless all changes alike. */
  weigh(how: Recombination): void {
    if (!this.rig) return
    this.how = how
    if (this.layers.weigh(this.crowdSet(this.rig), how)) this.abandonRound()
  }

  /** Sources that only did for a moving hand start again. True: there were some. */
  catchUp(): boolean {
    const { isStale } = this.progress
    if (isStale) this.setRig(this.rig!, false, this.how)
    return isStale && this.isWaiting
  }

  /** Bounced light as far as it is known; the sources that it belongs to start again, the others keep what they have. */
  setIndirect(lights: readonly IndirectLight[], receivers: Receivers): void {
    if (!this.rig) throw new Error('PictureRenderer.setIndirect: no rig yet; call setRig first')
    this.abandonRound()
    const before = this.lights
    this.lights = lights
    if (receivers !== this.receivers) {
      this.receivers = receivers
      this.packObjects(this.rig)
    }
    this.layers.takeLight(this.crowdSet(this.rig), before)
  }

  /** Another pixel grid; everything starts again. The canvas keeps its picture until the next is summed. */
  setSize(width: number, height: number): void {
    if (width === this.width && height === this.height) return
    this.abandonRound()
    this.width = width
    this.height = height
    for (const owner of [this.gBuffer, this.accumulator]) owner.setSize(width, height)
    if (this.rig) this.layers.setSize(this.crowdSet(this.rig))
  }

  /**
   * Works for about budgetMs, at least one piece unless the card is busy: a few shadow maps, or a band of rows. Ends as
   * soon as every source that is lit has its first samples, so that they can be shown.
   */
  step(budgetMs: number): Progress {
    const end = performance.now() + budgetMs
    do {
      this.round ??= this.nextRound()
      if (!this.round) break
      const isFirst = this.isWaiting
      if (this.pace.run(this.round, budgetMs, end, () => this.accumulator.latest)) this.round = null
      if ((isFirst && !this.isWaiting) || this.pace.isBusy()) break
    } while (performance.now() < end)
    return this.progress
  }

  /** Is the card still at what a patient step gave it? What is asked of it now would wait for that. */
  get isBusy(): boolean {
    return this.pace.isBusy()
  }

  /**
   * Hands the card the first samples after a change, if they are known to take no more than about mostMs, and waits for
   * nothing: it draws while the page does something else. True when they are handed over whole, so that they may be
   * recombined.
   */
  begin(mostMs: number): boolean {
    if (!this.isWaiting) return false
    this.round ??= this.nextRound()
    if (this.round && this.pace.begin(this.round, mostMs)) this.round = null
    return !this.isWaiting
  }

  /** Has a source that is on no samples yet? */
  get isWaiting(): boolean {
    return this.layers.isWaiting
  }

  get progress(): Progress {
    const { samples, isStale } = this.layers
    return { samples, target: this.target, isStale, done: !isStale && this.layers.isFinished(this.target) }
  }

  /** Root mean square error of what recombine shows, as a share of its mean luminance; null: unknown yet. Waits for the card. */
  error(how: Recombination): number | null {
    const [layers, weighing] = this.layers.shown(how)
    for (const layer of layers) this.convergence.look(this.renderer, layer)
    return errorOf(layers, weighing)
  }

  /** Draws the weighed layers to the canvas through the display transform. Layers are whole at any time. */
  recombine(how: Recombination): void {
    const { width, height } = this.renderer.domElement
    if (this.ownsRenderer && (width !== this.width || height !== this.height))
      this.renderer.setSize(this.width, this.height, false)
    this.recombiner.draw(this.renderer, null, ...this.layers.shown(how), 'display')
  }

  /** Light of one source per 1 cd·s in white: RGBA floats, rows from the top; A: luminance of the bounced part. 1/m². */
  readLayer(sourceId: string): Float32Array {
    const layer = this.layers.of(sourceId)
    const values = readRows(this.renderer, layer.target, this.size)
    const gain = layer.samples > 0 ? 1 / layer.samples : 0
    return values.map((value) => value * gain)
  }

  /** Exposed linear RGBA floats, rows from the top: 1 is perfect white in metered light. */
  readLinear(how: Recombination): Float32Array {
    return readLinear(this.renderer, this.recombiner, ...this.layers.shown(how), this.size)
  }

  /** 1 for each pixel that shows a sitter, as last looked at; rows from the top. */
  readSitters(): Uint8Array {
    if (!this.rig) throw new Error('PictureRenderer.readSitters: no rig yet; call setRig first')
    return sitterPixels(this.rig, readRows(this.renderer, this.gBuffer.places, this.size))
  }

  /** sRGB bytes, three a pixel, rows from the top. */
  readDisplay(how: Recombination): Uint8Array<ArrayBuffer> {
    return readDisplayed(this.renderer, this.recombiner, ...this.layers.shown(how), this.size)
  }

  /** Irradiance at places in the set, by the picture's own passes. */
  renderProbes(probes: readonly Probe[], samples = 256): readonly ProbeReading[] {
    if (!this.rig) throw new Error('PictureRenderer.renderProbes: no rig yet; call setRig first')
    const { renderer, atlas, rig, receivers, lights, seed } = this
    this.abandonRound()
    return measureProbes(probes, { renderer, atlas, rig, receivers, lights, samples, seed })
  }

  get size(): { readonly width: number; readonly height: number } {
    return { width: this.width, height: this.height }
  }

  dispose(): void {
    this.abandonRound()
    const { gBuffer, accumulator, atlas, recombiner, convergence, layers, posePass } = this
    for (const owner of [posePass, gBuffer, accumulator, atlas, recombiner, convergence, layers]) owner.dispose()
    this.objects?.dispose()
    if (this.geometry) disposeScene(this.geometry)
    if (this.ownsRenderer) this.renderer.dispose()
  }

  private rebuild(before: Rig | null, rig: Rig, changes: Changes): void {
    this.abandonRound()
    const objects = listObjects(rig)
    const old = this.geometry
    const geometry = nextScene(old, before, rig, changes, objects)
    this.geometry = geometry
    if (old) disposeScene(old, geometry)
    if (changes.figures) {
      this.posePass.pose(geometry.figures)
      this.atlas.setFigures(geometry.figures, placesOf(partsOf(rig)))
    }
    this.accumulator.setLenses(lensesSeen(rig))
    if (changes.figures || !sameGeometry(old, geometry)) this.gBuffer.setScene(geometry)
    if (changes.figures || geometry.set !== old?.set) this.accumulator.carriedPass.setScene(geometry, partsOf(rig))
    this.packObjects(rig)
  }

  private packObjects(rig: Rig): void {
    this.objects?.dispose()
    this.objects = packObjects(listObjects(rig), this.receivers)
  }

  private nextRound(): Generator<Piece, void> | null {
    const pending = this.layers.next(this.target)
    return pending.length > 0 ? drawRound(pending, this.studio()) : null
  }

  private studio() {
    const { renderer, gBuffer, accumulator, atlas, pace: grain, antialias, width, height } = this
    return {
      renderer,
      gBuffer,
      accumulator,
      atlas,
      objects: this.objects!,
      rig: this.rig!,
      grain,
      antialias,
      width,
      height,
    }
  }

  private crowdSet(rig: Rig): CrowdSet {
    const { width, height, lights, receivers } = this
    return { rig, width, height, casters: this.atlas.casters, lights, receivers }
  }

  private abandonRound(): void {
    this.round = null
  }
}
