import type { Vec3 } from '../../space'
import { addScaled, dot, normalize } from '../../space'
import type { Emission, SurfacePoint } from '../emission'
import { type Arrival, arrivalsFrom, patchesOf } from './irradiance'

/** How the light of a source is spread across an axis, as seen from a point. Slopes: across over along, so width on a screen = slope × gap. */
export interface CrossProfile {
  /** Shadow width behind an edge at the view point, per metre of gap, on a surface facing the source. */
  readonly fullPerGap: number
  readonly tenToNinetyPerGap: number
  /** Slope below which the share q (0 to 1) of the light comes. */
  slopeAt(share: number): number
}

/**
 * The penumbra of a straight edge is the running sum of the source across it. viewPoint: the edge, local. acrossAxis: unit,
 * local, square to the edge. An edge at gap b before the skin then draws a line of full width fullPerGap·b.
 */
export function crossProfile(emission: Emission, viewPoint: Vec3, acrossAxis: Vec3, n = 96): CrossProfile {
  const seen = arrivalsFrom(emission, patchesOnce(emission, n), viewPoint)
  if (seen.length === 0)
    throw new Error(`photometry.crossProfile: no light of this source reaches [${viewPoint.join(', ')}]`)
  const along = viewAxis(seen, acrossAxis)
  const slopes = spread(
    seen.map(({ towards, facing }) => ({ x: dot(towards, acrossAxis) / dot(towards, along), weight: facing })),
  )
  return {
    fullPerGap: slopes.last - slopes.first,
    tenToNinetyPerGap: slopes.below(0.9) - slopes.below(0.1),
    slopeAt: slopes.below,
  }
}

/** Of grids that readings ask for again and again, with what the lamp does there. */
const KEPT = new WeakMap<Emission, Map<number, readonly SurfacePoint[]>>()
const KEPT_UP_TO = 40

function patchesOnce(emission: Emission, n: number): readonly SurfacePoint[] {
  if (n > KEPT_UP_TO) return patchesOf(emission, n, true)
  const known = KEPT.get(emission) ?? new Map<number, readonly SurfacePoint[]>()
  KEPT.set(emission, known)
  const found = known.get(n)
  if (found) return found
  const made = patchesOf(emission, n, true)
  for (const patch of made) emission.keep?.(patch)
  known.set(n, made)
  return made
}

/**
 * A weighted spread of numbers: its ends, and the number below which a share of the weight lies. Half of an entry's own
 * weight lies below it; in between the running sum is a straight line.
 */
function spread(entries: readonly { readonly x: number; readonly weight: number }[]) {
  const sorted = entries.toSorted((a, b) => a.x - b.x)
  const total = sorted.reduce((sum, { weight }) => sum + weight, 0)
  const first = sorted[0].x
  const last = sorted[sorted.length - 1].x
  const below = (share: number) => {
    let sum = 0
    let before = { x: first, sum: 0 }
    for (const { x, weight } of sorted) {
      const here = { x, sum: sum + weight / 2 }
      if (here.sum >= share * total)
        return before.x + ((here.x - before.x) * (share * total - before.sum)) / (here.sum - before.sum)
      sum += weight
      before = here
    }
    return last
  }
  return { first, last, below }
}

/** From the view point to the middle of the light, square to the across axis. */
function viewAxis(seen: readonly Arrival[], across: Vec3): Vec3 {
  const middle = seen.reduce<Vec3>((sum, { towards, facing }) => addScaled(sum, towards, facing), [0, 0, 0])
  return normalize(addScaled(middle, across, -dot(middle, across)))
}
