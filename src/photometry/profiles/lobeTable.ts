import type { Vec3 } from '../../space'
import { dot, normalize, subtract } from '../../space'
import type { Cylinder, Emission, Gate, LitPoint, LitSurface, SurfacePoint } from '../emission'
import type { Steradians } from '../units'
import { withIntegratedFlux } from './flux'
import { gatePass, mattThroughCells, mattThroughComb, OPEN } from './gates'
import { DARK, forwardLobe } from './lobes'
import { areaOf, pointOn } from './surfaces'

export interface LobeTable {
  readonly surface: Extract<LitSurface, { shape: 'rectangle' | 'octagon' | 'disc' }>
  /** Relative luminance at local x, y; only its shape counts. */
  readonly relative: (xM: number, yM: number) => number
  /** Mean of relative over the surface, where it is known: a sum over cells blurs a jump. */
  readonly mean?: number
  /** Through the whole surface, before the gate. */
  readonly flux: Steradians
  /** Share of the light that keeps its direction, its exponent m, and where the light comes from. */
  readonly forward?: { readonly share: number; readonly exponent: number; readonly lamp: Vec3 }
  readonly gate?: Gate
  readonly blockers?: readonly Cylinder[]
}

const CELLS = 32
const NO_LOBE = { share: 0, exponent: 1, lamp: [0, 0, -1] as Vec3 }

/** A flat cloth with a luminance profile over its face: soft boxes. Sampled by a table of cells, evaluated by the profile itself. */
export function lobeTable(parameters: LobeTable): Emission {
  const { surface, relative, mean, flux, forward = NO_LOBE, gate = OPEN, blockers = [] } = parameters
  const at = (u: number, v: number) => pointOn(surface, u, v)
  const exitance = flux / (mean ?? meanOver(at, relative)) / areaOf(surface)
  const exitanceAt = (point: Vec3) => exitance * relative(point[0], point[1])
  const incidentAt = (point: Vec3) => normalize(subtract(forward.lamp, point))
  const luminance = (place: SurfacePoint, direction: Vec3): number => {
    const cosO = dot(place.normal, direction)
    const pass = cosO > 0 ? gatePass(gate, place.point, direction) : 0
    if (pass === 0) return 0
    const matt = (1 - forward.share) / Math.PI
    if (forward.share === 0) return pass * exitanceAt(place.point) * matt
    const lobe = forwardLobe(-dot(incidentAt(place.point), direction), cosO, forward.exponent)
    return pass * exitanceAt(place.point) * (matt + forward.share * lobe)
  }
  const lit = (place: SurfacePoint): LitPoint => ({
    ...DARK,
    ...place,
    diffuse: (exitanceAt(place.point) * (1 - forward.share)) / Math.PI,
    incident: incidentAt(place.point),
    forward: exitanceAt(place.point) * forward.share,
    forwardExponent: forward.exponent,
  })
  const sampler = cellSampler(at, relative)
  const sample: Emission['sample'] = ([u, v]) => {
    const cell = sampler(u, v)
    const place = at(cell.u, cell.v)
    return lit({ ...place, areaM2: place.areaM2 / cell.density })
  }
  const base: Omit<Emission, 'flux'> = {
    profile: 'lobe-table',
    surface,
    gate,
    blockers,
    at,
    luminance,
    sample,
    spread: sample,
  }
  if (forward.share > 0) return withIntegratedFlux(base)
  if (gate.kind === 'open') return { ...base, flux }
  if (gate.kind === 'cells') return { ...base, flux: flux * mattThroughCells(gate.depthOverWidth) }
  if (gate.kind === 'honeycomb') return { ...base, flux: flux * mattThroughComb(gate) }
  return withIntegratedFlux(base)
}

type Place = (u: number, v: number) => SurfacePoint

/** Even steps, not Gauss: a table's shape may jump from cell to cell. 72 is a multiple of most tables' counts. */
function meanOver(at: Place, relative: LobeTable['relative'], n = 72): number {
  let sum = 0
  for (let k = 0; k < n * n; k++) {
    const [x, y] = at(((k % n) + 0.5) / n, (Math.floor(k / n) + 0.5) / n).point
    sum += relative(x, y)
  }
  return sum / (n * n)
}

/** Inverts the cumulative sums of a CELLS × CELLS table; density is relative to even sampling. */
function cellSampler(at: Place, relative: LobeTable['relative']) {
  const rows = Array.from({ length: CELLS }, (_, j) =>
    cumulative((i) => {
      const value = (du: number, dv: number) => {
        const [x, y] = at((i + du) / CELLS, (j + dv) / CELLS).point
        return relative(x, y)
      }
      // A cell that is dark in its middle may be lit at an edge, as where a hole ends.
      return value(0.5, 0.5) || Math.max(value(0.05, 0.5), value(0.95, 0.5), value(0.5, 0.05), value(0.5, 0.95))
    }),
  )
  const column = cumulative((j) => rows[j].total)
  return (u: number, v: number) => {
    const row = column.invert(v)
    const cell = rows[row.index].invert(u)
    return { u: cell.at, v: row.at, density: cell.density * row.density }
  }
}

function cumulative(value: (index: number) => number) {
  const sums = new Float64Array(CELLS + 1)
  for (let i = 0; i < CELLS; i++) sums[i + 1] = sums[i] + value(i)
  const total = sums[CELLS]
  const invert = (u: number) => {
    const target = u * total
    let [low, high] = [0, CELLS - 1]
    while (low < high) {
      const middle = (low + high + 1) >> 1
      if (sums[middle] <= target) low = middle
      else high = middle - 1
    }
    const weight = sums[low + 1] - sums[low]
    return { index: low, at: (low + (target - sums[low]) / weight) / CELLS, density: (weight / total) * CELLS }
  }
  return { total, invert }
}
