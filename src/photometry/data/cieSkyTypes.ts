/** Parameters a, b (gradation) and c, d, e (indicatrix) of the fifteen standard skies [CIES011] table 1. */
export type CieSkyType = readonly [number, number, number, number, number]

/** By type − 1. 1: overcast; 5: even; 12: clear; 13: clear, polluted air. */
export const CIE_SKY_TYPES: readonly CieSkyType[] = [
  [4, -0.7, 0, -1, 0],
  [4, -0.7, 2, -1.5, 0.15],
  [1.1, -0.8, 0, -1, 0],
  [1.1, -0.8, 2, -1.5, 0.15],
  [0, -1, 0, -1, 0],
  [0, -1, 2, -1.5, 0.15],
  [0, -1, 5, -2.5, 0.3],
  [0, -1, 10, -3, 0.45],
  [-1, -0.55, 2, -1.5, 0.15],
  [-1, -0.55, 5, -2.5, 0.3],
  [-1, -0.55, 10, -3, 0.45],
  [-1, -0.32, 10, -3, 0.45],
  [-1, -0.32, 16, -3, 0.3],
  [-1, -0.15, 16, -3, 0.3],
  [-1, -0.15, 24, -2.8, 0.15],
]
