/**
 * What is added to a pixel's codes before they are rounded, so that no soft gradient breaks into bands: noise of triangular density
 * from −1 to 1, which leaves the mean and the variance of what rounding does the same at every level (Lipshitz, Wannamaker and
 * Vanderkooy 1992, Quantization and dither, J. Audio Eng. Soc. 40(5); from memory). A pattern of the pixel's place alone, so it
 * stands still. Twin of dithered in src/render/shaders/display.glsl.
 */
import { hash32 } from '../space'

const LEVELS = 32

/** The sum of two even numbers of five bits each. x, y: whole pixels, y from below; band: 0, 1 or 2. */
export function ditherAt(x: number, y: number, band: number): number {
  const bits = hash32(x, y) >>> (10 * band)
  return ((bits & (LEVELS - 1)) + ((bits >>> 5) & (LEVELS - 1)) + 1) / LEVELS - 1
}

/** A code from 0 to 255, not rounded, with its noise: less next to the ends, so that black stays black and white white. */
export const ditheredCode = (code: number, x: number, y: number, band: number): number =>
  code + ditherAt(x, y, band) * Math.min(1, code, 255 - code)
