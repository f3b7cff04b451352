import {
  type Arrival,
  arrivals,
  type CrossProfile,
  crossProfile,
  type Emission,
  irradianceAt,
  type Metres,
  type Steradians,
  type Stops,
} from '../../../src/photometry'
import { normalize, subtract, type Vec3 } from '../../../src/space'

/** A way to the light of a source at places of its own frame. n: points across the face, where the way doesn't choose them itself. */
export interface Route {
  /** 1/m². */
  readonly irradiance: (emission: Emission, at: Vec3, normal: Vec3, n?: number) => number
  readonly arrivals: (emission: Emission, at: Vec3, n?: number) => readonly Arrival[]
  /** Of a straight edge at a place on the axis. */
  readonly edge: (emission: Emission, at: Vec3, n?: number) => Pick<CrossProfile, 'fullPerGap' | 'tenToNinetyPerGap'>
}

/** Photometry's own quadrature over the lit surface. */
const AREA: Route = {
  irradiance: irradianceAt,
  arrivals,
  edge: (emission, at, n) => crossProfile(emission, at, [1, 0, 0], n),
}

const ON_AXIS = (distance: Metres): Vec3 => [0, 0, distance]
const FACING: Vec3 = [0, 0, -1]
const fromAxis = ({ point }: Arrival): Metres => Math.hypot(point[0], point[1])

/** What a shelf of modifiers is compared by: asked of every profile here, told nowhere in the program. */
export function measuresBy(route: Route) {
  const { irradiance, arrivals: arrivalsAt } = route

  /** Stops under the 65° dish at the same taped distance, on the axis, squared to it: −log₂(E·d²). Positive is darker. */
  const lossStops = (emission: Emission, distance: Metres, n = 64): Stops =>
    -Math.log2(irradiance(emission, ON_AXIS(distance), FACING, n) * distance ** 2)

  /** X = Φ_room/(E·d²): light thrown into the room per unit of face light. emissions: all that the modifier sends out, the face's first. */
  function roomFluxPerFaceLight(emissions: readonly Emission[], distance: Metres, n = 64): Steradians {
    const room = emissions.reduce((sum, emission) => sum + emission.flux, 0)
    return room / (irradiance(emissions[0], ON_AXIS(distance), FACING, n) * distance ** 2)
  }

  /** Full angle, in degrees, at which the intensity far away has fallen to half of that on the axis, in the x–z plane. */
  function halfPowerFullAngle(emission: Emission, n = 48): number {
    const far = 50
    const intensity = (angle: number) => {
      const at: Vec3 = [far * Math.sin(angle), 0, far * Math.cos(angle)]
      return irradiance(emission, at, [-Math.sin(angle), 0, -Math.cos(angle)], n)
    }
    const half = intensity(0) / 2
    let [low, high] = [0, Math.PI / 2]
    for (let step = 0; step < 14; step++) {
      const middle = (low + high) / 2
      if (intensity(middle) > half) low = middle
      else high = middle
    }
    return ((low + high) * 180) / Math.PI
  }

  /** Diameter about the axis that holds this share of the light a point receives: how much of the canopy works. */
  function litDiameter(emission: Emission, viewPoint: Vec3, share = 0.9, n = 96): Metres {
    const seen = arrivalsAt(emission, viewPoint, n)
    const outwards = seen.toSorted((a, b) => fromAxis(a) - fromAxis(b))
    const wanted = share * outwards.reduce((sum, { facing }) => sum + facing, 0)
    let sum = 0
    for (const patch of outwards) {
      sum += patch.facing
      if (sum >= wanted) return 2 * fromAxis(patch)
    }
    throw new Error('no light of this source reaches the view point')
  }

  /** Diameter of the even disc in the plane of the face that spreads the light about the axis alike, as seen from a point: √8·rms. */
  function momentDiameter(emission: Emission, viewPoint: Vec3, n = 96): Metres {
    const seen = arrivalsAt(emission, viewPoint, n)
    const total = seen.reduce((sum, { facing }) => sum + facing, 0)
    const square = seen.reduce((sum, { towards: [x, y, z], facing }) => sum + (facing * (x * x + y * y)) / (z * z), 0)
    return viewPoint[2] * Math.sqrt((8 * square) / total)
  }

  return { ...route, lossStops, roomFluxPerFaceLight, halfPowerFullAngle, litDiameter, momentDiameter }
}
export type Measures = ReturnType<typeof measuresBy>

export const BY_AREA: Measures = measuresBy(AREA)
export const { lossStops, halfPowerFullAngle } = BY_AREA

/** Stops by which the middle of the face is brighter than its rim, seen from a local point, blockers left out. */
export function hotCentreStops(emission: Emission, viewPoint: Vec3): Stops {
  const seen = (u: number) => {
    const place = emission.at(u, 0)
    return emission.luminance(place, normalize(subtract(viewPoint, place.point)))
  }
  return Math.log2(seen(0) / seen(0.9999))
}
