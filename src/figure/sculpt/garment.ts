import { BOTTOM_Y } from './data/torso'
import { valueNoise } from './noise'
import { type Field, mix, smoothMax, smoothMin, smoothStep } from './solids'
import { torso } from './torso'

const CLOTH_OFFSET = 3
/** The knitted band at the neck: its breadth along the cloth, and by how much it stands off. */
const BAND = { breadth: 25, height: 1.3 } as const
/** What cloth bridges: hollows narrower than twice this are not followed. */
const BRIDGED = 16
/** Beyond this distance from the torso no cloth need be computed. */
const FAR = 20
const HEM = 24

/** Middle of the neckline's plane, which is tilted by atan ½, and its way forward. */
const MIDDLE = [-157, -88] as const
const [NORMAL_Y, NORMAL_Z] = [0.894, 0.447]

/** Height over the plane of the neckline, mm; negative on the cloth's side. */
const aboveNeckline = (y: number, z: number): number => (y - MIDDLE[0]) * NORMAL_Y + (z - MIDDLE[1]) * NORMAL_Z

/** Over collar bones and hollows, not into them. */
function draped(x: number, y: number, z: number, bare: number): number {
  const at = (dx: number, dy: number, dz: number) => torso(Math.abs(x + dx), y + dy, z + dz)
  const r = BRIDGED
  const mean = (at(r, 0, 0) + at(-r, 0, 0) + at(0, r, 0) + at(0, -r, 0) + at(0, 0, r) + at(0, 0, -r)) / 6
  return smoothMin(smoothMin(mean, bare, 4), torso(Math.hypot(x, BRIDGED), y, z), 4)
}

/** From the neckline's middle to its edge, by azimuth from the front, mm. Worked out when first asked for: some 20 ms. */
let edge: Float64Array | null = null
const edgeAt = (i: number): number => {
  edge ??= Float64Array.from({ length: 49 }, (_, k) => edgeTowards(k))
  return edge[i]
}

function edgeTowards(i: number): number {
  const azimuth = (Math.PI * i) / 48
  const [across, ahead] = [Math.sin(azimuth), Math.cos(azimuth)]
  let [inside, outside] = [20, 140]
  for (let n = 0; n < 30; n++) {
    const r = (inside + outside) / 2
    const [x, y, z] = [r * across, MIDDLE[0] - r * ahead * NORMAL_Z, MIDDLE[1] + r * ahead * NORMAL_Y]
    if (draped(x, y, z, torso(x, y, z)) < CLOTH_OFFSET) inside = r
    else outside = r
  }
  return inside
}

/** Millimetres up from the lower edge of the band at the neck; x ≥ 0. */
function inBand(x: number, y: number, z: number): number {
  const ahead = (z - MIDDLE[1]) * NORMAL_Y - (y - MIDDLE[0]) * NORMAL_Z
  const at = (Math.atan2(x, ahead) / Math.PI) * 48
  const i = Math.min(47, Math.floor(at))
  const beyond = Math.max(0, Math.hypot(x, ahead) - mix(edgeAt(i), edgeAt(i + 1), at - i))
  return BAND.breadth - Math.hypot(Math.min(0, aboveNeckline(y, z)), beyond)
}

/** Soft folds: they hang from the chest and back, and run from the armpits; about ±2 mm. */
function folds(x: number, y: number, z: number): number {
  const hanging = valueNoise(x * 0.034 + 40, y * 0.006, z * 0.03 + 7) - 0.5
  const slanting = valueNoise(x * 0.011 + Math.sign(x) * 30, (y - 0.75 * Math.abs(x)) * 0.03, z * 0.012) - 0.5
  const aside = smoothStep(60, 120, Math.abs(x)) * smoothStep(-190, -230, y)
  // Next to none at the hem, which is cut straight.
  const hem = mix(0.2, 1, smoothStep(BOTTOM_Y + 4, BOTTOM_Y + 75, y))
  return hem * (6 * hanging * smoothStep(-225, -330, y) + 3.4 * slanting * aside)
}

/** Seams tell of themselves so far off, mm. */
export const SEAM_REACH = 12

/** Four numbers from −1 to 1, in SEAM_REACH. */
export type Seams = readonly [number, number, number, number]

const reached = (mm: number): number => Math.min(1, Math.max(-1, mm / SEAM_REACH))

/**
 * How far a place of the cloth lies from where it is sewn, by planes and lines that any shape and pose take along: up from the seam
 * of the band at the neck, or down from that of the hem; out from the sleeve's; forward from the one over shoulder and side; and
 * whether there is a sleeve (1) or the body's side (0) at that height.
 */
export function seamsAt(signedX: number, y: number, z: number): Seams {
  const x = Math.abs(signedX)
  const across = y < (MIDDLE[0] + BOTTOM_Y) / 2 ? BOTTOM_Y + HEM - y : inBand(x, y, z)
  const sleeve = (x - 152) * 0.96 - (y + 230) * 0.28
  return [reached(across), reached(sleeve), reached(z + 104 + 0.1 * (x - 60)), smoothStep(-318, -290, y)]
}

/** A plain crew-neck top: the torso grown by the cloth, cut at the neckline, with a rounded hem. Closed. */
export const garmentField: Field = (x, y, z) => {
  const bare = torso(Math.abs(x), y, z)
  if (bare > FAR) return bare - 10
  const above = aboveNeckline(y, z)
  const bottom = BOTTOM_Y + 2 - y
  if (bare < -FAR) return Math.max(bare, bottom, above)
  const band = BAND.height * smoothStep(-3.5, 3.5, inBand(Math.abs(x), y, z))
  const cloth = smoothMax(draped(x, y, z, bare) - CLOTH_OFFSET - folds(x, y, z) - band, above, 3.2)
  return smoothMax(cloth * 0.9, bottom, 13)
}
