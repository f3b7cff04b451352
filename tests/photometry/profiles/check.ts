import records from '../../../shared/emission-values.json' with { type: 'json' }
import { blockedByCylinder, type Cloth, type Emission, gatePass, luminanceOf } from '../../../src/photometry'
import { distance, dot, normalize, sobol, subtract, type Vec3 } from '../../../src/space'
import type { Measures } from './measure'

/** A record of shared/emission-values.json; where the figures come from: shared/emission-values.md. */
export interface ValueRecord {
  readonly id: string
  readonly statement: string
  // biome-ignore lint/suspicious/noExplicitAny: the records differ in shape, each check knows its own
  readonly inputs: any
  // biome-ignore lint/suspicious/noExplicitAny: as above
  readonly expected: any
  readonly tolerance: number | string
  readonly how: string
}

export const RECORDS: readonly ValueRecord[] = records

export interface Comparison {
  readonly what: string
  readonly got: number
  readonly expected: number
  /** Absolute. */
  readonly tolerance: number
}

export const within = (what: string, got: number, expected: number, tolerance: number): Comparison => ({
  what,
  got,
  expected,
  tolerance,
})
export const near = (what: string, got: number, expected: number, share: number): Comparison =>
  within(what, got, expected, Math.abs(expected) * share)
export const rows = (what: string, got: readonly number[], expected: readonly number[], tolerance: number) =>
  got.map((value, i) => within(`${what} [${i}]`, value, expected[i], tolerance))

/** by: the way by which light is measured. */
export type Check = (record: ValueRecord, by: Measures) => readonly Comparison[]

export const FACING: Vec3 = [0, 0, -1]

/** Flux route: points thrown by the lamp, each asked how bright it looks from the receiver. Sobol, unscrambled. */
export function irradianceByFlux(emission: Emission, at: Vec3, normal: Vec3 = FACING, count = 4096): number {
  let sum = 0
  for (let i = 0; i < count; i++) {
    const lit = emission.sample([sobol(i, 0), sobol(i, 1), sobol(i, 2), sobol(i, 3)])
    if (!lit) continue
    const away = normalize(subtract(at, lit.point))
    const cosines = Math.max(0, dot(away, lit.normal)) * Math.max(0, -dot(away, normal))
    if (cosines === 0 || blockedByCylinder(lit.point, at, emission.blockers)) continue
    const luminance = luminanceOf(lit, away) * gatePass(emission.gate, lit.point, away)
    sum += (luminance * cosines * lit.areaM2) / distance(at, lit.point) ** 2
  }
  return sum / count
}

const NO_FORWARD = { forward: 0, forwardExponent: 1 }
export const mattCloth = (rho: number): Cloth => ({
  ...NO_FORWARD,
  diffuse: rho,
  specular: 0,
  roughness: 1,
  exchange: rho,
})
export const silverCloth = (roughness: number): Cloth => ({
  ...NO_FORWARD,
  diffuse: 0,
  specular: 0.88,
  roughness,
  exchange: 0,
})
export const translucentCloth = (tau: number, rho: number): Cloth => ({
  ...NO_FORWARD,
  diffuse: tau,
  specular: 0,
  roughness: 1,
  exchange: rho,
})
