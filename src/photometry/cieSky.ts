import { CIE_SKY_TYPES, type CieSkyType } from './data/cieSkyTypes'
import { gaussLegendre } from './profiles/quadrature'
import type { Radians } from './units'

/**
 * CIE standard general sky [CIES011]: luminance relative to the zenith's,
 *     L/Lz = f(χ)·φ(Z) / (f(Zs)·φ(0)),
 * Z the angle from the zenith, Zs the sun's, χ the angle from the sun. Without the sun itself.
 */
export const cieGradation = ([a, b]: CieSkyType, zenithAngle: Radians): number =>
  1 + a * Math.exp(b / Math.cos(zenithAngle))

export const cieIndicatrix = ([, , c, d, e]: CieSkyType, fromSun: Radians): number =>
  1 + c * (Math.exp(d * fromSun) - Math.exp((d * Math.PI) / 2)) + e * Math.cos(fromSun) ** 2

/** Angle between two directions of the sky, given by zenith angles and the difference of azimuth. */
function skyAngle(zenithAngle: Radians, sunZenithAngle: Radians, azimuthFromSun: Radians): Radians {
  const cosine =
    Math.cos(sunZenithAngle) * Math.cos(zenithAngle) +
    Math.sin(sunZenithAngle) * Math.sin(zenithAngle) * Math.cos(azimuthFromSun)
  return Math.acos(Math.max(-1, Math.min(1, cosine)))
}

/** L/Lz of type 1 to 15 in a direction. */
export function cieSkyLuminance(
  type: number,
  zenithAngle: Radians,
  azimuthFromSun: Radians,
  sunZenithAngle: Radians,
): number {
  const sky = cieSkyType(type)
  const here =
    cieIndicatrix(sky, skyAngle(zenithAngle, sunZenithAngle, azimuthFromSun)) * cieGradation(sky, zenithAngle)
  return here / (cieIndicatrix(sky, sunZenithAngle) * cieGradation(sky, 0))
}

function cieSkyType(type: number): CieSkyType {
  const sky = CIE_SKY_TYPES[type - 1]
  if (!sky) throw new Error(`photometry.cieSkyLuminance: expected a type from 1 to 15, got ${type}`)
  return sky
}

/** E/Lz on level ground from the sky alone. */
export const cieSkyHorizontal = (type: number, sunZenithAngle: Radians): number =>
  integrate(type, sunZenithAngle, [0, Math.PI], (zenithAngle) => Math.cos(zenithAngle))

/** E/Lz on an upright surface that faces the sun's azimuth, or away from it; sky alone, no ground. */
export const cieSkyVertical = (type: number, sunZenithAngle: Radians, facing: 'sun' | 'away'): number =>
  integrate(
    type,
    sunZenithAngle,
    facing === 'sun' ? [0, Math.PI / 2] : [Math.PI / 2, Math.PI],
    (zenithAngle, azimuth) => Math.sin(zenithAngle) * Math.abs(Math.cos(azimuth)),
  )

/**
 * 2·∫∫ L/Lz·weight·sin Z dZ dα over one half of the sky; the other half is its mirror image in the sun's plane. Split
 * at the sun, where f has a point like a cone's tip: with that point in a corner, 64 Gauss nodes a side give 1e-7.
 */
function integrate(
  type: number,
  sun: Radians,
  [from, to]: readonly [Radians, Radians],
  weight: (zenithAngle: Radians, azimuth: Radians) => number,
): number {
  const rule = gaussLegendre(64)
  let sum = 0
  for (const [low, high] of [
    [0, sun],
    [sun, Math.PI / 2],
  ] as const)
    for (const z of rule)
      for (const a of rule) {
        const zenithAngle = low + (high - low) * z.x
        const azimuth = from + (to - from) * a.x
        const area = Math.sin(zenithAngle) * (high - low) * (to - from) * z.weight * a.weight
        sum += cieSkyLuminance(type, zenithAngle, azimuth, sun) * weight(zenithAngle, azimuth) * area
      }
  return 2 * sum
}
