import type { IndirectLight, Receivers } from '../bounce'
import type { Rig } from '../rig'
import { bounceOfAll, type Ensemble, ensembleOf, gainOver, mayGoOn } from './ensemble'
import { LightLayer } from './light-layer'
import { seenCloud } from './reach'
import type { Recombination } from './recombine'
import type { Sphere } from './shadow-frustum'

/** So many batches it gets before the sources' own layers are drawn. */
const BATCHES = 16
/** Before its first picture: under a moving hand, at rest. */
const FIRST = { moving: 1, resting: 4 } as const
/** The sources' own layers take its place when each has so many batches. */
const OWN_BATCHES = 16
/** Of the first batch under a moving hand, at least one an emitter; and of its panels' points, at least one a source. */
const THIN = { points: 12, panelPoints: 8 } as const

export interface CrowdSet {
  readonly rig: Rig
  readonly width: number
  readonly height: number
  readonly casters: Sphere | null
  readonly lights: readonly IndirectLight[]
  readonly receivers: Receivers | null
}

/** So many that start together are drawn as one. */
const STARTERS = 3

export interface CrowdChange {
  readonly restarted: ReadonlySet<string>
  /** Under a hand. */
  readonly isMoving: boolean
}

/**
 * Many sources that start together are drawn as one first, weighed as they are shown: one batch then is a picture, where each
 * source's own would cost as much. Their layers follow, and from then on powers cost nothing; before, another weighing costs the
 * first batch of each.
 */
export class Crowd {
  private layer: LightLayer | null = null
  private isOn = false
  /** The bounced light that it has. */
  private lights: readonly IndirectLight[] | null = null
  /** Batches before there is a picture. */
  private first = 1
  /** It has what only does for a moving hand. */
  isStale = false

  /**
   * After a change of the set or of what it is shown by. restarted: sources of whose light nothing is left. how: null, each source is
   * drawn by itself; weighed otherwise, too, lest a power that is dragged starts it again and again.
   */
  take(set: CrowdSet, how: Recombination | null, { restarted, isMoving }: CrowdChange): void {
    const last = this.layer && (this.layer.source as Ensemble)
    const isSame = how !== null && last !== null && mayGoOn(last, set.rig, how)
    const starting = how ? startingOf(how, restarted) : 0
    const isRested = this.isStale && !isMoving
    if (starting === 0 && this.isOn && isSame && !isRested) return
    const isTooMuch = isSame && this.layer?.standing?.isOverfull === true
    const goesOn = !isTooMuch && (starting >= STARTERS || (starting === 0 && this.isOn && isSame))
    // Its points stay where they are as long as sources and their weights are what they were.
    const ensemble = how && goesOn ? (isSame ? last : ensembleOf(set.rig, how)) : null
    this.isOn = ensemble !== null
    this.isStale = this.isOn && isMoving
    if (ensemble) this.start(set, ensemble, isMoving)
  }

  private start({ width, height, rig, casters, lights, receivers }: CrowdSet, ensemble: Ensemble, isMoving: boolean) {
    this.first = isMoving ? FIRST.moving : FIRST.resting
    const before = this.layer?.source
    const seen = () => seenCloud(rig)
    if (this.layer) this.layer.restart(ensemble, rig, seen, casters)
    else this.layer = new LightLayer(width, height, ensemble, rig, seen, casters)
    if (receivers && (before !== ensemble || this.lights !== lights)) {
      this.lights = lights
      this.layer.setBounce(bounceOfAll(ensemble, lights), receivers, rig)
    }
    if (!isMoving) return
    this.layer.firstPoints = THIN.points
    this.layer.firstPanelPoints = THIN.panelPoints
  }

  /** What is drawn next, before the sources' own layers; null: those. */
  get due(): LightLayer | null {
    return this.isOn && this.layer!.batches < BATCHES ? this.layer : null
  }

  /** It has no picture yet. */
  get isWaiting(): boolean {
    return this.isOn && (this.layer!.batches < this.first || this.layer!.standing?.isOverfull === true)
  }

  /** Samples of each of its sources, in the mean; null: the sources' own layers are shown. */
  get samples(): number | null {
    if (!this.isOn) return null
    return this.isWaiting
      ? 0
      : Math.max(1, Math.floor(this.layer!.samples / (this.layer!.source as Ensemble).members.length))
  }

  /** Gives way to the sources' own layers once they are as far. */
  giveWay(layers: readonly LightLayer[]): void {
    if (!this.isOn) return
    if (this.layer!.standing?.isOverfull && this.layer!.batches > 0) this.isOn = false
    if (!this.isOn || this.due) return
    const { members } = this.layer!.source as Ensemble
    const own = layers.filter(({ source }) => members.some((member) => member.source.id === source.id))
    if (own.every(({ batches }) => batches >= OWN_BATCHES)) this.isOn = false
  }

  /** The layers to be summed, and by which weights. */
  shown(layers: readonly LightLayer[], how: Recombination): readonly [readonly LightLayer[], Recombination] {
    const gain = this.isOn && !this.isWaiting ? gainOver(this.layer!.source as Ensemble, how) : null
    if (gain === null) return [layers, how]
    return [[this.layer!], { ...how, weights: [{ sourceId: 'all', on: true, factor: gain, rgb: [1, 1, 1] }] }]
  }

  setSize(width: number, height: number): void {
    this.layer?.setSize(width, height)
  }

  dispose(): void {
    this.layer?.dispose()
    this.layer = null
    this.isOn = false
  }
}

/** How many of the sources that show start. */
const startingOf = ({ weights }: Recombination, restarted: ReadonlySet<string>): number =>
  weights.filter(({ sourceId, on }) => on && restarted.has(sourceId)).length
