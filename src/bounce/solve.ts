import type { Rgb } from '../photometry'
import type { HitLists } from './lists'
import { SETTLED } from './quality'

/** A room of ρ 0.98 needs about 200. */
const MOST_SWEEPS = 400

/**
 * Mean of the listed values over the valid rays of a row, three bands into out at 3·to. values: as a Solution's radiosity. Two sums by
 * turns, of the even rays and of the odd ones, as no sum then waits for the one before: a sixth faster.
 */
export function listMean(
  { hits, rays, valid }: HitLists,
  row: number,
  values: Float32Array,
  out: Float32Array,
  to: number,
): void {
  let [r, g, b, oddR, oddG, oddB] = [0, 0, 0, 0, 0, 0]
  const end = (row + 1) * rays
  let i = row * rays
  for (; i + 1 < end; i += 2) {
    const k = 3 * hits[i]
    r += values[k]
    g += values[k + 1]
    b += values[k + 2]
    const odd = 3 * hits[i + 1]
    oddR += values[odd]
    oddG += values[odd + 1]
    oddB += values[odd + 2]
  }
  if (i < end) {
    r += values[3 * hits[i]]
    g += values[3 * hits[i] + 1]
    b += values[3 * hits[i] + 2]
  }
  const share = valid[row] > 0 ? 1 / valid[row] : 0
  out[3 * to] = (r + oddR) * share
  out[3 * to + 1] = (g + oddG) * share
  out[3 * to + 2] = (b + oddB) * share
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

/** Slower than this sweeps do not tell where they will end. */
const SLOWEST = 0.98

/**
 * B = ρ(E + mean of B over the list), by Gauss and Seidel's sweeps: all bounces at once. reflected: ρ·E of each element,
 * three bands; what leaves an element before the first sweep. Every second sweep is carried on to where its change would end if each
 * further sweep brought the same share of the one before (Aitken's extrapolation, with one share for all).
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
  let lastChange = 0
  for (; sweeps < MOST_SWEEPS; sweeps++) {
    const before = sweeps % 2 === 1 ? radiosity.slice(0, 3 * count) : null
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
    const share = change / lastChange
    lastChange = change
    if (!before || share > SLOWEST) continue
    for (let k = 0; k < 3 * count; k++) radiosity[k] += (share / (1 - share)) * (radiosity[k] - before[k])
    for (let element = 0; element < count; element++) show(element)
  }
  return { radiosity, arrived, sweeps }
}
