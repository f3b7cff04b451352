import { BOTTOM_Y } from './data/torso'
import { valueNoise } from './noise'
import { type Field, mix, smoothMax, smoothMin, smoothStep } from './solids'
import { torso } from './torso'

const CLOTH_OFFSET = 3
/** The knitted band at the neck: its breadth along the cloth, and by how much it stands off. */
const BAND = { breadth: 25, height: 1.3 } as const
/** What cloth bridges: hollows narrower than twice this are not followed. */
const BRIDGED = 16
/** By so much less at the edge of the neckline. */
const CLOSE = 0.4
/** Beyond this distance from the torso no cloth need be computed. */
const FAR = 20
const HEM = 24

/** Middle of the neckline's plane, which is tilted by atan ½, and its way forward. */
const MIDDLE = [-164, -88] as const
const [NORMAL_Y, NORMAL_Z] = [0.894, 0.447]
/** The opening is a cone that widens downwards, so that it cuts the cloth squarely all round: half-axes in that plane. */
const OPENING = { across: 67, ahead: 65 } as const
/** Where it meets the cloth: so much higher over that plane than outwards from the oval. */
const OPENING_RISE = 6
/** It goes so deep into the solid, well under the skin of the neck. */
const OPENING_DEPTH = 34

/** Height over the plane of the neckline, mm; negative on the cloth's side. */
const aboveNeckline = (y: number, z: number): number => (y - MIDDLE[0]) * NORMAL_Y + (z - MIDDLE[1]) * NORMAL_Z

/** Over collar bones and hollows, not into them. */
function draped(x: number, y: number, z: number, bare: number): number {
  const at = (dx: number, dy: number, dz: number) => torso(Math.abs(x + dx), y + dy, z + dz)
  const r = BRIDGED
  const mean = (at(r, 0, 0) + at(-r, 0, 0) + at(0, r, 0) + at(0, -r, 0) + at(0, 0, r) + at(0, 0, -r)) / 6
  return smoothMin(smoothMin(mean, bare, 4), torso(Math.hypot(x, BRIDGED), y, z), 4)
}

/** Forward in that plane from its middle, mm. */
const aheadOfMiddle = (y: number, z: number): number => (z - MIDDLE[1]) * NORMAL_Y - (y - MIDDLE[0]) * NORMAL_Z

/** Into the opening from its edge, in height and in the plane together; negative on the cloth. */
function intoOpening(x: number, y: number, z: number): number {
  const off = (Math.hypot(x / OPENING.across, aheadOfMiddle(y, z) / OPENING.ahead) - 1) * OPENING.ahead
  return aboveNeckline(y, z) - off - OPENING_RISE
}

/** By how much that grows in a millimetre up the cloth: in front and at the sides, and behind. */
const [STEEP, STEEP_BEHIND] = [1.42, 1.25]

/** Millimetres up from the lower edge of the band at the neck. */
const inBand = (x: number, y: number, z: number): number =>
  BAND.breadth + intoOpening(x, y, z) / mix(STEEP, STEEP_BEHIND, smoothStep(30, -60, aheadOfMiddle(y, z)))

/** Where cloth is drawn together, in front view. */
const ARMPIT = [150, -282] as const

/**
 * Folds: they run out from the armpits over chest and sleeve, hang from chest and back, and lie across where the arm bends; some
 * millimetres deep and a few centimetres apart. Mean about 0.
 */
function folds(x: number, y: number, z: number): number {
  const side = Math.sign(x) * 30
  const [aside, above] = [Math.abs(x) - ARMPIT[0], y - ARMPIT[1]]
  const off = Math.hypot(aside, above)
  const turn = Math.atan2(above, -aside)
  // Straight out over the sleeve the way round begins anew.
  const ahead = smoothStep(0, 0.6, Math.PI - Math.abs(turn))
  const drawn = ridges(valueNoise(turn * 2.5 + side, off * 0.005, z * 0.009))
  const fromArmpit =
    smoothStep(212, 188, Math.abs(x)) *
    smoothStep(18, 72, off) *
    // The two sides differ, and meet in the middle.
    smoothStep(148, 72, off) *
    smoothStep(-196, -232, y) *
    ahead
  const hanging = ridges(valueNoise(x * 0.021 + 40 + 0.004 * y, y * 0.0045, z * 0.013))
  const across = valueNoise(x * 0.01 + side, (y - 0.45 * Math.abs(x)) * 0.034, z * 0.01) - 0.5
  const onArm = smoothStep(150, 172, Math.abs(x)) * smoothStep(-330, -390, y)
  // Next to none at the hem, which is cut straight.
  const hem = mix(0.1, 1, smoothStep(BOTTOM_Y + 4, BOTTOM_Y + 75, y))
  return hem * (7 * drawn * fromArmpit + 6 * hanging * smoothStep(-250, -345, y) * (1 - onArm) + 9 * across * onArm)
}

/** Of noise from 0 to 1: round backs with somewhat narrower valleys between, mean about 0. */
function ridges(noise: number): number {
  const off = 2.1 * (noise - 0.5)
  return 0.2 - (off * off) / (1 + 0.4 * off * off)
}

/** Seams tell of themselves so far off, mm: farther than a triangle reaches, or a distance that ends in it bends the seam. */
export const SEAM_REACH = 40

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
  const across = y < -400 ? BOTTOM_Y + HEM - y : inBand(x, y, z)
  const sleeve = (x - 153 + 15 * Math.exp(-(((y + 280) / 58) ** 2))) * 0.95
  return [reached(across), reached(sleeve), reached(z + 104 + 0.1 * (x - 60)), smoothStep(-392, -372, y)]
}

/** A plain crew-neck top with long sleeves: the torso grown by the cloth, cut at the neckline and straight below. Closed. */
export const garmentField: Field = (x, y, z) => {
  const bare = torso(Math.abs(x), y, z)
  if (bare > FAR) return bare - 10
  const bottom = BOTTOM_Y + 2 - y
  const opening = Math.min(0.7 * intoOpening(x, y, z), aboveNeckline(y, z) + OPENING_DEPTH)
  if (bare < -FAR) return Math.max(bare, bottom, opening)
  const up = inBand(x, y, z)
  const band = BAND.height * smoothStep(-3.5, 3.5, up)
  // At the neck it lies close.
  const hung = mix(draped(x, y, z, bare), bare, CLOSE * smoothStep(-12, BAND.breadth, up))
  const cloth = smoothMax(hung - CLOTH_OFFSET - folds(x, y, z) - band, opening, 2.6)
  return smoothMax(cloth * 0.9, bottom, 5)
}
