import type { Vec3 } from '../../space'
import { dot } from '../../space'
import type { Emission, SurfacePoint } from '../emission'
import { blockedByCylinder } from './segments'

const GOLDEN = (Math.sqrt(5) - 1) / 2
/** Of five irrationals tried beside it, the one that leaves the least gap across any direction of a square. */
const ROOT = Math.sqrt(3)

/** One patch of a source as it reaches a point: its own irradiance on a facing receiver there, and where it is. */
export interface Arrival {
  readonly point: Vec3
  /** L·cosθo·dA/d², 1/m². */
  readonly facing: number
  /** Unit, from the receiver to the patch. */
  readonly towards: Vec3
}

/**
 * Where the patches of an n × n grid lie on a source; the same for every point that looks at them. rowShift: rows are shifted as
 * well as columns, so that no direction across the source finds the points in n steps; a sum over them is a little less even.
 */
export function patchesOf(emission: Emission, n: number, rowShift = false): readonly SurfacePoint[] {
  // Each column is shifted by a golden step: rows in step with a blocker's round edge would miscount it by half a ring.
  return Array.from({ length: n * n }, (_, k) => {
    const [i, j] = [Math.floor(k / n), k % n]
    return emission.at((i + ((j * GOLDEN) % 1)) / n, (j + (rowShift ? (i * ROOT) % 1 : 0.5)) / n)
  })
}

/** Every patch of an n × n grid over the source, as seen from a local point; gate and blockers in, the set around it not. */
export const arrivals = (emission: Emission, at: Vec3, n = 64): readonly Arrival[] =>
  arrivalsFrom(emission, patchesOf(emission, n), at)

/** The same of patches that stand for as much of the source each. */
export function arrivalsFrom(emission: Emission, patches: readonly SurfacePoint[], at: Vec3): readonly Arrival[] {
  const found: Arrival[] = []
  for (const place of patches) {
    const dx = at[0] - place.point[0]
    const dy = at[1] - place.point[1]
    const dz = at[2] - place.point[2]
    const squared = dx * dx + dy * dy + dz * dz
    const k = 1 / Math.sqrt(squared)
    const away: Vec3 = [dx * k, dy * k, dz * k]
    const cosO = dot(away, place.normal)
    if (cosO <= 0 || blockedByCylinder(place.point, at, emission.blockers)) continue
    const facing = (emission.luminance(place, away) * cosO * place.areaM2) / (squared * patches.length)
    if (facing > 0) found.push({ point: place.point, facing, towards: [-away[0], -away[1], -away[2]] })
  }
  return found
}

/** E at a local point with a local unit normal, 1/m² (lx·s per cd·s): brute quadrature, without anything else in the set. */
export function irradianceAt(emission: Emission, at: Vec3, normal: Vec3, n = 64): number {
  let sum = 0
  for (const { facing, towards } of arrivals(emission, at, n)) sum += facing * Math.max(0, dot(towards, normal))
  return sum
}
