import { dot, type Vec3 } from '../../space'

/** A light on a place: illuminance there, and the unit way from the place to it. */
export interface LightOn {
  readonly illuminance: number
  readonly incident: Vec3
}

/** What a cloth does with light that keeps a direction: shares, α = roughness², and the forward lobe's exponent. */
export interface Shaping {
  readonly specular: number
  readonly alpha: number
  readonly forward: number
  readonly exponent: number
}

/** Several lights on one place, with all done beforehand that the direction of view does not change; a row a light. */
export type KeptLobes = Float64Array
/** A row: the way to the light, its cosine, the masking's root on its side, and what the glossy and the forward part are scaled by. */
const ROW = 7

export function keepLobes(normal: Vec3, lights: readonly LightOn[], shaping: Shaping): KeptLobes {
  const a2 = shaping.alpha ** 2
  const rows = new Float64Array(ROW * lights.length)
  lights.forEach(({ illuminance, incident }, i) => {
    const cosI = dot(normal, incident)
    const glossy = cosI > 0 ? (illuminance * shaping.specular * a2) / (2 * Math.PI) : 0
    const forward = (illuminance * shaping.forward * (shaping.exponent + 1)) / (2 * Math.PI)
    rows.set([...incident, cosI, Math.sqrt(a2 + (1 - a2) * cosI * cosI), glossy, forward], ROW * i)
  })
  return rows
}

/**
 * Σ E·(specular·ggx + forward·forwardLobe) of lobes.ts towards a unit direction; cosO > 0: of it with the normal. GGX's spread
 * is |h|² − (1 − α²)(n·h)², which double precision bears: 1e-8 at α = 0.01. Asked thousands of times a reading: no vectors made.
 */
export function keptLuminance(
  rows: KeptLobes,
  { specular, alpha, forward, exponent }: Shaping,
  cosO: number,
  to: Vec3,
) {
  const a2 = alpha * alpha
  const rest = 1 - a2
  const own = Math.sqrt(a2 + rest * cosO * cosO)
  const [x, y, z] = [to[0], to[1], to[2]]
  let sum = 0
  for (let i = 0; i < rows.length; i += ROW) {
    const cosH = rows[i]! * x + rows[i + 1]! * y + rows[i + 2]! * z
    if (specular > 0 && rows[i + 5]! > 0) {
      const cosI = rows[i + 3]!
      const hh = 2 + 2 * cosH
      const nh = cosI + cosO
      const spread = hh - rest * nh * nh
      sum += (rows[i + 5]! * hh * hh) / (spread * spread * (cosO * rows[i + 4]! + cosI * own))
    }
    if (forward > 0 && cosH < 0) sum += (rows[i + 6]! * (-cosH) ** exponent) / cosO
  }
  return sum
}
