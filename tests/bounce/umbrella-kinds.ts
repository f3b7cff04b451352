import { normalize, scale, type Vec3 } from '../../src/space'
import type { EmissionOrder } from '../browser/agreement-rigs'
import { type Umbrella, umbrellaIrradiance } from './canopy-quadrature'

/**
 * Umbrellas as they come, each with what it is in physics: canopy 0.95 m wide and 22 % deep, lamp 0.54 m from the apex in a dish
 * of 18 cm with half power at 32.5°, dish and body of the head in the light that is thrown back. Cloths: common practice, no source.
 */
export interface UmbrellaCase {
  readonly emission: EmissionOrder
  readonly umbrella: Umbrella
  readonly places: readonly Vec3[]
}

const [DEPTH_M, SHAFT_M] = [0.209, 0.54]
const SHAPE = {
  ...{ diameterM: 0.95, depthM: DEPTH_M, shaftM: SHAFT_M, lampRadiusM: 0.09 },
  ...{ exponent: Math.log(1 / 2) / Math.log(Math.cos((32.5 * Math.PI) / 180)), glossy: 0, roughness: 1 },
}
const LAMP_M = SHAFT_M - DEPTH_M
const HEAD = [
  { fromM: LAMP_M, toM: LAMP_M + 0.12, radiusM: 0.1 },
  { fromM: LAMP_M + 0.12, toM: LAMP_M + 0.42, radiusM: 0.065 },
]
const BEFORE: readonly Vec3[] = [
  [0, 0, 1],
  [0.1, 0, 1.5],
  [0.5, 0, 1],
  [0.3, 0.4, 1.5],
]
const BEYOND: readonly Vec3[] = [[0, 0, 0.35], ...BEFORE]

const reflected = (kind: string, cloth: Partial<Umbrella>, change = {}): UmbrellaCase => ({
  emission: { profile: 'kind', kind, change },
  umbrella: { ...SHAPE, matt: 0, onAxis: HEAD, ...cloth },
  places: BEFORE,
})
const through = (emission: EmissionOrder, matt: number, exchanging: number, forward = 0): UmbrellaCase => ({
  emission,
  umbrella: { ...SHAPE, matt, exchanging, through: { forward, exponent: 11 } },
  places: BEYOND,
})
const unbacked = { backing: 'translucent' }
const shootThrough = (forwardShare: number): EmissionOrder => ({
  ...{ profile: 'kind', kind: 'shoot-through-umbrella', change: { forwardShare } },
})

export const UMBRELLAS: Readonly<Record<string, UmbrellaCase>> = {
  silver: reflected('silver-umbrella', { glossy: 0.88, roughness: 0.5, exchanging: 0 }),
  'white, black outside': reflected('white-umbrella', { matt: 0.65, glossy: 0.2, roughness: 0.55, exchanging: 0.65 }),
  'white, matt': reflected('white-umbrella', { matt: 0.8 }, { cloth: 'matt' }),
  'white, translucent': reflected(
    'white-umbrella',
    { matt: 0.5, glossy: 0.15, roughness: 0.55, exchanging: 0.5 },
    unbacked,
  ),
  'back of white, translucent': through(
    { profile: 'kind', kind: 'white-umbrella', change: unbacked, emitter: 1 },
    0.25,
    0.5,
  ),
  'shoot-through': through(shootThrough(0), 0.6, 0.3),
  'shoot-through that keeps 30 % of its direction': through(shootThrough(0.3), 0.42, 0.3, 0.18),
}

/** Of a receptor that faces the lit face's centre, at each place of a case. */
export const facing = (place: Vec3): Vec3 => scale(normalize(place), -1)
export const bruteForce = ({ umbrella, places }: UmbrellaCase): readonly number[] =>
  places.map((place) => umbrellaIrradiance(umbrella, place, facing(place)))
