import { sobol } from '../space'

/** By how much the j-th look moves all thresholds on, 0 to 1: even over the looks, whatever their places within the pixel. */
export const lookShift = (j: number): number => sobol(j, 2)

/**
 * What is thinner than a pixel is seen by a look where the threshold is less than its share: coverage.glsl. x, y: whole
 * pixels, not negative; shift: of the strand and of the look, not negative.
 */
export function thresholdAt(x: number, y: number, shift: number): number {
  const [column, line] = [x & 3, y & 3]
  const d = column ^ line
  const rank = ((d & 1) << 3) | ((line & 1) << 2) | (d & 2) | (line >> 1)
  return ((rank + 0.5) / 16 + shift) % 1
}
