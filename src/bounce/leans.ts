import { luminanceFromSrgb } from '../photometry'
import { basisAround, type Vec3 } from '../space'
import { type Element, pointOfElement } from './elements'
import type { PanelLinks } from './links'
import type { NoteRay } from './lists'
import { type Rows, without } from './receive'
import type { RayStart } from './shots'

/** Steps in which a slope is kept, and the least cosine: light that only grazes a vertex would else count for all the rest. */
const STEP = 0.1
const LEAST_COSINE = 0.1

/** How flat light runs to a vertex, tanθ along the two axes round its normal, in steps: two numbers a ray or a link. */
export interface Slopes {
  readonly rays: Int8Array
  readonly links: Int8Array
}

interface Starts {
  readonly count: number
  startOf(row: number): RayStart | null
}

/** Of the rays of the vertices' lists, noted as they are cast. */
export function raySlopes(vertices: number, rays: number): { readonly slopes: Int8Array; readonly note: NoteRay } {
  const slopes = new Int8Array(2 * vertices * rays)
  const note: NoteRay = (ray, { normal }, direction) => {
    if (ray < vertices * rays) putSlope(slopes, ray, normal, basisAround(normal), ...direction)
  }
  return { slopes, note }
}

export function linkSlopes(
  { starts, elements: linked }: PanelLinks,
  vertices: Starts,
  elements: readonly Element[],
): Int8Array {
  const slopes = new Int8Array(2 * starts[vertices.count])
  const middles = new Float64Array(3 * elements.length)
  for (const element of new Set(linked)) middles.set(pointOfElement(elements[element], 0.5, 0.5).point, 3 * element)
  for (let row = 0; row < vertices.count; row++) {
    const start = vertices.startOf(row)
    if (!start) continue
    const [px, py, pz] = start.point
    const basis = basisAround(start.normal)
    for (let i = starts[row]; i < starts[row + 1]; i++) {
      const k = 3 * linked[i]
      const [x, y, z] = [middles[k] - px, middles[k + 1] - py, middles[k + 2] - pz]
      const far = Math.sqrt(x * x + y * y + z * z)
      putSlope(slopes, i, start.normal, basis, x / far, y / far, z / far)
    }
  }
  return slopes
}

/** x, y, z: a unit direction. */
function putSlope(
  slopes: Int8Array,
  i: number,
  n: Vec3,
  [along, across]: ReturnType<typeof basisAround>,
  x: number,
  y: number,
  z: number,
): void {
  const steps = 1 / (STEP * Math.max(LEAST_COSINE, n[0] * x + n[1] * y + n[2] * z))
  slopes[2 * i] = Math.round(steps * (x * along[0] + y * along[1] + z * along[2]))
  slopes[2 * i + 1] = Math.round(steps * (x * across[0] + y * across[1] + z * across[2]))
}

/**
 * By how much of itself the light of each vertex grows as the surface leans there, a vector in the surface: ∫L·ω dω, less what is
 * along the normal, over E, all in luminance (the rotation gradient of [Ward & Heckbert 1992, Irradiance gradients]). What lies
 * between the vertices of a proxy faces other ways than they do, and a bright panel or wall to one side makes as much of that as a
 * lamp. leanRays: of each list, so many at most.
 */
export function leansOf(
  { lists: { hits, rays, valid }, links }: Rows,
  { rays: onRays, links: onLinks }: Slopes,
  { count, startOf }: Starts,
  radiosity: Float32Array,
  leanRays: number,
): Float32Array {
  const brightness = luminances(radiosity)
  const listed = luminances(without(radiosity, links.linked))
  const leans = new Float32Array(3 * count)
  const used = Math.min(rays, leanRays)
  for (let row = 0; row < count; row++) {
    const start = startOf(row)
    if (!start || valid[row] === 0) continue
    let [light, along, across] = [0, 0, 0]
    for (let i = row * rays; i < row * rays + used; i++) {
      const from = listed[hits[i]]
      light += from
      along += from * onRays[2 * i]
      across += from * onRays[2 * i + 1]
    }
    const share = rays / (used * valid[row])
    light *= share
    along *= share
    across *= share
    for (let i = links.starts[row]; i < links.starts[row + 1]; i++) {
      const from = links.weights[i] * brightness[links.elements[i]]
      light += from
      along += from * onLinks[2 * i]
      across += from * onLinks[2 * i + 1]
    }
    if (light <= 0) continue
    const [x, y] = basisAround(start.normal)
    for (let axis = 0; axis < 3; axis++) leans[3 * row + axis] = (STEP * (along * x[axis] + across * y[axis])) / light
  }
  return leans
}

function luminances(values: Float32Array): Float32Array {
  const [r, g, b] = [luminanceFromSrgb([1, 0, 0]), luminanceFromSrgb([0, 1, 0]), luminanceFromSrgb([0, 0, 1])]
  const found = new Float32Array(values.length / 3)
  for (let i = 0; i < found.length; i++) found[i] = r * values[3 * i] + g * values[3 * i + 1] + b * values[3 * i + 2]
  return found
}
