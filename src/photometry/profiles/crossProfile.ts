import type { Vec3 } from '../../space'
import { addScaled, dot, normalize, subtract } from '../../space'
import type { Emission } from '../emission'
import type { Metres, Stops } from '../units'
import { type Arrival, arrivals } from './irradiance'

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
  const seen = arrivals(emission, viewPoint, n)
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

/** A weighted spread of numbers: its ends, and the number below which a share of the weight lies. */
function spread(entries: readonly { readonly x: number; readonly weight: number }[]) {
  const sorted = entries.toSorted((a, b) => a.x - b.x)
  const total = sorted.reduce((sum, { weight }) => sum + weight, 0)
  const last = sorted[sorted.length - 1].x
  const below = (share: number) => {
    let sum = 0
    for (const { x, weight } of sorted) {
      sum += weight
      if (sum >= share * total) return x
    }
    return last
  }
  return { first: sorted[0].x, last, below }
}

/** From the view point to the middle of the light, square to the across axis. */
function viewAxis(seen: readonly Arrival[], across: Vec3): Vec3 {
  const middle = seen.reduce<Vec3>((sum, { towards, facing }) => addScaled(sum, towards, facing), [0, 0, 0])
  return normalize(addScaled(middle, across, -dot(middle, across)))
}

/** Diameter about the axis that holds this share of the light a point receives: how much of the canopy works. */
export function litDiameter(emission: Emission, viewPoint: Vec3, share = 0.9, n = 96): Metres {
  const seen = arrivals(emission, viewPoint, n)
  return (
    2 * spread(seen.map(({ point, facing }) => ({ x: Math.hypot(point[0], point[1]), weight: facing }))).below(share)
  )
}

/** Diameter of the even disc in the plane of the face that spreads the light about the axis alike, as seen from a point: √8·rms. */
export function momentDiameter(emission: Emission, viewPoint: Vec3, n = 96): Metres {
  const seen = arrivals(emission, viewPoint, n)
  const total = seen.reduce((sum, { facing }) => sum + facing, 0)
  const square = seen.reduce((sum, { towards: [x, y, z], facing }) => sum + (facing * (x * x + y * y)) / (z * z), 0)
  return viewPoint[2] * Math.sqrt((8 * square) / total)
}

/** Stops by which the middle of the face is brighter than its rim, seen from a local point, blockers left out. */
export function hotCentreStops(emission: Emission, viewPoint: Vec3): Stops {
  const seen = (u: number) => {
    const place = emission.at(u, 0)
    return emission.luminance(place, normalize(subtract(viewPoint, place.point)))
  }
  return Math.log2(seen(0) / seen(0.9999))
}
