/** Sittings drawn at random by a seed, and places of their set and sitter. */
import { defaultModifier } from '../../src/gear'
import type { MeterScene } from '../../src/meter'
import type { Rig } from '../../src/rig'
import { firstSitting, type Sitting, type Source } from '../../src/sitting'
import { addScaled, hash32, normalize, type Vec3 } from '../../src/space'
import { isInCrevice, isInside, onFront, type Place, skinPlace } from './agreement-places'

export const draw = (seed: number, i: number, low: number, high: number): number =>
  low + (hash32(hash32(seed, 41), i) / 2 ** 32) * (high - low)
export const vector = (seed: number, i: number, half: Vec3, middle: Vec3): Vec3 =>
  [0, 1, 2].map((k) => middle[k]! + draw(seed, 3 * i + k, -half[k]!, half[k]!)) as unknown as Vec3

export const isBare = (seed: number): boolean => seed % 2 === 0
export const isKnown = (seed: number): boolean => isBare(seed) || seed % 4 === 1
const KNOWN_KINDS = ['led-panel', 'bare-bulb']
const SOFT_KINDS = ['softbox', 'octa', 'beauty-dish', 'white-umbrella', 'shoot-through-umbrella', 'led-panel']
export function kindOf(seed: number, i: number): string {
  if (isBare(seed)) return 'bare-bulb'
  const kinds = isKnown(seed) ? KNOWN_KINDS : SOFT_KINDS
  return kinds[Math.floor(draw(seed, 50 + i, 0, kinds.length))]!
}

export function randomSitting(seed: number): Sitting {
  const first = firstSitting()
  const count = 1 + Math.floor(draw(seed, 0, 0, 3))
  const sources = Array.from({ length: count }, (_, i): Source => {
    const turn = draw(seed, 10 + i, -Math.PI, Math.PI)
    const away = draw(seed, 20 + i, 1.2, 2.2)
    return {
      ...first.sources[0]!,
      id: `source-${i}`,
      letter: 'ABC'[i]!,
      modifier: defaultModifier(kindOf(seed, i)),
      centreM: [away * Math.sin(turn), draw(seed, 30 + i, 0.6, 2.2), away * Math.cos(turn)],
      aimM: vector(seed, 40 + i, [0.3, 0.3, 0.3], [0, 1.2, 0]),
    }
  })
  const sitters = [{ ...first.sitters[0]!, headTurnDeg: draw(seed, 5, -60, 60), chinDeg: draw(seed, 6, -15, 15) }]
  const tones = isBare(seed) ? [0, 0, 0] : draw(seed, 7, 0, 1) < 0.5 ? [0.2, 0.3, 0.2] : [0.75, 0.8, 0.35]
  const [wallReflectance, ceilingReflectance, floorReflectance] = tones as [number, number, number]
  const reflectances = { wallReflectance, ceilingReflectance, floorReflectance }
  const room = { ...first.room, widthM: 6, depthM: 6, heightM: 3, xM: 0, zM: 0, ...reflectances }
  // Behind every source.
  const backdrop = isBare(seed) ? null : { ...first.backdrop!, distanceM: draw(seed, 8, 2.4, 2.8) }
  return { ...first, sitters, sources, panels: [], objects: [], backdrop, meterPlaces: [], room }
}

/**
 * Places of the set and of the sitter, anywhere: walls, floor, ceiling, paper, and skin and clothes by their vertices, unless they lie
 * within the body. Of a receptor's points those in a crevice, a fold of the ear beside it, are left out, but where all are.
 */
export function surfacePlaces(scene: MeterScene, seed: number, count: number): readonly Place[] {
  const { rig } = scene
  const [{ posed }] = rig.figures as [Rig['figures'][number]]
  const pick = <T>(i: number, from: readonly T[]): T => from[Math.floor(draw(seed, i, 0, from.length))]!
  const places = Array.from({ length: count }, (_, i): Place => {
    const at = 5000 + 5 * i
    if (i % 2 === 0) {
      const surface = pick(
        at,
        rig.surfaces.filter(({ kind }) => kind !== 'panel'),
      )
      const { centre, halfU, halfV } = surface.rect
      const point = addScaled(
        addScaled(centre, halfU, draw(seed, at + 1, -0.9, 0.9)),
        halfV,
        draw(seed, at + 2, -0.9, 0.9),
      )
      return { ...onFront(surface, point), name: surface.id }
    }
    const part = pick(
      at,
      posed.parts.filter(({ name }) => !/eye|hair/i.test(name)),
    )
    const vertex = 3 * Math.floor(draw(seed, at + 1, 0, part.mesh.positions.length / 3))
    const of = (values: ArrayLike<number>): Vec3 => [values[vertex]!, values[vertex + 1]!, values[vertex + 2]!]
    return skinPlace(posed, part.name, { position: of(part.mesh.positions), normal: normalize(of(part.mesh.normals)) })
  })
  return places.flatMap((place) => {
    const outside = place.points.filter((point) => !isInside(scene, point))
    const open = place.onSitter ? outside.filter((point) => !isInCrevice(scene, point)) : outside
    const points = open.length > 0 ? open : outside
    return points.length > 0 ? [{ ...place, ...points[0]!, points }] : []
  })
}

export const isBehindPaper = ({ surfaces }: Rig, { position }: Place): boolean => {
  const paper = surfaces.find(({ kind }) => kind === 'backdrop')
  return paper !== undefined && position[2] < paper.rect.centre[2] - 0.001
}
