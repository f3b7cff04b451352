/**
 * Luminous reflectance of common surfaces, for diffuse light: starting values for rooms and backdrops, ±0.1 between
 * samples. [OsramReflection] except where a line says otherwise.
 */
export const SURFACE_REFLECTANCE = {
  'white paint': 0.8,
  plaster: 0.8,
  'white tiles': 0.7,
  'light yellow': 0.7,
  'light grey': 0.4,
  'light brown': 0.3,
  'mid grey': 0.2,
  black: 0.1,
  concrete: 0.3,
  'red brick': 0.2,
  /** [GrumLuckey68] */
  'barium sulphate powder': 0.995,
  'barium sulphate paint': 0.992,
  /** Pressed powder, 400 to 700 nm [WeidnerHsia81] */
  ptfe: 0.99,
  /** From memory of lighting handbooks */
  'white paper': 0.8,
  /** Evaporated, at normal incidence: upper bounds for silvered cloth [CRC] */
  aluminium: 0.91,
  silver: 0.96,
} as const
