/** What an incident meter holds into the light: a flat disc or a dome. */
export type Receptor = 'disc' | 'dome'

/**
 * Share of a far source's normal illuminance that the receptor shows when the source stands at this cosine from its
 * axis. Flat disc: the cosine of illuminance itself. Dome: the ideal cardioid (1 + cosθ)/2 [ISO2720]; half at 90°,
 * nothing from behind; real domes come close.
 */
export const receptorResponse = (receptor: Receptor, cosine: number): number =>
  receptor === 'disc' ? Math.max(0, cosine) : (1 + cosine) / 2

/** ∫ response dω over the whole sphere: π for the disc, 2π for the dome. */
export const RECEPTOR_SOLID_ANGLE: Readonly<Record<Receptor, number>> = { disc: Math.PI, dome: 2 * Math.PI }

/** Cosine from the axis, distributed as the receptor responds: the inverse of its cumulative share, u in [0, 1). */
export const receptorCosine = (receptor: Receptor, u: number): number =>
  receptor === 'disc' ? Math.sqrt(1 - u) : 2 * Math.sqrt(1 - u) - 1
