import type { Rgb } from '../photometry'
import type { HitLists } from './lists'
import { SETTLED } from './quality'

/** A room of ρ 0.98 needs about 200. */
const MOST_SWEEPS = 400

/** Mean of the listed values over the valid rays of a row, three bands into out at 3·to. values: as a Solution's radiosity. */
export function listMean(
  { hits, rays, valid }: HitLists,
  row: number,
  values: Float32Array,
  out: Float32Array,
  to: number,
): void {
  let r = 0
  let g = 0
  let b = 0
  for (let i = row * rays; i < (row + 1) * rays; i++) {
    const k = 3 * hits[i]
    r += values[k]
    g += values[k + 1]
    b += values[k + 2]
  }
  const share = valid[row] > 0 ? 1 / valid[row] : 0
  out[3 * to] = r * share
  out[3 * to + 1] = g * share
  out[3 * to + 2] = b * share
}

export interface Solution {
  /** Radiosity of each element, three bands, a black triple for what gives no light, and the elements again as they show in a mirror. */
  readonly radiosity: Float32Array
  /** Irradiance that came by way of the lists, three bands an element. */
  readonly arrived: Float32Array
  readonly sweeps: number
}

interface Conditions {
  /** As a SolveQuality's. */
  readonly leastChange?: number
  /** Reflectance of each side of a mirror in which elements show. */
  readonly mirrors?: readonly (Rgb | null)[]
  /** What has left each element otherwise than evenly, three bands: only mirrors show it. */
  readonly thrown?: Float32Array | null
}

/**
 * B = ρ(E + mean of B over the list), by Gauss and Seidel's sweeps: all bounces at once. reflected: ρ·E of each element,
 * three bands; what leaves an element before the first sweep.
 */
export function solveRadiosity(
  lists: HitLists,
  reflectance: Float32Array,
  reflected: Float32Array,
  { leastChange = SETTLED.leastChange, mirrors = [], thrown = null }: Conditions = {},
): Solution {
  const count = reflected.length / 3
  const radiosity = new Float32Array(3 * (count + 1 + mirrors.length * count))
  radiosity.set(reflected)
  const show = (element: number): void => {
    for (const [side, f0] of mirrors.entries())
      for (let band = 0; f0 && band < 3; band++) {
        const k = 3 * element + band
        radiosity[3 * (count + 1 + side * count) + k] = f0[band] * (radiosity[k] + (thrown?.[k] ?? 0))
      }
  }
  for (let element = 0; element < count; element++) show(element)
  const arrived = new Float32Array(3 * count)
  let sweeps = 0
  for (; sweeps < MOST_SWEEPS; sweeps++) {
    let change = 0
    let total = 0
    for (let element = 0; element < count; element++) {
      listMean(lists, element, radiosity, arrived, element)
      for (let k = 3 * element; k < 3 * element + 3; k++) {
        const next = reflected[k] + reflectance[k] * arrived[k]
        change += Math.abs(next - radiosity[k])
        total += next
        radiosity[k] = next
      }
      show(element)
    }
    if (change <= leastChange * total) break
  }
  return { radiosity, arrived, sweeps }
}
