/** The lengths that a shape names, taken between places on the skin of the first sitter wherever these have gone. Millimetres. */
import { CORNEA_CENTRE_Z, CORNEA_RADIUS, EYE_X } from '../sculpt/data/eye'
import type { ShapeFieldName } from './fields'

type Point = readonly [number, number, number]
export type Moved = (place: Point) => Point

/** Where each place is on the first sitter; found by marching its field. */
const PLACES = {
  glabella: [0, 25.8, 26.2],
  sellion: [0, 3.8, 21.1],
  noseTip: [0, -35.5, 41.2],
  subnasale: [0, -49.3, 26.4],
  upperLip: [0, -60.6, 27.7],
  lowerLip: [0, -77.4, 25.5],
  menton: [0, -114.3, 0],
  gonion: [50.6, -79, -56],
  euryon: [74.6, 40, -94],
  backOfSkull: [0, 21, -167.6],
  upperArm: [228, -300, -95],
  corneaApex: [EYE_X, 0, CORNEA_CENTRE_Z + CORNEA_RADIUS],
} as const satisfies Record<string, Point>

/** Half of the neck's section at y = −140: [x, z] from the throat to the nape. */
const NECK_Y = -140
const NECK_RING: readonly (readonly [number, number])[] = [
  [0, -34.8],
  [13.2, -38.7],
  [24.8, -45.1],
  [35.8, -52.2],
  [42.9, -63.3],
  [46.1, -75.6],
  [50.1, -88],
  [59.7, -104],
  [62.5, -124.1],
  [49.6, -137.6],
  [30, -140],
  [13.9, -139.8],
  [0, -141],
]

const gap = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])
const between =
  (a: keyof typeof PLACES, b: keyof typeof PLACES) =>
  (moved: Moved): number =>
    gap(moved(PLACES[a]), moved(PLACES[b]))
const across = (place: keyof typeof PLACES) => (moved: Moved) => 2 * moved(PLACES[place])[0]
const beforeCornea = (place: keyof typeof PLACES) => (moved: Moved) =>
  moved(PLACES[place])[2] - moved(PLACES.corneaApex)[2]

function neckGirth(moved: Moved): number {
  const ring = NECK_RING.map(([x, z]) => moved([x, NECK_Y, z]))
  return 2 * ring.slice(1).reduce((sum, p, i) => sum + gap(p, ring[i]), 0)
}

export const MEASURES: Readonly<Record<Exclude<ShapeFieldName, 'masculinity' | 'ageYears'>, (moved: Moved) => number>> =
  {
    headBreadthMm: across('euryon'),
    headLengthMm: between('glabella', 'backOfSkull'),
    faceLengthMm: between('sellion', 'menton'),
    eyeDepthMm: beforeCornea('glabella'),
    noseBridgeMm: beforeCornea('sellion'),
    noseProtrusionMm: between('subnasale', 'noseTip'),
    jawWidthMm: across('gonion'),
    lipFullnessMm: between('upperLip', 'lowerLip'),
    shoulderBreadthMm: across('upperArm'),
    neckGirthMm: neckGirth,
  }
