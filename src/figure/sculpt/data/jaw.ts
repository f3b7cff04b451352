import type { CurvePoint } from '../curves'

/** Strokes about jaw and chin. Millimetres; from sketches, no source. */
/** Over the jaw's angle, where its muscle ends. */
export const JAW_ANGLE: readonly CurvePoint[] = [
  [53, -70, -58, 0.3],
  [50.5, -79, -56, 1],
  [46, -87, -46, 0.7],
  [40, -94, -33, 0.1],
]
/** Along the underside, a centimetre behind the border. */
export const UNDER_JAW: readonly CurvePoint[] = [
  [38, -86, -66, 0.3],
  [36, -92, -56, 1],
  [33, -99, -42, 1],
  [29, -106, -28, 1],
  [22, -112, -17, 0.7],
  [12, -116, -12, 0],
]
export const CHIN: readonly CurvePoint[] = [
  [0, -97, 22, 1],
  [6, -99, 21, 0.9],
  [11, -101, 18, 0.2],
]
export const BESIDE_CHIN: readonly CurvePoint[] = [
  [17, -92, 17, 0.2],
  [20.5, -99, 11, 1],
  [24, -105, 3, 0.4],
]
/** Between lower lip and chin. */
export const LIP_FOLD: readonly CurvePoint[] = [
  [0, -87, 21.5, 1],
  [7, -86, 20.5, 0.9],
  [14, -84, 17.5, 0.2],
]
