/**
 * Light that enters skin comes out some way off, red the farthest. How far, of pale skin: diffuse mean free paths from its
 * scattering and absorption as measured by [Jensen01], in the profile that [Christensen15] fitted to simulated scattering.
 * Lengths in millimetres; bands red, green, blue.
 */
import type { Rgb } from './units'

/** Reduced scattering, absorption, 1/mm, and diffuse reflectance of "skin1" [Jensen01, table 1]. */
const REDUCED_SCATTERING = [0.74, 0.88, 1.01] as const
const ABSORPTION = [0.032, 0.17, 0.48] as const
const REFLECTANCE = [0.44, 0.22, 0.13] as const
/** Beyond so far a face is no plane any more: what goes farther, a tenth of red, is shared out among the rest. */
export const SCATTER_REACH_MM = 4

/** 1/√(3 σa (σa + σs′)). */
export const diffuseMeanFreePath = (band: number): number =>
  1 / Math.sqrt(3 * ABSORPTION[band] * (ABSORPTION[band] + REDUCED_SCATTERING[band]))

/** Lengths of the profile: the path over the fit's own scale, for light that enters as if diffuse [Christensen15]. */
const LENGTHS = [0, 1, 2].map((band) => diffuseMeanFreePath(band) / (3.5 + 100 * (REFLECTANCE[band] - 0.33) ** 4))

/** Share of the light that comes out within a distance: of a profile (e^(−r/d) + e^(−r/3d))/(8π d r), in closed form. */
const within = (d: number, r: number): number => 1 - 0.25 * Math.exp(-r / d) - 0.75 * Math.exp(-r / (3 * d))

/** The same of what stays within reach. */
export const scatteredWithin = (band: number, r: number): number =>
  within(LENGTHS[band], Math.min(r, SCATTER_REACH_MM)) / within(LENGTHS[band], SCATTER_REACH_MM)

/** Of the mean of the bands, and where it comes to a share. */
const meanWithin = (r: number): number => (scatteredWithin(0, r) + scatteredWithin(1, r) + scatteredWithin(2, r)) / 3

function radiusAt(share: number): number {
  let [low, high] = [0, SCATTER_REACH_MM]
  for (let i = 0; i < 40; i++) {
    const r = (low + high) / 2
    if (meanWithin(r) < share) low = r
    else high = r
  }
  return (low + high) / 2
}

export interface ScatterPlace {
  /** From where light comes out to where it came in, along the skin. */
  readonly x: number
  readonly y: number
  /** How much it counts, per band: 1 in the mean over all places. */
  readonly share: Rgb
}

/** Full turns by the golden ratio spread best whatever their count. */
const GOLDEN_TURN = Math.PI * (3 - Math.sqrt(5))

/** Places for so many light samples: rings that carry as much of the bands' mean each, every band by what comes in of it there. */
export function scatterPlaces(count: number): readonly ScatterPlace[] {
  return Array.from({ length: count }, (_, i): ScatterPlace => {
    const [from, to] = [radiusAt(i / count), radiusAt((i + 1) / count)]
    const r = radiusAt((i + 0.5) / count)
    const share = [0, 1, 2].map((k) => count * (scatteredWithin(k, to) - scatteredWithin(k, from)))
    return {
      x: r * Math.cos(i * GOLDEN_TURN),
      y: r * Math.sin(i * GOLDEN_TURN),
      share: [share[0], share[1], share[2]],
    }
  })
}
