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
  const power = sharesOf(elements.map(({ areaM2 }, element) => powerOf(element) * areaM2))
  const light = new Float32Array(3 * patchCount)
  let done = 0
  for (const { patches, voters } of groupsOf(layout)) {
    const votes = sharesOf(votesOf(lists, voters, powerOf, elements.length))
    const weights = votes && power ? power.map((share, element) => mixed(share, votes[element])) : power
    const { places, density } = spreadBy(layout, weights, votes ? IN_POCKETS * points : points)
    const add = (patch: number, element: number, areaM2: number): void => {
      const looks = lists.valid[patch] + (density[element] ?? 0) * areaM2
      const share = looks > 0 ? 1 / looks : 0
      for (let band = 0; band < 3; band++) light[3 * patch + band] += share * radiosity[3 * element + band]
    }
    for (const patch of patches) {
      if (done++ % ROWS_A_STEP === 0) yield done / patchCount
      for (let i = patch * lists.rays; i < (patch + 1) * lists.rays; i++) add(patch, lists.hits[i], areasM2[i])
      for (const [k, { element, at }] of places.entries()) {
        const seen = pointOfElement(elements[patch], sobol(k, 2, hash32(patch, 12)), sobol(k, 3, hash32(patch, 13)))
        const areaM2 = areaOfRay(seen, at)
        if (areaM2 !== null && caster.visible(seen.point, at.point)) add(patch, element, areaM2)
      }
    }
  }
  return light
}

/** Patches that share their points. */
interface Group {
  readonly patches: readonly number[]
  /** Patches beside them, whose rays say where light comes from; none: points lie on all that is bright. */
  readonly voters: readonly number[]
}

/** Of a pocket so many times the points. */
const IN_POCKETS = 2
/** Patches along the edge of a square of a pocket that shares its points. */
const SQUARE = 16

/**
 * Of a pocket the black and the white fields of each square of a chessboard, each by what the others' rays met: a ray that voted on its
 * own patch's points would count for less just where it met something bright, and the patch would come out too dark.
 */
function groupsOf({ grids, pockets }: Layout): readonly Group[] {
  const open = grids
    .filter((grid) => !pockets.has(grid))
    .flatMap(({ first, columns, rows }) => range(first, columns * rows))
  const squares = [...pockets].flatMap(({ first, columns, rows }) => {
    const fields = new Map<string, number[]>()
    for (const i of range(0, columns * rows)) {
      const [column, row] = [i % columns, Math.floor(i / columns)]
      const name = `${Math.floor(column / SQUARE)} ${Math.floor(row / SQUARE)} ${(column + row) % 2}`
      fields.set(name, [...(fields.get(name) ?? []), first + i])
    }
    const other = (name: string) => fields.get(`${name.slice(0, -1)}${1 - Number(name.slice(-1))}`) ?? []
    return [...fields].map(([name, patches]) => ({ patches, voters: other(name) }))
  })
  return [{ patches: open, voters: [] }, ...squares]
}

const range = (first: number, count: number): readonly number[] => Array.from({ length: count }, (_, i) => first + i)

/** What rays of these rows say of each element, by the square of what they bring: points should lie where light is rare and bright. */
function votesOf(
  { hits, rays }: HitLists,
  rows: readonly number[],
  powerOf: (element: number) => number,
  elements: number,
): Float64Array {
  const votes = new Float64Array(elements)
  for (const row of rows)
    for (let i = row * rays; i < (row + 1) * rays; i++) if (hits[i] < elements) votes[hits[i]] += powerOf(hits[i]) ** 2
  return votes
}

/** Of all, as shares of 1; null: nothing is bright. */
function sharesOf(values: ArrayLike<number>): readonly number[] | null {
  const all = Array.from(values)
  const total = all.reduce((sum, value) => sum + value, 0)
  return total > 0 ? all.map((value) => value / total) : null
}

/** A fifth of the points stays on all that is bright: what no ray has met may be there too. */
const mixed = (power: number, votes: number): number => 0.2 * power + 0.8 * votes

/** Points by their shares over the elements, and of each element so many a square metre; what shows in a mirror has none, as no point shines over one. */
function spreadBy(layout: Layout, shares: readonly number[] | null, points: number) {
  const { elements } = layout
  const perM2 = elements.map(({ areaM2 }, element) => (shares ? shares[element] / areaM2 : 0))
  const places = spreadPlaces(layout, [...elements.keys()], (element) => perM2[element], points)
  return { places, density: perM2.map((share) => points * share) }
}

/** The area at `at` for which a cosine-weighted ray from `seen` stands, times the rays; null: neither faces the other. */
function areaOfRay(seen: ElementPoint, at: ElementPoint): number | null {
  const way = subtract(at.point, seen.point)
  const squared = dot(way, way)
  const [cosSeen, cosSent] = [dot(seen.normal, way), -dot(at.normal, way)]
  return cosSeen > 0 && cosSent > 0 ? (Math.PI * squared * squared) / (cosSeen * cosSent) : null
}
