import { addScaled, dot, scale, type Vec3 } from '../space'
import { fresnelNormal } from './fresnel'

/** Reflectance of a hair's surface at normal incidence: keratin, n = 1.55 [Wortmann03], [Marschner03]. */
export const HAIR_F0 = fresnelNormal(1.55)

/** By how much the cuticle's scales lean, their edges to the tip: about 2.5° [Wortmann03], in radians. */
export const CUTICLE_TILT = (2.5 * Math.PI) / 180

/**
 * Spread of the highlight along the strand: standard deviation of the half-way angle, 5° to 10° [Marschner03] (table 1, from
 * memory), its middle in radians.
 */
export const HIGHLIGHT_SPREAD = (7.5 * Math.PI) / 180

/**
 * Roughness r (α = r²) of the lobe that is half as bright at the same angle as a Gaussian of that spread: at sin θ =
 * α·√(√2 − 1) against √(2 ln 2)·σ.
 */
export const HAIR_ROUGHNESS = Math.sqrt((Math.sqrt(2 * Math.log(2)) * HIGHLIGHT_SPREAD) / Math.sqrt(Math.SQRT2 - 1))

/** Mean of the tones with which hair is painted: factors on its reflectance, less where locks lie over each other. */
export const MEAN_HAIR_TONE = 0.72
const MOST_OPEN = 1.8
/**
 * Of what a closed row of strands mirrors, what gets out of a mass of them: the rest meets strands that stand above. By eye, so that dark
 * hair as a whole gives back as much as measured (from memory: 3 to 6 % of diffuse light, gloss and body together).
 */
export const HAIR_LEAVES_MASS = 0.5

/**
 * Factor on the gloss of hair: what gets out of the mass of it, and what reaches a place past the locks beside it, as its painted
 * reflectance over that of the hair tells. What hides a lock's body from the light hides its gloss. By eye: no source.
 */
export const hairOpen = (painted: number, reflectance: number): number =>
  HAIR_LEAVES_MASS * Math.min(MOST_OPEN, painted / (MEAN_HAIR_TONE * reflectance))

/** Share of a highlight that comes back from within the strands, in their colour [Marschner03]; how much by eye. */
const THROUGH_STRANDS = 0.5

/** Factor on the gloss of hair, per band: what strands let through and throw back is of their colour, what their surface mirrors white. */
export const hairGlossTint = (reflectance: Vec3): Vec3 => {
  const most = Math.max(...reflectance)
  return [0, 1, 2].map((k) => 1 + THROUGH_STRANDS * (reflectance[k] / most - 1)) as unknown as Vec3
}

/**
 * Sine by which strands at a place face other ways than the surface that is drawn: round ones face all ways, and their
 * neighbours hide the most of that. By eye: by the surface alone a hard key's light ends in torn flakes along the locks.
 */
export const STRAND_SPREAD = 0.5

/** Mean of max(0, cosine + u), u even from −STRAND_SPREAD to STRAND_SPREAD: by what light falls on strands where the surface has that cosine. */
export function strandCosine(cosine: number): number {
  if (cosine >= STRAND_SPREAD) return cosine
  return Math.max(0, cosine + STRAND_SPREAD) ** 2 / (4 * STRAND_SPREAD)
}

/**
 * Reflection at the surface of strands that lie side by side, for F = 1, in 1/sr: the D·G₂/(4 cosθi cosθo) of a stretched
 * GGX, [Heitz2014] eq. 85 and 99, of width α along the strand and 1 across it. Across, that is no guess: the normals of
 * round strands in a closed row have the slopes of GGX of width 1, ½(1 + s²)^(−3/2). All of it then depends on angles to the
 * strand, which leans by the cuticle's tilt and so shifts the highlight towards the roots.
 * strand: unit, along the surface, from root to tip; square to the normal. Cosines to the normal are those of STRAND_SPREAD.
 */
export function hairLobe(normal: Vec3, strand: Vec3, incident: Vec3, direction: Vec3, alpha: number): number {
  const [c, s] = [Math.cos(CUTICLE_TILT), Math.sin(CUTICLE_TILT)]
  const n = addScaled(scale(normal, c), strand, -s)
  const t = addScaled(scale(strand, c), normal, s)
  const cosI = strandCosine(dot(n, incident))
  const cosO = strandCosine(dot(n, direction))
  if (cosI <= 0 || cosO <= 0) return 0
  const a2 = alpha * alpha
  const rest = 1 - a2
  const [alongI, alongO] = [dot(t, incident), dot(t, direction)]
  const hh = 2 + 2 * dot(incident, direction)
  const along = alongI + alongO
  const spread = a2 * hh + rest * along * along
  const d = (alpha * a2 * hh * hh) / (Math.PI * spread * spread)
  const masking = cosO * Math.sqrt(1 - rest * alongI * alongI) + cosI * Math.sqrt(1 - rest * alongO * alongO)
  return (d * 0.5) / masking
}
