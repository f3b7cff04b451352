import type { Vec3 } from '../../space'
import { dot } from '../../space'
import type { LitPoint } from '../emission'

/**
 * Luminance of a lit point in a unit direction away from it, 1/m² (per cd·s of the head): matt part, glossy part,
 * forward lobe and beam. Gate and blockers are not in it. Zero behind the surface.
 */
export function luminanceOf(lit: LitPoint, direction: Vec3): number {
  const cosO = dot(lit.normal, direction)
  if (cosO <= 0) return 0
  let luminance = lit.diffuse
  if (lit.specular > 0) luminance += lit.specular * ggx(lit.normal, lit.incident, direction, lit.alpha)
  if (lit.forward > 0) luminance += lit.forward * forwardLobe(-dot(lit.incident, direction), cosO, lit.forwardExponent)
  if (lit.beam > 0) luminance += lit.beam * cosO ** (lit.beamExponent - 1)
  return luminance
}

/**
 * Microfacet reflection D·G₂/(4 cosθi cosθo) of a metal with F = 1, in 1/sr.
 * D: GGX, [Walter2007] eq. 33. G₂: height-correlated Smith, [Heitz2014] eq. 99. α is the width itself, not r = √α.
 * D's denominator (n·h)²(α²−1)+1 is written α²(n·h)² + |n×h|², because the first form loses all digits near n·h = 1.
 */
export function ggx(normal: Vec3, incident: Vec3, direction: Vec3, alpha: number): number {
  const cosI = dot(normal, incident)
  const cosO = dot(normal, direction)
  if (cosI <= 0 || cosO <= 0) return 0
  const hx = incident[0] + direction[0]
  const hy = incident[1] + direction[1]
  const hz = incident[2] + direction[2]
  const hh = hx * hx + hy * hy + hz * hz
  const nh = normal[0] * hx + normal[1] * hy + normal[2] * hz
  const cx = normal[1] * hz - normal[2] * hy
  const cy = normal[2] * hx - normal[0] * hz
  const cz = normal[0] * hy - normal[1] * hx
  const a2 = alpha * alpha
  const spread = (a2 * nh * nh + cx * cx + cy * cy + cz * cz) / hh
  const d = a2 / (Math.PI * spread * spread)
  const masking = cosO * Math.sqrt(a2 + (1 - a2) * cosI * cosI) + cosI * Math.sqrt(a2 + (1 - a2) * cosO * cosO)
  return (d * 0.5) / masking
}

/**
 * Part of transmitted light that keeps its direction, spread as cos^m about it: (m+1)/(2π)·cos^m γ/cosθo, in 1/sr.
 * Divided by cosθo so that intensity, not luminance, follows cos^m; the flux of a whole lobe is 1. γ from the direction of travel.
 * m 11 (20° half width): common practice, no source.
 */
export function forwardLobe(cosGamma: number, cosO: number, exponent: number): number {
  return cosGamma > 0 ? ((exponent + 1) / (2 * Math.PI)) * (cosGamma ** exponent / cosO) : 0
}

type Four = readonly [number, number, number, number]

/**
 * A lit point as the shader reads it (lobeLuminance in emission.glsl), with all that does not depend on the direction
 * done beforehand. cosI: of the light that falls on it. lobes: matt part, glossy part × α²/2π, α², the masking's root on
 * the incident side. beams: forward part × (m+1)/2π, m, beam, n − 1.
 */
export function packLobes(lit: LitPoint): { readonly cosI: number; readonly lobes: Four; readonly beams: Four } {
  const cosI = dot(lit.normal, lit.incident)
  const a2 = lit.alpha * lit.alpha
  const glossy = cosI > 0 ? (lit.specular * a2) / (2 * Math.PI) : 0
  return {
    cosI,
    lobes: [lit.diffuse, glossy, a2, Math.sqrt(a2 + (1 - a2) * cosI * cosI)],
    beams: [
      (lit.forward * (lit.forwardExponent + 1)) / (2 * Math.PI),
      lit.forwardExponent,
      lit.beam,
      lit.beamExponent - 1,
    ],
  }
}

/** A lit point with every part dark: profiles spread it and fill in what they have. */
export const DARK = {
  diffuse: 0,
  incident: [0, 0, 1] as Vec3,
  specular: 0,
  alpha: 1,
  forward: 0,
  forwardExponent: 1,
  beam: 0,
  beamExponent: 1,
}
