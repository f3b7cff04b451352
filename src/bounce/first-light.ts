import { mirrorOf, mirrorSide, type RigSource } from '../rig'
import { hash32, type RayCaster, sobol } from '../space'
import { directIrradiance, type LitPool } from './direct'
import { pointOfElement } from './elements'
import type { Layout } from './layout'
import type { Coats } from './materials'
import { addGlossy, type MetalPoint, metalPoint, spreadPlaces } from './panels'
import type { SolveQuality } from './quality'
import type { BounceScene } from './scene'

/** What a source's light meets before it has bounced between the elements. */
export interface Setting {
  readonly scene: BounceScene
  readonly caster: RayCaster
  readonly layout: Layout
}

/** Metal that no lamp reaches still sends on what the room gives it, so it gets points too. */
const DIM_SHARE = 0.1
/** Elements between two yields. */
const STEP = 128

/** White direct irradiance of every element, 1/m². A source's light on its own gear is already inside its emission. */
export function* directOnElements(
  { scene, layout: { elements }, caster }: Setting,
  source: RigSource,
  pools: readonly LitPool[],
  { directRays }: SolveQuality,
): Generator<number, Float32Array> {
  const own = scene.gearOf.get(source.id)
  const direct = new Float32Array(elements.length)
  for (let i = 0; i < elements.length; i++) {
    if (i % STEP === 0) yield (0.6 * i) / elements.length
    const element = elements[i]
    if (element.kind === 'cluster' && own?.has(element.body)) continue
    direct[i] = directIrradiance(pools, i, directRays, (u, v) => pointOfElement(element, u, v), caster, own)
  }
  return direct
}

/** What of the source's light comes over the mirror to every element, white, three bands, 1/m²; null: there is no mirror. */
export function* mirroredOnElements(
  { scene, layout: { elements }, caster }: Setting,
  source: RigSource,
  pools: readonly LitPool[],
  { directRays }: SolveQuality,
): Generator<number, Float32Array | null> {
  const mirror = mirrorOf(scene.rig)
  if (!mirror) return null
  const own = scene.gearOf.get(source.id)
  const mirrored = new Float32Array(3 * elements.length)
  for (let i = 0; i < elements.length; i++) {
    if (i % STEP === 0) yield 0.9
    const element = elements[i]
    const f0 = mirrorSide(mirror, pointOfElement(element, 0.5, 0.5).point)
    if (!f0) continue
    const white = directIrradiance(pools, i, directRays, (u, v) => pointOfElement(element, u, v), caster, own, mirror)
    mirrored.set([f0[0] * white, f0[1] * white, f0[2] * white], 3 * i)
  }
  return mirrored
}

export const sumOf = (a: Float32Array, b: Float32Array | null): Float32Array =>
  b ? a.map((value, k) => value + b[k]) : a

/** Of metal panels the points that light the sitters and those that light the set, as a rule the same. */
export interface Metal {
  readonly onSitters: readonly MetalPoint[]
  readonly onSet: readonly MetalPoint[]
}

/** The brightest element over the mean: a lamp in front of a panel makes 2 to 3, one 13 cm before its plane 12. */
const GRAZED = 6

export function metalPoints(
  { scene, layout, caster }: Setting,
  coats: Coats,
  pools: readonly LitPool[],
  direct: Float32Array,
  thrown: Uint8Array,
  source: RigSource,
  quality: SolveQuality,
): Metal {
  const chosen = [...thrown.keys()].filter((element) => thrown[element] === 1)
  const own = scene.gearOf.get(source.id)
  const mean = chosen.reduce((sum, element) => sum + direct[element], 0) / Math.max(1, chosen.length)
  const power = (element: number) => (mean > 0 ? direct[element] + DIM_SHARE * mean : 1)
  const points = (count: number) =>
    spreadPlaces(layout, chosen, power, count).map((place, i) => metalPoint(place, i, coats, pools, caster, own))
  const onSitters = points(quality.metalPoints)
  const isGrazed = chosen.some((element) => direct[element] > GRAZED * mean)
  return { onSitters, onSet: isGrazed ? points(quality.grazedPoints) : onSitters }
}

/** What the metal panels' first reflection throws on every element, white, three bands, 1/m². */
export function* glossyOnElements(
  { layout: { elements }, caster }: Setting,
  metal: readonly MetalPoint[],
): Generator<number, Float32Array> {
  const glossy = new Float32Array(3 * elements.length)
  if (metal.length === 0) return glossy
  for (let i = 0; i < elements.length; i++) {
    if (i % STEP === 0) yield 0.6 + (0.3 * i) / elements.length
    for (const [k, point] of metal.entries()) {
      const at = pointOfElement(elements[i], sobol(k, 0, hash32(i, 8)), sobol(k, 1, hash32(i, 9)))
      addGlossy(point, at, caster, glossy, i)
    }
  }
  return glossy
}

/** ρ·E in the source's colour. A thrown metal's own direct light has already left it as gloss. */
export function reflectedFirst(
  { reflectance }: Coats,
  direct: Float32Array,
  glossy: Float32Array,
  thrown: Uint8Array,
  { colour }: RigSource,
): Float32Array {
  return reflectance.map((rho, k) => {
    const element = Math.floor(k / 3)
    const white = (thrown[element] === 1 ? 0 : direct[element]) + (glossy[k] ?? 0)
    return rho * white * colour[k % 3]
  })
}
