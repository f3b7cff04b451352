import { BOTTOM_Y } from './data/torso'
import { valueNoise } from './noise'
import { type Field, mix, smoothMax, smoothMin, smoothStep } from './solids'
import { torso } from './torso'

const CLOTH_OFFSET = 3
/** The knitted band at the neck: its breadth along the cloth, and by how much it stands off. */
const BAND = { breadth: 19, height: 0.7 } as const
/** What cloth bridges: hollows narrower than twice this are not followed. */
const BRIDGED = 16
/** Beyond this distance from the torso no cloth need be computed. */
const FAR = 20
/** Half the width of a seam, and how deep it lies: deeper, and the coarse shape that casts its shadow would shade it. */
const SEAM = { half: 1.6, depth: 0.45 } as const
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

/** From the neckline's middle to its edge, by azimuth from the front, mm. */
const EDGE = Float64Array.from({ length: 49 }, (_, i) => {
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
})

/** Millimetres up from the lower edge of the band at the neck; x ≥ 0. */
function inBand(x: number, y: number, z: number): number {
  const ahead = (z - MIDDLE[1]) * NORMAL_Y - (y - MIDDLE[0]) * NORMAL_Z
  const at = (Math.atan2(x, ahead) / Math.PI) * 48
  const i = Math.min(47, Math.floor(at))
  const beyond = Math.max(0, Math.hypot(x, ahead) - mix(EDGE[i], EDGE[i + 1], at - i))
  return BAND.breadth - Math.hypot(Math.min(0, aboveNeckline(y, z)), beyond)
}

/** Soft folds: they hang from the chest and back, and run from the armpits; about ±2 mm. */
function folds(x: number, y: number, z: number): number {
  const hanging = valueNoise(x * 0.034 + 40, y * 0.006, z * 0.03 + 7) - 0.5
  const slanting = valueNoise(x * 0.011 + Math.sign(x) * 30, (y - 0.75 * Math.abs(x)) * 0.03, z * 0.012) - 0.5
  const aside = smoothStep(60, 120, Math.abs(x)) * smoothStep(-190, -230, y)
  return 6 * hanging * smoothStep(-225, -370, y) + 3.4 * slanting * aside
}

const line = (off: number): number => Math.exp(-((off / SEAM.half) ** 2))

/** 1 where band, sleeves and hem are sewn on, 0 away from seams; x ≥ 0. */
function seam(x: number, y: number, z: number): number {
  const band = inBand(x, y, z)
  const sleeve = line((x - 152) * 0.96 - (y + 230) * 0.28) * smoothStep(-318, -290, y)
  const onShoulder = smoothStep(-235, -215, y) * smoothStep(154, 149, x) * smoothStep(0, -4, band)
  const shoulder = line(z + 104 + 0.1 * (x - 60)) * onShoulder
  return Math.max(line(band), sleeve, shoulder, line(y - BOTTOM_Y - HEM))
}

/** A plain crew-neck top: the torso grown by the cloth, cut at the neckline, with a rounded hem. Closed. */
export const garmentField: Field = (x, y, z) => {
  const bare = torso(Math.abs(x), y, z)
  if (bare > FAR) return bare - 10
  const above = aboveNeckline(y, z)
  const bottom = BOTTOM_Y + 2 - y
  if (bare < -FAR) return Math.max(bare, bottom, above)
  const band = BAND.height * smoothStep(-1.5, 2, inBand(Math.abs(x), y, z))
  const sewn = SEAM.depth * seam(Math.abs(x), y, z) - band
  const cloth = smoothMax(draped(x, y, z, bare) - CLOTH_OFFSET - folds(x, y, z) + sewn, above, 2.6)
  return smoothMax(cloth * 0.9, bottom, 22)
}

/** Seams are darker, where little light gets in. */
export function garmentTint(x: number, y: number, z: number): readonly [number, number, number] {
  const tone = mix(1, 0.62, seam(Math.abs(x), y, z) ** 2)
  return [tone, tone, tone]
}
