import { dot, hash32, type RayCaster, sobol, subtract } from '../space'
import { type ElementPoint, pointOfElement } from './elements'
import type { Layout } from './layout'
import type { HitLists, NoteRay } from './lists'
import { spreadPlaces } from './panels'
import type { Solution } from './solve'

/** Rows between two looks at the clock by whoever drives the generator. */
const ROWS_A_STEP = 16

/** Of two cosines: an area must stay a number. */
const LEAST = 1e-9

/** Of each ray of the lists the area, where it ends, for which it would stand alone: π·r²/(cosθ·cosθ'). 0 where nothing is met, or over a mirror. */
export function areasOf(rows: number, rays: number): { readonly areasM2: Float32Array; readonly note: NoteRay } {
  const areasM2 = new Float32Array(rows * rays)
  const note: NoteRay = (ray, { normal }, direction, hit) => {
    if (!hit) return
    const cosines = Math.abs(dot(direction, normal) * dot(direction, hit.normal))
    areasM2[ray] = (Math.PI * hit.distance ** 2) / Math.max(LEAST, cosines)
  }
  return { areasM2, note }
}

interface Gathering {
  readonly layout: Layout
  readonly lists: HitLists
  readonly areasM2: Float32Array
  readonly caster: RayCaster
}

/**
 * Irradiance of the set's patches, three bands, taken once more when all radiosities are known: by the rays of their lists, and by
 * points spread over what is bright, each trusted as far as it is the denser of the two there (balance heuristic [Veach & Guibas 1995]).
 * Of 256 rays one or none meets a small bright card, and its light would be noise; next to a wall the rays are the denser.
 */
export function* gatherOnPatches(
  { layout, lists, areasM2, caster }: Gathering,
  { radiosity }: Solution,
  points: number,
): Generator<number, Float32Array> {
  const { elements, mirrors, patchCount } = layout
  const powerOf = (element: number) =>
    mirrors.has(element) ? 0 : radiosity[3 * element] + radiosity[3 * element + 1] + radiosity[3 * element + 2]
  const places = spreadPlaces(layout, [...elements.keys()], powerOf, points)
  /** Points a square metre; what shows in a mirror has none, as no point shines over one. */
  const density = new Float64Array(radiosity.length / 3)
  const power = elements.reduce((sum, { areaM2 }, element) => sum + powerOf(element) * areaM2, 0)
  for (const element of elements.keys()) density[element] = power > 0 ? (points * powerOf(element)) / power : 0
  const light = new Float32Array(3 * patchCount)
  const add = (patch: number, element: number, areaM2: number): void => {
    const looks = lists.valid[patch] + density[element] * areaM2
    const share = looks > 0 ? 1 / looks : 0
    for (let band = 0; band < 3; band++) light[3 * patch + band] += share * radiosity[3 * element + band]
  }
  for (let patch = 0; patch < patchCount; patch++) {
    if (patch % ROWS_A_STEP === 0) yield patch / patchCount
    for (let i = patch * lists.rays; i < (patch + 1) * lists.rays; i++) add(patch, lists.hits[i], areasM2[i])
    for (const [k, { element, at }] of places.entries()) {
      const seen = pointOfElement(elements[patch], sobol(k, 2, hash32(patch, 12)), sobol(k, 3, hash32(patch, 13)))
      const areaM2 = areaOfRay(seen, at)
      if (areaM2 !== null && caster.visible(seen.point, at.point)) add(patch, element, areaM2)
    }
  }
  return light
}

/** The area at `at` for which a cosine-weighted ray from `seen` stands, times the rays; null: neither faces the other. */
function areaOfRay(seen: ElementPoint, at: ElementPoint): number | null {
  const way = subtract(at.point, seen.point)
  const squared = dot(way, way)
  const [cosSeen, cosSent] = [dot(seen.normal, way), -dot(at.normal, way)]
  return cosSeen > 0 && cosSent > 0 ? (Math.PI * squared * squared) / (cosSeen * cosSent) : null
}
