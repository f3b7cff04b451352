import { brush, softBrush, spline } from './curves'
import * as data from './data/nose'
import { capsule, ellipsoid, smoothMax, smoothMin } from './solids'

const dorsum = spline(data.DORSUM_Z)
const sideSlope = spline(data.SIDE_SLOPE)
const roundness = spline(data.RIDGE_ROUNDNESS)
const alarCrease = brush(data.ALAR_CREASE, 0.75, 2)
const besideNose = softBrush(data.BESIDE_NOSE, -1.7, 7)
/** The ala is turned inward at the front and dips forward. */
const [ALA_COS, ALA_SIN] = [Math.cos(0.38), Math.sin(0.38)]
const [DIP_COS, DIP_SIN] = [Math.cos(-0.25), Math.sin(-0.25)]

/** The bridge as a height field over y, with hyperbolic ridge, faded into the forehead and cut by the underside plane. */
function bridge(x: number, y: number, z: number): number {
  const slope = sideSlope(y)
  const round = roundness(y)
  const q = Math.sqrt(round * round + slope * slope * x * x)
  const acrossSlope = (slope * slope * x) / q
  const alongSlope = dorsum(y + 0.5) - dorsum(y - 0.5)
  const wedge = (z - dorsum(y) + q - round) / Math.sqrt(1 + acrossSlope * acrossSlope + alongSlope * alongSlope)
  // A hard maximum here leaves a line across the glabella.
  const faded = smoothMax(wedge, y - 11, 8)
  return smoothMax(faded, -underside(y, z), 5)
}

/** Above the plane that cuts the nose off below. */
const underside = (y: number, z: number): number => ((y + 39) * 11 - (z - 38) * 4.5) / Math.hypot(11, 4.5)

function ala(x: number, y: number, z: number): number {
  const cx = x - 11.2
  const cy = y + 39.4
  const cz = z - 22.8
  const inward = -cx * ALA_SIN + cz * ALA_COS
  return ellipsoid(
    cx * ALA_COS + cz * ALA_SIN,
    cy * DIP_COS - inward * DIP_SIN,
    cy * DIP_SIN + inward * DIP_COS,
    5.3,
    6.6,
    10.4,
  )
}

/** The face with the nose joined on. x ≥ 0. */
export function withNose(bare: number, x: number, y: number, z: number): number {
  const face = bare + besideNose(x, y, z)
  if (x > 40 || y > 24 || y < -58 || z < 4) return face
  // Shapes off the midline need |x| rounded off at 0, or they crease there.
  const tip = ellipsoid(Math.sqrt(x * x + 5) - 2.9, y + 36, z - 32.2, 6.9, 7.2, 8.6)
  let f = smoothMin(face, smoothMin(bridge(x, y, z), tip, 6), 6)
  f = smoothMin(f, ala(x, y, z), 4.8)
  f = smoothMin(f, capsule(x, y, z, ...data.COLUMELLA), 3)
  f += alarCrease(x, y, z)
  f = smoothMax(f, -capsule(x, y, z, ...data.NOSTRIL_ARCH), 2.5)
  return smoothMax(f, -nostril(x, y, z), 2)
}

const nostril = (x: number, y: number, z: number): number =>
  smoothMin(capsule(x, y, z, ...data.NOSTRIL_CANAL), capsule(x, y, z, ...data.NOSTRIL_DEPTH), 2)

/** How far a place of the skin is from the wall of a nostril, and how deep above the nose's underside. x ≥ 0. */
export const inNostril = (x: number, y: number, z: number) => ({
  offWall: Math.abs(nostril(x, y, z)),
  depth: underside(y, z),
})
