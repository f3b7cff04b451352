/** What an incident meter holds into the light: a flat disc, a dome, or a dome whose back a hand shades. */
export type Receptor = 'disc' | 'dome' | 'shaded dome'

/**
 * Share of a far source's normal illuminance that the receptor shows when the source stands at this cosine from its
 * axis. Flat disc: the cosine of illuminance itself. Dome: the ideal cardioid (1 + cosθ)/2 [ISO2720]; half at 90°,
 * nothing from behind; real domes come close. Shaded: the dome's, with all that lies more than 90° off kept away by a hand.
 */
export function receptorResponse(receptor: Receptor, cosine: number): number {
  if (receptor === 'disc') return Math.max(0, cosine)
  return receptor === 'dome' || cosine > 0 ? (1 + cosine) / 2 : 0
}

/** ∫ response dω over the whole sphere: π for the disc, 2π for the dome, 2π·∫₀¹(1 + c)/2 dc = 3π/2 for the shaded one. */
export const RECEPTOR_SOLID_ANGLE: Readonly<Record<Receptor, number>> = {
  disc: Math.PI,
  dome: 2 * Math.PI,
  'shaded dome': 1.5 * Math.PI,
}

/**
 * Cosine from the axis, distributed as the receptor responds: the inverse of its cumulative share, u in [0, 1). Shaded dome:
 * (4 − (1 + c)²)/3 of its response lies within the angle of cosine c.
 */
export function receptorCosine(receptor: Receptor, u: number): number {
  if (receptor === 'disc') return Math.sqrt(1 - u)
  return receptor === 'dome' ? 2 * Math.sqrt(1 - u) - 1 : Math.sqrt(4 - 3 * u) - 1
}
