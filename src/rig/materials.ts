import type { Rgb } from '../photometry'
import type { Panel } from '../sitting'
import type { Material } from './types'

export const grey = (reflectance: number): Rgb => [reflectance, reflectance, reflectance]
export const matt = (albedo: Rgb): Material => ({ kind: 'matt', albedo })

/** Smooth silver foil: mean reflectance of the metallised cloth. Band 0.85 to 0.91 (evaporated aluminium 0.91); practice. */
const SILVER_F0 = 0.88
/** Crumpled gold against silver, linear RGB: luminance × 0.79, a third of a stop. Practice, no citable source. */
const GOLD_TINT: Rgb = [1, 0.77, 0.34]
const GOLD_F0: Rgb = [SILVER_F0 * GOLD_TINT[0], SILVER_F0 * GOLD_TINT[1], SILVER_F0 * GOLD_TINT[2]]

/** Cloth of a panel, the same on both sides. White 0.85 and black 0.04: painted board and black flag, practice. */
export const PANEL_MATERIALS: Readonly<Record<Panel['kind'], Material>> = {
  white: matt(grey(0.85)),
  silver: { kind: 'metal', f0: grey(SILVER_F0), roughness: 0.3 },
  gold: { kind: 'metal', f0: GOLD_F0, roughness: 0.5 },
  black: matt(grey(0.04)),
  // Second-surface glass: practice, 0.85 to 0.9.
  mirror: { kind: 'metal', f0: grey(SILVER_F0), roughness: 0 },
  'gold mirror': { kind: 'metal', f0: GOLD_F0, roughness: 0 },
}

export const BLACK = PANEL_MATERIALS.black
