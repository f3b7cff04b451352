/** Long hair, head covering and hat: what their fields are made of. Millimetres, head-local frame; from sketches, no source. */
import type { Knot } from '../curves'
import type { Ball } from '../solids'

/** The parting of long hair: so far to the sitter's left, and back to the crown, z. */
export const PARTING_X = 15
export const CROWN_Z = -112
/** How far forward hair reaches from the crown, z by height: where it parts, and along its front edge. */
export const STRANDS_TO_Z: readonly Knot[] = [
  [-60, -44],
  [0, -46],
  [30, -34],
  [55, -12],
  [75, 8],
  [110, 14],
]

/** Hairline of long hair, as HAIRLINE: from the parting in a bow over the temple, and down before the ear, which it covers. */
export const LONG_HAIRLINE: readonly Knot[] = [
  [0, 70],
  [0.12, 70.5],
  [0.26, 68],
  [0.4, 62.5],
  [0.52, 55.5],
  [0.64, 48],
  [0.76, 40],
  [0.88, 31.5],
  [0.98, 22],
  [1.08, 9],
  [1.16, -7],
  [1.23, -24],
  [1.3, -44],
  [1.38, -62],
  [1.5, -74],
  [1.8, -80],
  [2.4, -82],
  [Math.PI, -84],
]
/** Where the tips end beside the jaw; behind so much lower that from the front all end level. */
export const FRONT_END_Y = -99

/** The fall of long hair: heights with half-breadth, back, and front edge at the outer side. */
export const FALL_HALF_BREADTH: readonly Knot[] = [
  [-240, 70],
  [-200, 74],
  [-150, 66],
  [-122, 72],
  [-105, 80],
  [-75, 88],
  [-40, 92],
  [0, 92],
  [30, 84],
  [60, 74],
]
export const FALL_BACK_Z: readonly Knot[] = [
  [-240, -170],
  [-200, -170],
  [-150, -166],
  [-110, -176],
  [-40, -181],
  [10, -181],
  [60, -174],
]
export const FALL_FRONT_Z: readonly Knot[] = [
  [-240, -150],
  [-165, -112],
  [-134, -98],
  [-110, -80],
  [-90, -64],
  [-62, -51],
  [-30, -46],
  [0, -47],
  [25, -53],
  [60, -66],
]
export const FALL_TOP_Y = 56
export const FALL_END_Y = -107

/** Face opening of the covering, seen from the front: middle, half-height; half-breadth by height. */
export const OPENING_Y = -26
export const OPENING_HALF_HEIGHT = 87
export const OPENING_HALF_BREADTH: readonly Knot[] = [
  [-114, 46],
  [-60, 55],
  [-10, 62],
  [40, 62],
]
/** Gathered hair under the covering, and ears: centre, half-axes. */
export const GATHERED = [0, -8, -146, 60, 60, 46] as const
export const COVERED_EAR = [70, -10, -88, 20, 46, 42] as const
/** Cloth that hangs from under the chin, from beside the jaw, and from the back of the head. */
export const CHIN_DRAPE: readonly [Ball, Ball] = [
  [0, -110, -30, 18],
  [0, -205, -24, 18],
]
export const JAW_DRAPE: readonly [Ball, Ball] = [
  [42, -82, -66, 15],
  [86, -186, -92, 17],
]
export const NAPE_DRAPE: readonly [Ball, Ball] = [
  [0, -40, -146, 34],
  [0, -196, -142, 30],
]
/** The hem on chest, shoulders and back: an ellipsoid, centre and half-axes. */
export const HEM = [0, -62, -92, 152, 206, 166] as const

/** Hat: its plane lies over the brows and, behind, lower: height over a point at the front, and slope. */
export const HAT_FRONT = [50, 24] as const
export const HAT_SLOPE = 0.105
/** Inside of the crown in that plane: half-breadth, half-depth, middle, exponent of the oval. */
export const HAT_HALF_BREADTH = 79.5
export const HAT_HALF_DEPTH = 100
export const HAT_MIDDLE_Z = -74.5
export const HAT_OVAL = 2.2
export const FELT = 2.8
/** Breadth of the brim at front and back, and at the sides. */
export const BRIM = 64
export const BRIM_SIDE = 56
/** How far the brim's edge dips in front and behind, and rises at the sides. */
export const BRIM_DIP = 5
export const BRIM_LIFT = 9
/** Crown: heights over the plane with the oval's share there. */
export const CROWN: readonly Knot[] = [
  [-10, 1],
  [0, 1],
  [30, 0.985],
  [70, 0.93],
  [100, 0.87],
  [130, 0.8],
]
export const CROWN_HEIGHT = 112
/** The dent along the top: depth and half-breadth. */
export const DENT = [15, 24] as const
/** Ribbon: from and to, over the plane. */
export const RIBBON = [2.5, 27] as const
