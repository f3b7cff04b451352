import type { IndirectLight } from '../bounce'
import type { RigSource } from '../rig'
import type { Changes } from './changes'
import { Crowd, type CrowdSet } from './crowd'
import { nextLayers } from './layers'
import { LightLayer } from './light-layer'
import { pendingOf } from './pending'
import type { Cloud } from './reach'
import type { Recombination } from './recombine'

/** All layers of a picture: one a source, and of many that start together one for all, until each has its own. */
export class LayerSet {
  private layers: LightLayer[] = []
  private readonly crowd = new Crowd()
  /** As it is shown; null: nobody told, and each source is drawn by itself. */
  private how: Recombination | null = null

  /** True: layers are gone. */
  take(set: CrowdSet, changes: Changes, isMoving: boolean, how: Recombination | null): boolean {
    const { width, height, lights, receivers, rig, casters } = set
    const make = (source: RigSource, seen: () => Cloud): LightLayer => {
      const layer = new LightLayer(width, height, source, rig, seen, casters)
      const light = lights.find(({ sourceId }) => sourceId === source.id)
      if (light && receivers) layer.setBounce(light, receivers, rig)
      return layer
    }
    const { layers, gone } = nextLayers(this.layers, rig, changes, isMoving, casters, make)
    this.layers = layers
    for (const layer of gone) layer.dispose()
    this.how = how
    this.gather(set, changes.restart, isMoving)
    return gone.length > 0
  }

  /** What is drawn as one gives way, unless all changes alike. True: it did. */
  weigh(set: CrowdSet, how: Recombination): boolean {
    if (!this.how) return false
    this.how = how
    const before = this.crowd.samples
    this.gather(set, NONE)
    return before !== null && this.crowd.samples === null
  }

  /** Those whose light is another than before start again. */
  takeLight(set: CrowdSet, before: readonly IndirectLight[]): void {
    const { lights, receivers, rig } = set
    const lightOf = ({ source }: LightLayer) => lights.find(({ sourceId }) => sourceId === source.id) ?? null
    const restarted = this.layers.filter((layer) => !before.includes(lightOf(layer)!))
    for (const layer of restarted) layer.setBounce(lightOf(layer), receivers!, rig)
    this.gather(set, idsOf(restarted))
  }

  setSize(set: CrowdSet): void {
    for (const owner of [this.crowd, ...this.layers]) owner.setSize(set.width, set.height)
    this.gather(set, idsOf(this.layers))
  }

  private gather(set: CrowdSet, restarted: ReadonlySet<string>, isMoving = this.crowd.isStale): void {
    this.crowd.take(set, this.how, { restarted, isMoving })
  }

  /** Has a source that is on no samples yet? */
  get isWaiting(): boolean {
    if (this.crowd.samples !== null) return this.crowd.isWaiting
    return this.layers.some(({ source, samples }) => source.on && samples === 0)
  }

  /** Of each source; while they are shown as one, of each in the mean. */
  get samples(): ReadonlyMap<string, number> {
    const shared = this.crowd.samples
    return new Map(this.layers.map((layer) => [layer.source.id, shared ?? layer.samples]))
  }

  get isStale(): boolean {
    return this.crowd.isStale || this.layers.some((layer) => layer.isStale)
  }

  isFinished(target: number): boolean {
    return pendingOf(this.layers, target).length === 0
  }

  /** Whose next batch is drawn. */
  next(target: number): readonly LightLayer[] {
    this.crowd.giveWay(this.layers)
    const { due } = this.crowd
    return due ? [due] : pendingOf(this.layers, target)
  }

  /** The layers to be summed, and by which weights. */
  shown(how: Recombination): readonly [readonly LightLayer[], Recombination] {
    return this.crowd.shown(this.layers, how)
  }

  of(sourceId: string): LightLayer {
    const layer = this.layers.find(({ source }) => source.id === sourceId)
    if (!layer) throw new Error(`PictureRenderer.readLayer: no source ${sourceId} among ${this.layers.length}`)
    return layer
  }

  dispose(): void {
    for (const owner of [this.crowd, ...this.layers]) owner.dispose()
  }
}

const NONE: ReadonlySet<string> = new Set()
const idsOf = (layers: readonly LightLayer[]): ReadonlySet<string> => new Set(layers.map(({ source }) => source.id))
