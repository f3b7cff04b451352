import type { Receptor, Rgb } from '../photometry'
import {
  type Mirror,
  mirrorMeets,
  mirrorOf,
  mirrorSide,
  type RigSource,
  reflectedDirection,
  reflectedPoint,
} from '../rig'
import type { Vec3 } from '../space'
import { type Arrival, arrivalsBy, type Quality } from './arrivals'
import { received } from './direct'
import { litSources, type MeterScene, ownGear, type Probe } from './scene'

/** Where light of a source's lit point meets the mirror on its open way to a place; null: there is no such way. */
export function wayByMirror(scene: MeterScene, mirror: Mirror, sourceId: string, place: Vec3, lit: Vec3): Vec3 | null {
  const met = mirrorMeets(mirror, place, lit)
  const isOpen = met && scene.caster.visible(place, met) && scene.caster.visible(met, lit, ownGear(scene, sourceId))
  return isOpen ? met : null
}

/** Light of one source that reaches a point over the set's mirror, piece by piece, as if that threw back all. */
export function mirroredArrivals(
  scene: MeterScene,
  mirror: Mirror,
  source: RigSource,
  point: Vec3,
  quality: Quality,
): readonly Arrival[] {
  const image = reflectedPoint(mirror, point)
  const sees = (lit: Vec3) => wayByMirror(scene, mirror, source.id, point, lit) !== null
  return arrivalsBy(source, image, quality, sees).map((arrival) => ({
    ...arrival,
    direction: reflectedDirection(mirror, arrival.direction),
  }))
}

/** What a receptor shows of each source's light over the mirror, at 1 cd·s and in its own colour: 1/m² a band. */
export function mirroredAt(
  scene: MeterScene,
  { point, normal }: Probe,
  receptor: Receptor,
  sources: readonly RigSource[] = litSources(scene.rig),
  quality: Quality = 'settled',
): readonly Rgb[] {
  const mirror = mirrorOf(scene.rig)
  const f0 = mirror && mirrorSide(mirror, point)
  return sources.map((source): Rgb => {
    if (!f0) return [0, 0, 0]
    const white = received(mirroredArrivals(scene, mirror, source, point, quality), normal, receptor)
    const [r, g, b] = source.colour
    return [f0[0] * white * r, f0[1] * white * g, f0[2] * white * b]
  })
}
