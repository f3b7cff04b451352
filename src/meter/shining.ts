import { blockedByCylinder, litPointsAlong, luminanceFromSrgb } from '../photometry'
import {
  type Mirror,
  mirrorMeets,
  mirrorOf,
  mirrorSide,
  type RigSource,
  reflectedDirection,
  reflectedPoint,
} from '../rig'
import { addScaled, directionToLocal, distance, type Hit, pointToLocal, pointToWorld, scale, type Vec3 } from '../space'
import { type MeterScene, ownGear } from './scene'

/** Metres by which a way leaves the mirror that it met. */
const OFF_MIRROR_M = 2e-4

/** The sources as somebody sees them who looks along a way, at their set powers. */
export class Shining {
  private readonly mirror: Mirror | null

  constructor(
    private readonly scene: MeterScene,
    private readonly sources: readonly RigSource[],
  ) {
    this.mirror = mirrorOf(scene.rig)
  }

  /** Luminance of the sources along a way, cd·s/m², and one that shines there. hit: the first thing on it. */
  along(
    from: Vec3,
    direction: Vec3,
    hit: Hit | null,
  ): { readonly luminance: number; readonly source: RigSource | null } {
    let luminance = 0
    let shining: RigSource | null = null
    for (const source of this.sources) {
      const found = source.emitters.reduce(
        (sum, emitter) => sum + this.ofFace(source, emitter, from, direction, hit),
        0,
      )
      if (found === 0) continue
      luminance += found * source.axialIntensity
      shining = source
    }
    return { luminance, source: shining }
  }

  /** What of the sources shows in the mirror, should a way meet it, cd·s/m². */
  mirrored(from: Vec3, direction: Vec3, hit: Hit): number {
    const f0 = this.mirror && this.isMirror(hit.bodyIndex) && mirrorSide(this.mirror, from)
    if (!f0) return 0
    const met = addScaled(addScaled(from, direction, hit.distance), hit.normal, OFF_MIRROR_M)
    const onwards = reflectedDirection(hit, direction)
    const { luminance } = this.along(met, onwards, this.scene.caster.nearest(met, onwards))
    return luminance * luminanceFromSrgb(f0)
  }

  /** A lit point, and its image where that shows in the mirror. */
  imagesOf(place: Vec3, lit: Vec3): readonly Vec3[] {
    const met = this.mirror && mirrorMeets(this.mirror, place, lit)
    return met ? [lit, reflectedPoint(this.mirror!, lit)] : [lit]
  }

  private isMirror(body: number): boolean {
    const meaning = this.scene.bodies.meanings[body]
    return meaning.kind === 'surface' && meaning.surface.id === this.mirror?.surfaceId
  }

  /** As the meter counts it: what a source's own gear hides is in its emission, all else is the room's. 1/m² per cd·s. */
  private ofFace(
    source: RigSource,
    { emission, frame }: RigSource['emitters'][number],
    place: Vec3,
    direction: Vec3,
    hit: Hit | null,
  ): number {
    const from = pointToLocal(frame, place)
    const ray = directionToLocal(frame, direction)
    let sum = 0
    for (const at of litPointsAlong(emission.surface, from, ray)) {
      const luminance = emission.luminance(at, scale(ray, -1))
      if (!(luminance > 0) || blockedByCylinder(at.point, from, emission.blockers)) continue
      if (!hit || hit.distance > distance(at.point, from) - 1e-4) sum += luminance
      else if (this.isOwnGear(hit, source) && this.seesPast(source, place, pointToWorld(frame, at.point)))
        sum += luminance
    }
    return sum
  }

  private isOwnGear({ bodyIndex }: Hit, { id }: RigSource): boolean {
    const meaning = this.scene.bodies.meanings[bodyIndex]
    return meaning.kind === 'gear' && meaning.sourceId === id
  }

  private seesPast(source: RigSource, from: Vec3, lit: Vec3): boolean {
    return this.scene.caster.visible(from, lit, ownGear(this.scene, source.id))
  }
}
