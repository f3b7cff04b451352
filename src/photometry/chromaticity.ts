import type { Vec3 } from '../space'

/** CIE 1931 x, y. */
export type Chromaticity = readonly [number, number]

/** Standard illuminants, 2° observer [CIE15]; D65 as sRGB rounds it [sRGB]. */
export const WHITE = {
  A: [0.44757, 0.40745],
  D50: [0.34567, 0.3585],
  D55: [0.33242, 0.34743],
  D65: [0.31271, 0.32902],
  D65_SRGB: [0.3127, 0.329],
  E: [1 / 3, 1 / 3],
} as const satisfies Record<string, Chromaticity>

/** XYZ of luminance 1: X = x/y, Z = (1 − x − y)/y. y > 0. */
export const xyzFromChromaticity = ([x, y]: Chromaticity): Vec3 => [x / y, 1, (1 - x - y) / y]

export const chromaticityFromXyz = ([x, y, z]: Vec3): Chromaticity => [x / (x + y + z), y / (x + y + z)]

/** CIE 1960 u, v, in which the nearest point of the locus is looked for [CIE15]. */
export const uv1960 = ([x, y]: Chromaticity): Chromaticity => {
  const below = -2 * x + 12 * y + 3
  return [(4 * x) / below, (6 * y) / below]
}
