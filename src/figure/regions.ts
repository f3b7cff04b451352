/** Regions of head and neck by name. Drawn on the average face, in millimetres; other faces are measured against it by landmarks. */
import { cross, dot, subtract, type Vec3 } from '../space'
import { EYE_X } from './sculpt/data/eye'
import { BROW_STROKE } from './sculpt/data/paint'
import { lidOpening } from './sculpt/eye'
import { insideHairline } from './sculpt/hair'
import { lowerBorder, upperBorder } from './sculpt/mouth'
import type { Landmark, LandmarkName, PosedFigure } from './types'

export const FACE_REGIONS = [
  'forehead',
  'temple',
  'brow',
  'lids',
  'nose',
  'nose side',
  'cheek',
  'upper lip',
  'mouth',
  'chin',
  'jaw',
  'ear',
  'neck',
  'scalp',
] as const
export type FaceRegion = (typeof FACE_REGIONS)[number]

/** A region, and on whose hand it lies: the sitter's own left or right. */
export interface RegionPlace {
  readonly region: FaceRegion
  readonly side: 'left' | 'right'
}

type Places = Readonly<Record<LandmarkName, Pick<Landmark, 'position'>>>
type Knot = readonly [here: number, average: number]

/** Landmark heights of the average sitter from the neck up, and sides from the midline out, mm: sculpt/landmarks.ts finds them. */
const HEIGHTS: readonly (readonly [LandmarkName, number])[] = [
  ['menton', -114.3],
  ['stomion', -68],
  ['subnasale', -49.5],
  ['eyeCentreLeft', 0],
  ['glabella', 25.8],
  ['foreheadCentre', 42],
]
const SIDES: readonly (readonly [LandmarkName, number])[] = [
  ['noseShadowCheekLeft', 24],
  ['eyeCentreLeft', 31.5],
  ['earLeft', 71.8],
]
const DEPTHS: readonly (readonly [LandmarkName, number])[] = [
  ['earLeft', -71.5],
  ['subnasale', 26.4],
]

/** Straight between the knots, and on with the outermost slopes. */
function along(knots: readonly Knot[], at: number): number {
  let i = 1
  while (i < knots.length - 1 && at > knots[i][0]) i++
  const [[x0, y0], [x1, y1]] = [knots[i - 1], knots[i]]
  return y0 + ((at - x0) / (x1 - x0)) * (y1 - y0)
}

/**
 * Names places of one sitter's skin. landmarks: the sitter's, in the head's own frame (FigureAsset.landmarks); a place is
 * in that frame too, metres. Every place has a name; one inside the head has that of the skin before it.
 */
export function faceRegions(landmarks: Places): (place: Vec3) => RegionPlace {
  const knots = (table: typeof HEIGHTS, axis: 0 | 1 | 2): Knot[] =>
    table.map(([name, average]) => [landmarks[name].position[axis] * 1000, average])
  const heights = knots(HEIGHTS, 1)
  const sides: Knot[] = [[0, 0], ...knots(SIDES, 0)]
  const depths = knots(DEPTHS, 2)
  return ([x, y, z]) => ({
    region: regionAt(along(sides, Math.abs(x) * 1000), along(heights, y * 1000), along(depths, z * 1000)),
    side: x >= 0 ? 'left' : 'right',
  })
}

/** The ear from the side: an ellipse round it, and how far out it begins. */
const EAR = { from: 62, y: -12, z: -92, up: 36, along: 26 }
/** Lower edge of the jaw: depth and height from the menton by the angle of the jaw to the ear's lobe. */
const JAW_EDGE: readonly Knot[] = [
  [-74, -46],
  [-56, -79],
  [0, -114],
  [20, -110],
]
const BEHIND_THE_FACE = -74
/** Half the nose's breadth as seen from the front, from its base up to its root; and of its ridge and tip. */
const NOSE: readonly Knot[] = [
  [-51, 11],
  [-45, 17.5],
  [-35, 17.5],
  [-25, 12.5],
  [8, 7],
]
const NOSE_TOP = 8
const NOSE_BASE = -49.5
const RIDGE = 5.5
/** Lids reach so far beyond their opening: up to the fold under the brow, down to the edge of the socket. */
const LIDS = { above: 9, below: 7, front: -12 }
const MOUTH_HALF = 26
const CHIN_HALF = 27
/** From the end of the brow back to the hair before the ear. */
const TEMPLE = { from: 48, below: -4, back: -52 }
const BROW_EDGE = 1.5
const FOREHEAD = 16

/** x ≥ 0; millimetres of the average face. */
function regionAt(x: number, y: number, z: number): FaceRegion {
  if (x > EAR.from && ((y - EAR.y) / EAR.up) ** 2 + ((z - EAR.z) / EAR.along) ** 2 < 1) return 'ear'
  if (y < along(JAW_EDGE, Math.max(z, BEHIND_THE_FACE))) return 'neck'
  if (z < BEHIND_THE_FACE || insideHairline(x, y, z) > 0) return 'scalp'
  return frontRegion(x, y, z)
}

function frontRegion(x: number, y: number, z: number): FaceRegion {
  if (z > -15 && inBrow(x, y)) return 'brow'
  if (z > LIDS.front && inLids(x, y)) return 'lids'
  if (y <= NOSE_TOP && y > NOSE_BASE && x < along(NOSE, y)) return x < RIDGE ? 'nose' : 'nose side'
  if (x < MOUTH_HALF && y < NOSE_BASE && z > 0) {
    if (y > upperBorder(x)) return 'upper lip'
    if (y > lowerBorder(x)) return 'mouth'
  }
  if (y < -68) return x < CHIN_HALF && z > -20 ? 'chin' : y < -76 ? 'jaw' : 'cheek'
  if (x > TEMPLE.from && y > TEMPLE.below) return z > TEMPLE.back ? 'temple' : 'scalp'
  return y > FOREHEAD || (x < 12 && y > NOSE_TOP) ? 'forehead' : 'cheek'
}

/** Up to the brow where there is one above. */
function inLids(x: number, y: number): boolean {
  if (lidOpening(x - EYE_X, y) < (y > 0 ? LIDS.above : LIDS.below)) return true
  return y > 0 && underBrow(x) && y < along(BROW_MIDDLE, x)
}

const BROW_MIDDLE = BROW_STROKE.map(([at, height]): Knot => [at, height])
const BROW_HALF = BROW_STROKE.map(([at, , half]): Knot => [at, half])
const underBrow = (x: number): boolean => x > BROW_MIDDLE[0][0] && x < BROW_MIDDLE[BROW_MIDDLE.length - 1][0]
const inBrow = (x: number, y: number): boolean =>
  underBrow(x) && Math.abs(y - along(BROW_MIDDLE, x)) < along(BROW_HALF, x) + BROW_EDGE

/** The same for a sitter as posed: names places of the room, on head and neck. */
export function posedRegions({
  landmarks,
  headUp,
  noseDirection,
  eyeMidpoint,
}: PosedFigure): (at: Vec3) => RegionPlace {
  const left = cross(headUp, noseDirection)
  const inHead = (at: Vec3): Vec3 => {
    const from = subtract(at, eyeMidpoint)
    return [dot(from, left), dot(from, headUp), dot(from, noseDirection)]
  }
  const places = Object.entries(landmarks).map(([name, { position }]) => [name, { position: inHead(position) }])
  const name = faceRegions(Object.fromEntries(places) as Places)
  return (at) => name(inHead(at))
}
