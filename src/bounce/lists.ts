import { addScaled, type Hit, hash32, type RayCaster, sobol, type Vec3 } from '../space'
import { cosineDirection } from './clusters'
import { pointOfElement } from './elements'
import { type Layout, NO_ELEMENT } from './layout'
import { beyondMirror, mirroredNumber } from './mirror'
import type { RayStart, Shots } from './shots'

/**
 * What each receiver sees: per row, the elements that its cosine-weighted rays met. Their mean radiosity is Σ F·B, so
 * there are no form factors to compute; the lists hold for every source, colour and reflectance.
 */
export interface HitLists {
  readonly rays: number
  /** rows × rays element numbers; the number after the last element stands for what gives no light. Then mirroredNumber's. */
  readonly hits: Uint16Array
  /** Of each row: rays that did not end inside a body. What meets nothing counts as black. */
  readonly valid: Uint16Array
}

/** Told of each ray that meets something, by its number in the lists; the hit is null where a mirror throws it on. */
export type NoteRay = (ray: number, start: RayStart, direction: Vec3, hit: Hit | null) => void

/** Rows between two looks at the clock by whoever drives the generator. */
const ROWS_A_STEP = 32

export function* castLists(
  rows: number,
  rays: number,
  /** null: a row known to be hidden; it gets no valid ray. */
  shotsOf: (row: number) => Shots | null,
  layout: Layout,
  caster: RayCaster,
  note: NoteRay | null = null,
  /** Fills in a ray that need not be cast, by its number in the lists. */
  known: ((row: number, ray: number, hits: Uint16Array) => boolean) | null = null,
  /** Of a row so many rays are cast; the others count neither as light nor as valid. */
  raysOf: (row: number) => number = () => rays,
): Generator<number, HitLists> {
  const black = layout.elements.length
  const hits = new Uint16Array(rows * rays).fill(black)
  const valid = Uint16Array.from({ length: rows }, (_, row) => raysOf(row))
  for (let row = 0; row < rows; row++) {
    if (row % ROWS_A_STEP === 0) yield row / rows
    const shots = shotsOf(row)
    if (!shots) valid[row] = 0
    for (let ray = 0; shots && ray < raysOf(row); ray++) {
      if (known?.(row, ray, hits)) continue
      const { start, direction, hit } = shots(ray)
      if (!hit) continue
      const met = addScaled(start.point, direction, hit.distance)
      const element = layout.elementAt(hit.bodyIndex, hit.triangle, hit.fromBehind, met, direction)
      const side = layout.mirrors.get(element)
      const shown = side ? beyondMirror(layout, caster, met, hit, direction) : element
      if (shown === NO_ELEMENT) valid[row]--
      else if (shown !== null) hits[row * rays + ray] = side ? mirroredNumber(shown, side, black) : shown
      note?.(row * rays + ray, start, direction, side ? null : hit)
    }
  }
  return { rays, hits, valid }
}

/** From places by the numbers of the rows. */
export const shotsFrom =
  (startOf: (row: number, ray: number) => RayStart, caster: RayCaster) =>
  (row: number): Shots => {
    const [u, v] = [hash32(row, 0), hash32(row, 1)]
    return (ray) => {
      const start = startOf(row, ray)
      const direction = cosineDirection(start.normal, sobol(ray, 0, u), sobol(ray, 1, v))
      return { start, direction, hit: caster.nearest(start.point, direction) }
    }
  }

/** Starts spread over the element: dimensions 3 and 4 of the sequence, so that place and direction fill four dimensions evenly. */
export const elementStart =
  ({ elements }: Layout) =>
  (row: number, ray: number): RayStart =>
    pointOfElement(elements[row], sobol(ray, 2, hash32(row, 2)), sobol(ray, 3, hash32(row, 3)))
