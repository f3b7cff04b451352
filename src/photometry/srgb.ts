/**
 * The sRGB transfer curve, IEC 61966-2-1 [sRGB]: for one channel,
 *     s = 12.92·v for v ≤ 0.0031308, else 1.055·v^(1/2.4) − 0.055.
 * The two branches meet to 1e-8, not exactly: the standard's own rounding, kept.
 */
export const srgbFromLinear = (linear: number): number =>
  linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055

/** The other way; an 8-bit code goes in as code/255. */
export const linearFromSrgb = (encoded: number): number =>
  encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4
