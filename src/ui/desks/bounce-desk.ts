import {
  type Bounce,
  bounceScene,
  bounceSteps,
  DRAGGING,
  type IndirectLight,
  type ListQuality,
  type Receivers,
  SETTLED,
  SETTLED_LISTS,
  type SolveQuality,
  TURNED,
  TURNING,
} from '../../bounce'
import { type BodyCaster, createRayCaster } from '../../rays'
import { isMirror, type Rig, type RigSource } from '../../rig'
import { pump } from './pump'

interface Known {
  readonly bounce: Bounce
  readonly lists: ListQuality
  /** What stands where; and what it is painted with. */
  readonly shape: string
  readonly paint: string
}

interface Solved {
  readonly light: IndirectLight
  readonly bounce: Bounce
  readonly quality: SolveQuality
  readonly emitters: RigSource['emitters']
  readonly colour: string
}

export interface BounceAnswer {
  readonly receivers: Receivers
  readonly lights: readonly IndirectLight[]
}

/** Keeps the hit lists and solutions of the last rig, and makes again only what a new rig asks for. */
export class BounceDesk {
  private caster: BodyCaster | null = null
  private known: Known | null = null
  private solved = new Map<string, Solved>()
  private readonly numbers = new WeakMap<object, number>()
  private counter = 0

  /** Coarse: within the time of a drag, over lists as they are where only lamps moved. Runs to its end. */
  async coarse(rig: Rig): Promise<BounceAnswer> {
    const before = this.known?.bounce.cast.lists
    const bounce = await this.bounceOf(rig, TURNING, false, () => false)
    const quality = bounce?.cast.lists === before ? DRAGGING : TURNED
    const answer = await this.lightsOf(rig, bounce, quality, () => false)
    return answer as BounceAnswer
  }

  /** All rays, lamps' bodies included; null when superseded. */
  async settled(rig: Rig, superseded: () => boolean): Promise<BounceAnswer | null> {
    const bounce = await this.bounceOf(rig, SETTLED_LISTS, true, superseded)
    return this.lightsOf(rig, bounce, SETTLED, superseded)
  }

  private async lightsOf(
    rig: Rig,
    bounce: Bounce | null,
    quality: SolveQuality,
    superseded: () => boolean,
  ): Promise<BounceAnswer | null> {
    if (!bounce) return null
    const lights: IndirectLight[] = []
    for (const source of rig.sources) {
      const light = await this.lightOf(source, bounce, quality, superseded)
      if (!light) return null
      lights.push(light)
    }
    return { receivers: bounce.receivers, lights }
  }

  private async bounceOf(
    rig: Rig,
    lists: ListQuality,
    gearExact: boolean,
    superseded: () => boolean,
  ): Promise<Bounce | null> {
    const scene = bounceScene(rig)
    if (this.caster) this.caster.update(scene.bodies)
    else this.caster = createRayCaster(scene.bodies)
    const shape = this.shapeOf(rig, gearExact)
    const paint = paintOf(rig)
    const known = this.known
    const fits = known && this.fits(known, shape, gearExact) && known.lists.vertexRays >= lists.vertexRays
    if (known && fits && known.paint === paint) return known.bounce
    const bounce =
      known && fits
        ? known.bounce.repainted(scene)
        : await pump(bounceSteps(scene, this.caster, lists, known?.bounce), superseded)
    if (!bounce) return null
    this.known = { bounce, lists: known && fits ? known.lists : lists, shape: this.shapeOf(rig, true), paint }
    return bounce
  }

  /** Coarse answers look away from where the lamps' bodies stand, as long as they are the same bodies. */
  private fits(known: Known, shape: string, gearExact: boolean): boolean {
    return gearExact ? known.shape === shape : known.shape.startsWith(shape)
  }

  private async lightOf(
    source: RigSource,
    bounce: Bounce,
    quality: SolveQuality,
    superseded: () => boolean,
  ): Promise<IndirectLight | null> {
    const before = this.solved.get(source.id)
    const colour = source.colour.join()
    const same = before && before.bounce === bounce && before.emitters === source.emitters && before.colour === colour
    if (before && same && before.quality.directRays >= quality.directRays) return before.light
    const light = await pump(bounce.solveSteps(source, quality), superseded)
    if (light) this.solved.set(source.id, { light, bounce, quality, emitters: source.emitters, colour })
    return light
  }

  /** Same text: same bodies under the same numbers. The places of gear come last, and only where they count. */
  private shapeOf(rig: Rig, gearExact: boolean): string {
    const set = rig.surfaces.map(({ id, rect, front, back }) => [
      id,
      rect,
      back === null,
      isMirror(front),
      isMirror(back),
    ])
    const balls = rig.balls.map(({ id, centre, radiusM }) => [id, centre, radiusM])
    const figures = rig.figures.map(({ posed }) => this.numberOf(posed))
    const gear = rig.sources.map(({ id, gear }) => [id, gear.map(({ kind }) => kind)])
    const text = JSON.stringify([set, balls, figures, gear])
    return gearExact
      ? `${text}|${rig.sources.map(({ gear }) => gear.map((solid) => this.numberOf(solid)))}`
      : `${text}|`
  }

  private numberOf(record: object): number {
    const known = this.numbers.get(record) ?? ++this.counter
    this.numbers.set(record, known)
    return known
  }
}

const paintOf = (rig: Rig): string =>
  JSON.stringify([
    rig.surfaces.map(({ front, back }) => [front, back]),
    rig.balls.map(({ material }) => material),
    rig.figures.map(({ albedo }) => albedo),
  ])
